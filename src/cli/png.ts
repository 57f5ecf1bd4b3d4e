import { createRequire } from 'node:module'
import { PlanError } from '../error.ts'

/** Width of a picture as PNG, pixels. */
const WIDTH = 2400

/**
 * An SVG picture as PNG. The font comes with the program, so that the same picture gives the same bytes everywhere.
 *
 * @throws PlanError `png/unavailable` if the optional renderer is not installed
 */
export async function pngOf(svg: string): Promise<Uint8Array> {
  const resvg = await import('@resvg/resvg-js').catch(() => undefined)
  if (!resvg) {
    throw new PlanError({
      code: 'png/unavailable',
      at: '',
      message: 'the optional package @resvg/resvg-js is not installed; without it there is no PNG',
    })
  }
  const font = createRequire(import.meta.url).resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf')
  const options = {
    fitTo: { mode: 'width' as const, value: WIDTH },
    font: { loadSystemFonts: false, fontFiles: [font], defaultFontFamily: 'DejaVu Sans' },
  }
  return new resvg.Resvg(svg, options).render().asPng()
}
