import type { Drawing, GapMark, Swatch } from '../export/drawing.ts'
import type { Plan } from '../plan/plan.ts'
import type { Quilt } from '../quilt/quilt.ts'
import type { Report } from './report.ts'
import { chooseThread } from './thread-choice.ts'

/** What a picture shows of a report: bobbin changes and gaps. */
export const drawnFigures = (report: Report): Pick<Drawing, 'bobbinChanges' | 'gaps'> => ({
  bobbinChanges: report.thread.bobbinChanges.map(({ at }) => at),
  gaps: gapMarks(report),
})

/** The largest circle and square of the quilt, and the largest circle of each quilted band. */
function gapMarks({ gap, bands }: Report): GapMark[] {
  const mark = (
    band: string | undefined,
    shape: GapMark['shape'],
    { at, sizeMm }: { at: readonly [number, number] | null; sizeMm: number | null },
  ): GapMark[] => (at && sizeMm ? [{ band, shape, at, sizeMm, isTooLarge: sizeMm > gap.limitMm }] : [])
  return [
    ...mark(undefined, 'circle', { at: gap.at, sizeMm: gap.largestMm }),
    ...mark(undefined, 'square', { at: gap.squareAt, sizeMm: gap.squareMm }),
    ...bands.flatMap(({ name, gapAt, gapMm }) => mark(name, 'circle', { at: gapAt, sizeMm: gapMm })),
  ]
}

/** The plan's thread on the cloth of each band that is quilted. */
export function swatchesOf(plan: Plan, quilt: Quilt): Swatch[] {
  const { planned, bands } = chooseThread(plan, quilt)
  return bands.map(({ name, fabrics }, i) => ({
    band: name,
    fabrics,
    look: planned.bands[i]!.visibility,
  }))
}
