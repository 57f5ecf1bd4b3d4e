import { svgPathProperties } from 'svg-path-properties'

/** A path of an SVG file in mm. */
export interface SvgPath {
  readonly id: string
  readonly lengthMm: number
  readonly start: readonly [number, number]
  readonly end: readonly [number, number]
}

/** The size and paths of an SVG file in real units, paths measured by svg-path-properties 1.3. */
export function readSvg(text: string): { widthMm: number; heightMm: number; paths: SvgPath[] } {
  const root =
    /<svg [^>]*width="([\d.]+)(mm|in)" height="([\d.]+)(mm|in)" viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(text)
  if (!root) throw new Error('no size in real units')
  const widthMm = Number(root[1]) * (root[2] === 'in' ? 25.4 : 1)
  const heightMm = Number(root[3]) * (root[4] === 'in' ? 25.4 : 1)
  const mmPerUnit = widthMm / Number(root[5])
  const paths = [...text.matchAll(/<path id="([^"]*)"[^>]* d="([^"]*)"/g)].map(([, id, d]) => {
    const path = new svgPathProperties(d!)
    const at = (length: number) => {
      const { x, y } = path.getPointAtLength(length)
      return [x * mmPerUnit, y * mmPerUnit] as const
    }
    const length = path.getTotalLength()
    return { id: id!, lengthMm: length * mmPerUnit, start: at(0), end: at(length) }
  })
  return { widthMm, heightMm, paths }
}
