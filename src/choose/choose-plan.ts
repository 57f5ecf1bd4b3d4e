import type { Pieces } from '../pieces/pieces.ts'
import type { Catalog } from '../plan/catalog.ts'
import { type FillerChoice, type Plan, SIDES, type SideName } from '../plan/plan.ts'
import { type Quilt, wholeCloth } from '../quilt/quilt.ts'
import { causesOf } from './causes.ts'
import { type Choice, type Telling, tellChoices } from './choice.ts'
import { type Aims, closerAims } from './closer-aims.ts'
import { surveyGrounds } from './grounds.ts'
import { openGaps } from './open-gaps.ts'
import { pickMixes } from './pick-mixes.ts'
import type { Ground } from './slot.ts'
import { noteUnfed, unfedBands } from './unfed.ts'
import type { Mix, Scales } from './weigh.ts'
import { whyOpen, whyUneven } from './why-open.ts'

/** A quilt with its fillers fitted, as far as choosing needs it. */
interface Filled {
  readonly plan: Plan
  readonly quilt: Quilt
  readonly pieces: Pieces
}

/** How a choice goes about: what fillers it may choose from, and how a plan without open choices is filled. */
interface Means<T extends Filled> {
  readonly catalog: Catalog
  readonly quilt: Quilt
  fill(plan: Plan): T
}

/** The choices that were made for a plan, and why what is left cannot be helped. */
export interface Choices {
  /** The plan as it was before. */
  readonly open: Plan
  readonly made: readonly Choice[]
  /** Why a gap that reaches into some bands (-1: into the centre) is not smaller, in words. */
  whyOpen(bands: readonly number[]): string
  /** Why two neighbouring bands are not more even, in words. */
  whyUneven(bands: readonly [number, number]): string
}

/** A quilt filled by a plan whose open choices are made. */
export interface Chosen<T extends Filled> {
  readonly filled: T
  readonly choices: Choices
}

/** Whether a plan leaves anything to be chosen. */
export const isOpen = ({ spacing, centre, bands }: Plan): boolean =>
  spacing === 'auto' || centre.auto || bands.some(({ auto }) => auto)

/** The share of the batting's limit that is aimed at: a repeat is stretched a little to fit. */
const AIM = 0.92
/** How often choices are mended at most where the filled quilt still has gaps past the limit, or tight curves. */
const ROUNDS = 12

/**
 * Makes the choices that a plan leaves open: spacings that it does not give (`spacing: auto`) and fillers
 * (`filler: auto`). They are chosen on samples of cloth as wide as the bands, from the inside out: within the batting's
 * limit first, then as even as can be, near the plan's density and what each filler looks best at. The quilt is filled,
 * its gaps are measured, and spacings about a gap past the limit are made closer, a few times at most; what a walking
 * foot turns out to be unable to stitch gives way likewise.
 */
export function choosePlan<T extends Filled>(plan: Plan, { catalog, quilt, fill }: Means<T>): Chosen<T> {
  const grounds = surveyGrounds({ plan, quilt, catalog })
  const aims = new Map(grounds.map(({ band }) => [band, AIM * plan.batting.limit]))
  let scales: Taught = { plan, aims, trials: new Map(), unfed: new Map() }
  let mixes = pickMixes(grounds, scales)
  let filled = fill(withMixes(plan, grounds, mixes))
  for (let round = 0; round < ROUNDS; round++) {
    scales = corrected(scales, filled, { grounds, mixes })
    const next = pickMixes(grounds, scales)
    if (isSame(mixes, next)) break
    mixes = next
    filled = fill(withMixes(plan, grounds, mixes))
  }
  return { filled, choices: choicesOf({ ...scales, grounds, mixes }) }
}

/** What choices are weighed against, and what was tried so far. */
type Taught = Scales & Aims

/** What a filled quilt teaches: where gaps are past the limit still, and where a walking foot cannot go. */
function corrected(
  { plan, aims, trials, unfed }: Taught,
  { quilt, pieces }: Filled,
  picked: { readonly grounds: readonly Ground[]; readonly mixes: readonly Mix[] },
): Taught {
  const cloth = plan.allOver ? wholeCloth(quilt) : quilt
  const gaps = openGaps({ quilt: cloth, pieces }, plan.batting.limit).map((gap) => ({
    ...gap,
    bands: causesOf(gap.bands, { plan, grounds: picked.grounds }),
  }))
  return {
    plan,
    ...closerAims({ aims, trials }, gaps, picked),
    unfed: plan.machine.foot === 'walking' ? noteUnfed(unfed, unfedBands(pieces), picked) : unfed,
  }
}

const choicesOf = (telling: Telling): Choices => ({
  open: telling.plan,
  made: tellChoices(telling),
  whyOpen: (bands) => whyOpen(telling, bands),
  whyUneven: (bands) => whyUneven(telling, bands),
})

const isSame = (a: readonly Mix[], b: readonly Mix[]): boolean =>
  a.every((mix, i) => mix.options.every((option, k) => option === b[i]!.options[k]))

/** The plan with nothing left open: reading it again as it is written gives the same quilt. */
function withMixes(plan: Plan, grounds: readonly Ground[], mixes: readonly Mix[]): Plan {
  const chosen = new Map(grounds.map((ground, i) => [ground.band, { ground, mix: mixes[i]! }]))
  const fillerOf = (band: number, kind: string, part = ''): FillerChoice | undefined => {
    const { ground, mix } = chosen.get(band) ?? {}
    const at = ground?.slots.findIndex((slot) => slot.kind === kind && slot.part === part) ?? -1
    return mix?.options[at]?.filler
  }
  return {
    ...plan,
    spacing: 'own',
    ...(plan.allOver
      ? { allOver: fillerOf(-1, 'centre') ?? plan.allOver }
      : { centre: { ...plan.centre, auto: false, filler: fillerOf(-1, 'centre') ?? plan.centre.filler } }),
    bands: plan.bands.map((band, index) => ({
      ...band,
      auto: false,
      filler: fillerOf(index, 'band') ?? band.filler,
      sides: Object.fromEntries(
        SIDES.flatMap((side): [SideName, FillerChoice | 'none'][] => {
          const own = fillerOf(index, 'side', side) ?? band.sides[side]
          return own ? [[side, own]] : []
        }),
      ),
      pieced: band.pieced && {
        ...band.pieced,
        fillers: Object.fromEntries(
          patchNamesOf(chosen.get(index)?.ground).flatMap((name) => {
            const filler = fillerOf(index, 'patch', name)
            return filler ? [[name, filler]] : []
          }),
        ),
      },
    })),
  }
}

const patchNamesOf = (ground: Ground | undefined): string[] =>
  (ground?.slots ?? []).flatMap(({ kind, part }) => (kind === 'patch' ? [part] : []))
