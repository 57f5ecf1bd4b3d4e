import { OUTLINES } from '../quilt/outline-names.ts'
import { DEFAULTS } from './defaults.ts'
import type { Entry } from './entry.ts'
import type { BandPlan, DitchSeam, Place, Plan, RoutePlan } from './plan.ts'
import { show } from './problems.ts'
import { isSetting, outlineInside } from './setting-bands.ts'
import { didYouMean } from './suggest.ts'

/** The bands, and what they go round. */
export type Rounds = Pick<Plan, 'bands'> & { readonly centre: Pick<Plan['centre'], 'shape'> }

/** The names of the quilt's corners, clockwise as they are numbered. */
export const cornerNames = (rounds: Rounds): readonly string[] =>
  OUTLINES[outlineInside(rounds, rounds.bands.length)].corners

/** The names of a band's sides, clockwise as they are numbered. */
export const sideNames = (rounds: Rounds, band: number): readonly string[] =>
  OUTLINES[outlineInside(rounds, band)].sides

export function settleRoute(
  entry: Entry,
  rounds: Rounds & { readonly machine: Pick<Plan['machine'], 'foot'> },
): RoutePlan {
  const { foot } = rounds.machine
  return {
    start: settlePlace(entry.at('start'), rounds),
    end: settlePlace(entry.at('end'), rounds),
    order: entry.at('order').choice(['any', 'middle-out', 'outside-in'], 'any'),
    work: entry.at('work').choice(['any', 'areas', 'laps'], DEFAULTS.route.work),
    ditch: settleDitch(entry.at('ditch'), rounds.bands),
    ditchOrder: entry.at('ditchOrder').choice(['any', 'first', 'along'], DEFAULTS.route.ditchOrder),
    turning: entry.at('turning').number({ least: 0, greatest: 100, fallback: DEFAULTS.route.turning[foot] }),
  }
}

function settlePlace(entry: Entry, rounds: Rounds): Place {
  if (entry.isGroup) return settleSidePlace(entry, rounds)
  const text = entry.text()
  if (text === undefined || text === 'any') return { kind: 'anywhere' }
  const names = cornerNames(rounds)
  const corner = names.indexOf(text)
  if (corner >= 0) return { kind: 'corner', corner }
  const known = ['any', ...names]
  const message = `is ${show(text)}; allowed: ${known.join(', ')}, or { band, side }`
  entry.refuse({ code: 'plan/place', message, hint: didYouMean(text, known) })
  return { kind: 'anywhere' }
}

function settleSidePlace(entry: Entry, rounds: Rounds): Place {
  const { bands } = rounds
  const index = findBand(entry.at('band'), bands)
  const names = index === undefined ? undefined : sideNames(rounds, index)
  const side = names?.indexOf(entry.at('side').text() ?? '') ?? -1
  if (index !== undefined && isBare(bands[index]!) && side >= 0) {
    const message = `is ${show(bands[index]!.name)}; nothing is stitched in that band`
    entry.at('band').refuse({ code: 'plan/place', message, hint: 'choose a band with a filler' })
  }
  if (names && side < 0 && entry.at('side').isGiven) entry.at('side').refuseName('plan/choice', names)
  return { kind: 'side', band: bands[index ?? 0]?.name ?? '', side: Math.max(0, side) }
}

/** Whether nothing at all is stitched in a band. */
const isBare = (band: BandPlan): boolean => !band.filler && !band.auto && !band.pieced

/** The index of the band that an entry names. */
export function findBand(entry: Entry, bands: readonly BandPlan[]): number | undefined {
  const name = entry.text()
  if (name === undefined) return undefined
  const index = bands.findIndex((band) => band.name === name)
  if (index >= 0) return index
  return entry.refuseName(
    'plan/unknown-band',
    bands.map((band) => band.name),
  )
}

function settleDitch(entry: Entry, bands: readonly BandPlan[]): readonly DitchSeam[] {
  if (entry.value === 'all') return bands.flatMap(seamsOf)
  if (entry.value === 'rings') return bands.map((_, band) => ({ kind: 'ring', band }))
  const seams = entry.items().flatMap((item) => settleSeam(item, bands))
  const isFirst = (seam: DitchSeam, i: number) =>
    seams.findIndex(({ kind, band }) => kind === seam.kind && band === seam.band) === i
  return seams.filter(isFirst)
}

/** All seams of a band: the one at its inner edge, and those inside it. */
const seamsOf = (plan: BandPlan, band: number): DitchSeam[] => {
  const { pieced } = plan
  if (isSetting(plan)) return [{ kind: 'ring', band }]
  return (pieced ? (['ring', 'patch'] as const) : (['ring', 'corner'] as const)).map((kind) => ({
    kind,
    band,
  }))
}

const SEAM_KEYS = { inside: 'ring', corners: 'corner', patches: 'patch' } as const

function settleSeam(entry: Entry, bands: readonly BandPlan[]): DitchSeam[] {
  const keys = entry.keys() as (keyof typeof SEAM_KEYS)[]
  const [key] = keys
  if (key === undefined || keys.length > 1) {
    const message = `names ${keys.length} seams; give one: { inside: band }, { corners: band } or { patches: band }`
    if (entry.isGiven) entry.refuse({ code: 'plan/contradiction', message })
    return []
  }
  const band = findBand(entry.at(key), bands)
  if (band === undefined) return []
  const isPieced = bands[band]?.pieced !== undefined
  if ((key === 'patches' && !isPieced) || (key === 'corners' && isPieced)) {
    const message = isPieced
      ? `is ${show(bands[band]?.name)}, a pieced band: its corners are patches; ask for its patches`
      : `is ${show(bands[band]?.name)}, which is not pieced: it has no patches`
    entry.at(key).refuse({ code: 'plan/contradiction', message })
    return []
  }
  if (key === 'patches' && isSetting(bands[band]!)) {
    const message = `is ${show(bands[band]!.name)}: setting triangles have no seams between them; ask for the seam inside the band`
    entry.at(key).refuse({ code: 'plan/contradiction', message })
    return []
  }
  return [{ kind: SEAM_KEYS[key], band }]
}
