import { type Affine, IDENTITY, scaling } from '../../geometry/affine.ts'
import { strokeLength } from '../../geometry/stroke.ts'
import type { Drawing } from '../drawing.ts'
import { LABELS, lengthText, longLengthText } from '../labels.ts'
import type { Page } from '../shape/shape.ts'
import { coverPage } from './cover.ts'
import { drawSheet } from './draw-sheet.ts'
import { pageMap } from './page-map.ts'
import type { Paper } from './paper.ts'
import { planSheets, type SheetPlan, type SheetWishes, sheetNames } from './sheet-plan.ts'
import { quiltTracing, type Tracing } from './tracing.ts'

/** The wishes for a set of sheets, and what to leave out. */
export interface SheetSet extends SheetWishes {
  readonly mirrored: boolean
  readonly cover: Paper
  readonly layers: { readonly seams: boolean; readonly arrows: boolean }
}

/** Left and right exchanged, or nothing done. */
export const mirrorOf = ({ mirrored }: Pick<SheetSet, 'mirrored'>): Affine =>
  mirrored ? scaling(-1, 1) : IDENTITY

/** A tracing without the seams or the guidance that are not wanted. */
export const trimmed = (tracing: Tracing, { seams, arrows }: SheetSet['layers']): Tracing => ({
  ...tracing,
  seams: seams ? tracing.seams : [],
  arrows: arrows ? tracing.arrows : [],
})

/** The whole quilt at full size: a first page with map and test squares, then the sheets row by row. */
export function* quiltSheets(drawing: Drawing, set: SheetSet): Generator<Page> {
  const tracing = trimmed(quiltTracing(drawing, mirrorOf(set)), set.layers)
  const plan = planSheets(tracing, set)
  const names = sheetNames(plan)
  const mirrored = set.mirrored ? 'mirrored' : 'as stitched'
  yield coverPage(set.cover, coverText(drawing, plan, set), (room) => pageMap(tracing, plan, room))
  for (const [i, place] of plan.places.entries())
    yield drawSheet(tracing, plan, {
      ...place,
      title: drawing.title,
      mirrored,
      names,
      count: [i + 1, plan.places.length],
    })
}

function coverText(drawing: Drawing, plan: SheetPlan, set: SheetSet) {
  const { sheets: say } = LABELS
  const { quilt, units, lines } = drawing
  const length = lines.reduce((sum, l) => sum + l.parts.reduce((s, p) => s + strokeLength(p.stroke), 0), 0)
  const size = say.size(lengthText(quilt.widthMm, units), lengthText(quilt.heightMm, units))
  const leftOut = plan.tiling.rows * plan.tiling.columns - plan.places.length
  return {
    title: drawing.title,
    heading: set.mirrored ? `${say.heading} ${say.mirrored}` : say.heading,
    facts: say.facts(size, longLengthText(length, units), say.sheetCount(plan.places.length)),
    steps: say.steps,
    ...(leftOut > 0 ? { footnote: say.leftOut(leftOut) } : {}),
  }
}
