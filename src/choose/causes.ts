import type { Plan } from '../plan/plan.ts'
import type { Ground } from './slot.ts'

/**
 * The bands (-1: the centre) that a gap is due to, of those that it reaches into: the ones that would be too open whatever
 * is stitched beside them, or else all.
 */
export function causesOf(
  bands: readonly number[],
  { plan, grounds }: { plan: Plan; grounds: readonly Ground[] },
): readonly number[] {
  const { limit } = plan.batting
  const tooOpen = bands.filter((band) => {
    const slots = grounds.find((ground) => ground.band === band)?.slots ?? []
    if (slots.every(({ options }) => options.length === 0)) return widthOf(plan, band) > limit
    return slots.some(({ options }) => options.every(({ measured }) => measured.gapMm > limit))
  })
  return tooOpen.length > 0 ? tooOpen : bands
}

/** The greatest width of a band, or the lesser side of the centre, mm. */
const widthOf = ({ centre, bands }: Plan, band: number): number =>
  band < 0 ? Math.min(centre.width, centre.height) : Math.max(...Object.values(bands[band]!.width))
