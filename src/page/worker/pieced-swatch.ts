import { piecingOf } from '../../engine-input.ts'
import { pathData } from '../../export/path-data.ts'
import type { Point } from '../../geometry/point.ts'
import { fillPatch } from '../../pieces/patch-fillers/contract.ts'
import { PATCH_FILLERS } from '../../pieces/patch-fillers/index.ts'
import type { BandPlan } from '../../plan/plan.ts'
import type { Swatch } from './messages.ts'

/** So many units are drawn, at the least. */
const UNITS = 6

/** A pieced band's patches with their fabrics and fillers, in a straight strip of its width, mm; undefined if it has none. */
export function piecedSwatch(band: BandPlan, index: number, width: number): Swatch | undefined {
  const piecing = piecingOf(band, index)
  if (!piecing || !('unit' in piecing)) return undefined
  const rows = Math.max(1, Math.round(width / (piecing.size ?? width)))
  const size = width / rows
  const { turns, aspect } = piecing.unit
  const columns = UNITS * rows
  const main = band.fabric[0]?.colour ?? '#cccccc'
  const patches: { data: string; fabric: string }[] = []
  const lines: string[] = []
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++)
      for (const { name, outline } of turns[(row + column) % turns.length]!) {
        const corners = outline.map(([x, y]): Point => [(column + x) * size * aspect, (row + y) * size])
        patches.push({
          data: `M${corners.map((p) => p.join(' ')).join('L')}Z`,
          fabric: piecing.fabrics[name] ?? main,
        })
        const choice = band.pieced?.fillers[name]
        const filler = choice && PATCH_FILLERS[choice.name]
        if (filler)
          for (const stroke of fillPatch({ name: choice.name, filler, values: choice.values }, corners))
            lines.push(pathData(stroke, 2))
      }
  return { data: lines.join(' '), width, length: columns * size * aspect, patches }
}
