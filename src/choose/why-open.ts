import { lengthText } from '../export/labels.ts'
import type { Plan } from '../plan/plan.ts'
import { causesOf } from './causes.ts'
import type { Telling } from './choice.ts'
import type { Ground, Option, Slot } from './slot.ts'
import { type Mix, suitsFoot } from './weigh.ts'

/** Why a gap that reaches into some bands (-1: into the centre) is not smaller, in words. */
export const whyOpen = (telling: Telling, bands: readonly number[]): string =>
  causesOf(bands, telling)
    .map((band) => whyBandOpen(telling, band))
    .join('; ')

function whyBandOpen({ plan, grounds, mixes, unfed }: Telling, band: number): string {
  const i = grounds.findIndex((ground) => ground.band === band)
  const ground = grounds[i]
  if (!ground) return 'the plan leaves the centre unquilted'
  const name = plan.allOver ? 'the whole quilt' : ground.band < 0 ? 'the centre' : `"${ground.at}"`
  const options = mixes[i]!.options
  const filled = ground.slots.flatMap((slot, k) => (options[k] ? [{ slot, option: options[k] }] : []))
  if (filled.length === 0)
    return ground.slots.some(({ isAuto }) => isAuto)
      ? `no filler suits ${name}`
      : `the plan leaves ${name} unquilted`
  const widest = filled.reduce((worst, next) =>
    next.option.measured.gapMm > worst.option.measured.gapMm ? next : worst,
  )
  const isWalking = plan.machine.foot === 'walking'
  const able = widest.slot.options.filter((option) => !isWalking || suitsFoot(option, ground, { unfed }))
  return slotReason({ ...widest, able: able.length > 0 ? able : widest.slot.options }, { plan, name })
}

function slotReason(
  { slot, option, able }: { slot: Slot; option: Option; able: readonly Option[] },
  { plan, name }: { plan: Plan; name: string },
): string {
  const where = slot.part === '' ? name : `${name} (${slot.part})`
  const length = (mm: number) => lengthText(mm, plan.units)
  const gap = length(option.measured.gapMm)
  if (slot.options.length === 1)
    return plan.spacing === 'own'
      ? `${where} keeps the ${option.title}'s own spacing, since the plan does not say spacing: auto`
      : option.filler.given.length > 0
        ? `the plan gives the ${option.title} of ${where} its values`
        : `the ${option.title} of ${where} has no spacing to choose; it leaves ${gap}`
  const choice = slot.isAuto ? able : able.filter(({ filler }) => filler.name === option.filler.name)
  const least = choice.reduce((best, next) => (next.measured.gapMm < best.measured.gapMm ? next : best))
  const closest = length(least.measured.gapMm)
  const more =
    least.measured.gapMm <= plan.batting.limit
      ? ' on an even strip; corners, uneven sides or a repeat that is stretched to fit leave more'
      : ''
  if (!slot.isAuto) return `the ${option.title} of ${where} leaves ${closest} at its closest${more}`
  const suiting = plan.machine.foot === 'walking' ? `suit ${where} and a walking foot` : `suit ${where}`
  return `of the fillers that ${suiting} the closest, ${least.title}, leaves ${closest}${more}`
}

/** Density ratios of neighbours this near to the best that their fillers allow are as good, as a factor. */
const AS_GOOD = 1.15

/** Why two neighbours are not more even, in words. @param bands  their indices */
export function whyUneven({ plan, grounds, mixes }: Telling, bands: readonly [number, number]): string {
  const places = bands.map((band) => grounds.findIndex((ground) => ground.band === band))
  const [a, b] = places.map((i) => rangeOf(grounds[i]!, mixes[i]!))
  const [first, second] = places.map((i) => mixes[i]!.perArea)
  const ratio = Math.max(first! / second!, second! / first!)
  const best = Math.max(1, a!.least / b!.most, b!.least / a!.most)
  if (plan.spacing === 'own')
    return 'fillers keep their own spacings, since the plan does not say spacing: auto'
  if (best * AS_GOOD >= ratio) return `their fillers allow no ratio below ${best.toFixed(1)}`
  return plan.machine.foot === 'walking'
    ? "a walking foot and the batting's limit leave no better choice"
    : "the batting's limit and their other neighbours leave no better choice"
}

/** The least and the greatest density that a ground's slots can come to, mm of line to the mm². */
function rangeOf({ slots, areaMm2 }: Ground, { perArea }: Mix): { least: number; most: number } {
  if (slots.every(({ options }) => options.length === 0)) return { least: perArea, most: perArea }
  const sum = (of: (values: readonly number[]) => number) =>
    slots.reduce(
      (total, { options, areaMm2: own }) =>
        total + (options.length > 0 ? (own / areaMm2) * of(options.map((o) => o.measured.perArea)) : 0),
      0,
    )
  return { least: sum((values) => Math.min(...values)), most: sum((values) => Math.max(...values)) }
}
