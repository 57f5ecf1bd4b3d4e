import { seededRandom } from '../motif/random.ts'
import type { Plan } from '../plan/plan.ts'
import type { Ground, Option, Slot } from './slot.ts'
import type { Unfed } from './unfed.ts'

/**
 * How much is stitched, mm of line to the mm², at each density: lines about 17, 10 and 5.5 mm apart. Common practice, no
 * source: the fillers' own spacings come to about 10 mm to the cm².
 */
export const DENSITY: Readonly<Record<Plan['density'], number>> = { light: 0.06, medium: 0.1, dense: 0.18 }

/** What a choice is weighed by: squares of logarithms, so that twice and half are as bad. */
const WEIGHTS = {
  /** Off the density that the plan wants. */
  density: 1,
  /** Off the filler's usual value. */
  taste: 0.25,
  /** Wider or narrower than what a motif looks best in. */
  suits: 0.4,
  /** Wider than it suits. */
  tooWide: 40,
  /** More or less closely stitched than a neighbour; above `UNEVEN` much more so. */
  even: 1,
  uneven: 20,
  /** Past the batting's limit: more than evenness and all that is a matter of taste can make up for. */
  gap: { once: 250, more: 150 },
  /** Not for a walking foot, where the plan has one: for a filler that is chosen, and for one that is given. */
  foot: { chosen: 1000, given: 20 },
  /** The filler of a neighbour; of others, for each. */
  twice: 60,
  again: 0.6,
  /** What the seed decides between fillers that are as good. */
  seed: 0.3,
} as const

/** A ratio of density above this is on its way to be uneven: a corner or a stretched repeat may add the rest. */
const UNEVEN = Math.log(2.5)
/** The least density that is told apart, mm to the mm². */
const BARE = 1e-4

/** What a choice is weighed against. */
export interface Scales {
  readonly plan: Plan
  /** For each ground, the greatest gap that is aimed at, mm. */
  readonly aims: ReadonlyMap<number, number>
  /** What a walking foot was found unable to stitch; empty for free-motion. */
  readonly unfed: Unfed
}

/** One way to fill a ground: an option for each of its slots that has any. */
export interface Mix {
  readonly options: readonly (Option | undefined)[]
  /** Length of line over the ground's whole area, mm to the mm². */
  readonly perArea: number
  /** What speaks against it, its neighbours apart. */
  readonly cost: number
  readonly names: ReadonlySet<string>
}

/** Every way to fill a ground that is worth weighing: its largest slot in each way, the others to match. */
export function mixesOf(ground: Ground, scales: Scales): Mix[] {
  const lead = ground.slots.reduce<Slot | undefined>(
    (largest, slot) => (slot.options.length > 0 && slot.areaMm2 > (largest?.areaMm2 ?? 0) ? slot : largest),
    undefined,
  )
  if (!lead) return [mixOf(ground, [], scales)]
  return lead.options.map((option) => {
    const options = ground.slots.map((slot) =>
      slot === lead ? option : matching(slot, option, { ground, scales }),
    )
    return mixOf(ground, options, scales)
  })
}

/** The option that goes best with that of the largest slot; patches to be chosen have the same filler. */
function matching(
  slot: Slot,
  lead: Option,
  { ground, scales }: { ground: Ground; scales: Scales },
): Option | undefined {
  const wanted = logOf(lead.measured.perArea)
  const likely =
    slot.isAuto && slot.kind === 'patch'
      ? slot.options.filter(({ filler }) => filler.name === lead.filler.name)
      : slot.options
  const costs = likely.map(
    (option) =>
      optionCost(option, { slot, ground, scales }) + 3 * (logOf(option.measured.perArea) - wanted) ** 2,
  )
  return likely[costs.indexOf(Math.min(...costs))]
}

function mixOf(ground: Ground, options: readonly (Option | undefined)[], scales: Scales): Mix {
  const shares = ground.slots.map(({ areaMm2 }) => areaMm2 / ground.areaMm2)
  const perArea = options.reduce((sum, option, i) => sum + shares[i]! * (option?.measured.perArea ?? 0), 0)
  const own = options.reduce(
    (sum, option, i) =>
      sum +
      (option ? optionCost(option, { slot: ground.slots[i]!, ground, scales }) * Math.min(1, shares[i]!) : 0),
    0,
  )
  const off = logOf(perArea) - Math.log(DENSITY[scales.plan.density])
  return {
    options,
    perArea,
    cost: own + WEIGHTS.density * off ** 2,
    names: new Set(options.flatMap((option) => (option ? [option.filler.name] : []))),
  }
}

const logOf = (perArea: number): number => Math.log(Math.max(BARE, perArea))

interface OptionPlace {
  readonly slot: Slot
  readonly ground: Ground
  readonly scales: Scales
}

function optionCost(option: Option, { slot, ground, scales }: OptionPlace): number {
  const { plan, aims } = scales
  const aim = aims.get(ground.band)!
  const isTooOpen = Math.max(...slot.widths) > aim && option.measured.gapMm > aim
  const isFed = plan.machine.foot === 'free-motion' || suitsFoot(option, ground, scales)
  return (
    WEIGHTS.taste * Math.log(option.ofUsual) ** 2 +
    (isTooOpen ? WEIGHTS.gap.once + WEIGHTS.gap.more * Math.log(option.measured.gapMm / aim) : 0) +
    (isFed ? 0 : slot.isAuto ? WEIGHTS.foot.chosen : WEIGHTS.foot.given) +
    (slot.isAuto ? widthCost(option, slot) + WEIGHTS.seed * jitter(plan.seed, ground.band, option) : 0)
  )
}

/** Whether a walking foot can stitch an option, as far as is known. */
export const suitsFoot = (option: Option, { band }: Ground, { unfed }: Pick<Scales, 'unfed'>): boolean =>
  option.ofUsual > (unfed.get(band)?.get(option.filler.name) ?? 0) && option.measured.suitsWalkingFoot

function widthCost({ suits }: Option, { widths }: Slot): number {
  if (!suits) return 0
  const mean = widths.reduce((sum, width) => sum + width, 0) / widths.length
  const share = Math.log(mean / suits.min) / Math.log(suits.max / suits.min)
  const beyond = Math.max(...widths) / suits.max
  const tooWide = beyond > 1 + 1e-9 ? WEIGHTS.tooWide * (1 + Math.log(beyond)) : 0
  return WEIGHTS.suits * (2 * Math.min(1, share) - 1) ** 2 + tooWide
}

/** A number from 0 to 1 for a filler in a band, which the plan's seed decides. */
function jitter(seed: number, band: number, { filler }: Option): number {
  let mixed = seed * 7919 + band * 104_729
  for (const letter of filler.name) mixed = (mixed * 31 + letter.charCodeAt(0)) | 0
  return seededRandom(mixed).next()
}

/** What speaks against two neighbours: more of the one filler, or much more line in one than in the other. */
export function pairCost(a: Mix, b: Mix, isOpen: boolean): number {
  const apart = Math.abs(logOf(a.perArea) - logOf(b.perArea))
  const uneven = apart > UNEVEN ? WEIGHTS.uneven * (1 + apart - UNEVEN) : 0
  return WEIGHTS.even * apart ** 2 + uneven + (isOpen && shareName(a, b) ? WEIGHTS.twice : 0)
}

/** What speaks against a filler that others further away have too. */
export const againCost = (mix: Mix, others: readonly Mix[]): number =>
  WEIGHTS.again * others.filter((other) => shareName(mix, other)).length

export const shareName = (a: Mix, b: Mix): boolean => [...a.names].some((name) => b.names.has(name))
