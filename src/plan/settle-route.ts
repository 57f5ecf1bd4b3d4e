import type { Entry } from './entry.ts'
import { type BandPlan, type DitchSeam, type Place, type RoutePlan, SIDES, type SideName } from './plan.ts'
import { show } from './problems.ts'
import { didYouMean } from './suggest.ts'

const CORNER_NAMES = ['top-left', 'top-right', 'bottom-right', 'bottom-left'] as const

/** The name of a corner of the quilt, numbered clockwise from the top left. */
export const cornerName = (corner: number): string => CORNER_NAMES[corner] ?? ''

export function settleRoute(entry: Entry, bands: readonly BandPlan[]): RoutePlan {
  return {
    start: settlePlace(entry.at('start'), bands),
    end: settlePlace(entry.at('end'), bands),
    order: entry.at('order').choice(['any', 'middle-out', 'outside-in'], 'any'),
    work: entry.at('work').choice(['areas', 'laps'], 'areas'),
    ditch: settleDitch(entry.at('ditch'), bands),
  }
}

function settlePlace(entry: Entry, bands: readonly BandPlan[]): Place {
  if (entry.isGroup) return settleSidePlace(entry, bands)
  const text = entry.text()
  if (text === undefined || text === 'any') return { kind: 'anywhere' }
  const corner = CORNER_NAMES.indexOf(text as (typeof CORNER_NAMES)[number])
  if (corner >= 0) return { kind: 'corner', corner }
  const known = ['any', ...CORNER_NAMES]
  const message = `is ${show(text)}; allowed: ${known.join(', ')}, or { band, side }`
  entry.refuse({ code: 'plan/place', message, hint: didYouMean(text, known) })
  return { kind: 'anywhere' }
}

function settleSidePlace(entry: Entry, bands: readonly BandPlan[]): Place {
  const index = findBand(entry.at('band'), bands)
  if (index !== undefined && isBare(bands[index]!) && SIDES.includes(entry.at('side').value as SideName)) {
    const message = `is ${show(bands[index]!.name)}; nothing is stitched in that band`
    entry.at('band').refuse({ code: 'plan/place', message, hint: 'choose a band with a filler' })
  }
  const side = SIDES.indexOf(entry.at('side').value as SideName)
  return { kind: 'side', band: bands[index ?? 0]?.name ?? '', side }
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
const seamsOf = ({ pieced }: BandPlan, band: number): DitchSeam[] =>
  (pieced ? (['ring', 'patch'] as const) : (['ring', 'corner'] as const)).map((kind) => ({ kind, band }))

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
  return [{ kind: SEAM_KEYS[key], band }]
}
