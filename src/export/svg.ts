import { applyAffine } from '../geometry/affine.ts'
import { boundsOf } from '../geometry/stroke.ts'
import { MM_PER } from '../units.ts'
import type { Drawing } from './drawing.ts'
import { escapeXml } from './escape.ts'
import { defineExporter } from './exporter.ts'
import { numberText } from './number-text.ts'
import { machinePath, type PathRun } from './path/machine-path.ts'
import { pathNotes } from './path/path-notes.ts'
import { COMMON_OPTIONS, type TableValues } from './path/path-options.ts'
import { turning } from './path/placement.ts'

/** SVG's own frame: y down, the origin at the top left corner of the turned quilt. */
const FRAME = { box: 'quilt', origin: 'top-left', yAxis: 'down' } as const

/**
 * A machine path as SVG in real units: one user unit is one mm or one inch, one `path` a thread start.
 *
 * @source SVG 2, 8.2 and 8.6: width and height in real units, viewBox of the same numbers
 */
export default defineExporter({
  title: 'SVG path in real units',
  purpose: 'machine-path',
  extension: 'svg',
  mediaType: 'image/svg+xml',
  unit: 'chosen',
  options: COMMON_OPTIONS,
  write(drawing, options) {
    const values: TableValues = { ...options, ...FRAME }
    const path = machinePath(drawing, values, 'flatten')
    const [width, height] = sizeOf(drawing, values, path.units)
    const thin = numberText(0.3 / MM_PER[path.units], 4)
    const lines = path.threads.map((runs, i) => {
      const id = path.needleDown ? `thread-${i + 1}` : 'bounds'
      return `<path id="${id}" fill="none" stroke="${escapeXml(path.colours[i]!)}" stroke-width="${thin}" d="${pathData(runs, options.decimals)}"/>`
    })
    return [
      '<?xml version="1.0" encoding="UTF-8"?>',
      `<svg xmlns="http://www.w3.org/2000/svg" width="${width}${path.units}" height="${height}${path.units}" viewBox="0 0 ${width} ${height}">`,
      `<title>${escapeXml(drawing.title)}</title>`,
      `<desc>${escapeXml(pathNotes(drawing, path, values).join('\n'))}</desc>`,
      ...lines,
      '</svg>',
      '',
    ].join('\n')
  },
})

function sizeOf(drawing: Drawing, values: TableValues, units: 'mm' | 'in'): [string, string] {
  const turned = turning(values)
  const box = boundsOf(drawing.quilt.edge.map((p) => applyAffine(turned, p)))
  return [
    numberText((box.maxX - box.minX) / MM_PER[units], 6),
    numberText((box.maxY - box.minY) / MM_PER[units], 6),
  ]
}

/** SVG path data of runs that follow one another. */
function pathData(runs: readonly PathRun[], decimals: number): string {
  const number = (v: number) => numberText(v, decimals)
  const data = [`M${runs[0]!.stroke.start.map(number).join(' ')}`]
  for (const { stroke } of runs)
    for (const { to } of stroke.segments) data.push(`L${number(to[0])} ${number(to[1])}`)
  return data.join('')
}
