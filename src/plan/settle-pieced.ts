import { type OutlineName, outlineText } from '../quilt/outline-names.ts'
import type { Corners } from '../quilt/quilt.ts'
import type { namesOf } from './catalog.ts'
import type { Entry } from './entry.ts'
import type { FillerChoice, OwnPatch, PiecedPlan } from './plan.ts'
import { listNames, show } from './problems.ts'
import { isSetting, SETTING_UNIT } from './setting-bands.ts'
import { nameFiller, settleKnown } from './settle-filler.ts'
import { didYouMean } from './suggest.ts'

/** The name of the plain patch in a corner. */
const CORNER_PATCH = 'cornerstone'

/** Reads how a band is pieced; its fillers by patch are added later. */
export function settlePieced(
  entry: Entry,
  { corners, outline }: { corners: Corners; outline: OutlineName },
): PiecedPlan | undefined {
  if (!entry.isGiven) return undefined
  const polygons = entry.at('polygons').isGiven ? settlePolygons(entry.at('polygons')) : undefined
  const unit = entry.at('unit').text() ?? ''
  const known = Object.keys(entry.desk.catalog.units ?? {})
  const own = polygons !== undefined || entry.has('polygons')
  if (own && known.includes(unit))
    entry.at('unit').refuse({
      code: 'plan/contradiction',
      message: `is ${show(unit)}, which is known, but polygons are given too; give a unit of your own another name`,
    })
  if (!own && entry.at('unit').isGiven && !known.includes(unit))
    entry.at('unit').refuseName('plan/unknown-unit', known)
  const pieced = {
    unit,
    size: entry.at('size').length({ fallback: undefined }),
    fabrics: {},
    polygons,
    fillers: {},
  }
  if (isSetting({ pieced })) checkSetting(entry, outline)
  else checkTurns(entry, { corners, outline })
  return { ...pieced, fabrics: settleFabrics(entry.at('fabrics'), patchNames(entry, { pieced, corners })) }
}

function checkSetting(entry: Entry, outline: OutlineName): void {
  if (outline !== 'on-point')
    entry.at('unit').refuse({
      code: 'plan/contradiction',
      message: `is ${show(SETTING_UNIT)}, but what this band goes round is ${outlineText(outline)}, not on point`,
    })
  if (entry.at('size').isGiven)
    entry.at('size').refuse({
      code: 'plan/contradiction',
      message: 'is given; the size of setting triangles follows from what they are sewn to',
    })
}

/** Square units do not turn a corner that isn't square. */
function checkTurns(entry: Entry, { corners, outline }: { corners: Corners; outline: OutlineName }): void {
  if (corners === 'cornerstone' || (outline !== 'hexagon' && outline !== 'octagon')) return
  entry.refuse({
    code: 'plan/contradiction',
    message: `is for units along the sides; they do not turn the corners of ${outlineText(outline)}`,
    hint: 'add corners: cornerstone to the band',
    of: 'key',
  })
}

/** Corners of patches lie in the unit square. */
function settlePolygons(entry: Entry): readonly OwnPatch[] {
  return entry.items().map((item) => ({
    name: item.at('name').text() ?? '',
    points: item
      .at('points')
      .items()
      .map((at) => [
        at.at(0).number({ greatest: 1, fallback: 0 }),
        at.at(1).number({ greatest: 1, fallback: 0 }),
      ]),
  }))
}

interface Piecing {
  readonly pieced: PiecedPlan
  readonly corners: Corners
}

/** The names of a band's patches, each once; undefined if its unit isn't known. */
function patchNames({ desk }: Entry, { pieced, corners }: Piecing): readonly string[] | undefined {
  const { units = {} } = desk.catalog
  const known = Object.hasOwn(units, pieced.unit) ? units[pieced.unit] : undefined
  const names = pieced.polygons?.map(({ name }) => name) ?? known
  return names && [...new Set([...names, ...(corners === 'cornerstone' ? [CORNER_PATCH] : [])])]
}

function settleFabrics(entry: Entry, names: readonly string[] | undefined): Readonly<Record<string, string>> {
  const settled = entry.keys().flatMap((key) => {
    if (names && !names.includes(key)) return refusePatch(entry.at(key), { key, names })
    const colour = entry.at(key).colour(undefined)
    return colour === undefined ? [] : [[key, colour] as const]
  })
  return Object.fromEntries(settled)
}

function refusePatch(entry: Entry, { key, names }: { key: string; names: readonly string[] }): [] {
  entry.refuse({
    code: 'plan/unknown-patch',
    message: `unknown patch ${show(key)}; allowed: ${listNames(names)}`,
    hint: didYouMean(key, names),
    of: 'key',
  })
  return []
}

/**
 * Whether a filler is written patch by patch. A single known motif with its values is not, unless a patch has that
 * name.
 */
export function fillsByPatch(entry: Entry, pieced: PiecedPlan): boolean {
  const names = patchNames(entry, { pieced, corners: 'cornerstone' }) ?? []
  const keys = entry.keys()
  const [first] = keys
  if (first === undefined || keys.length > 1) return keys.length > 1
  return names.includes(first) || !Object.hasOwn(entry.desk.catalog.motifs, first)
}

/** A filler for each patch name; a patch with none is left out. */
export function settlePatchFillers(entry: Entry, piecing: Piecing): Readonly<Record<string, FillerChoice>> {
  const names = patchNames(entry, piecing)
  const { patchFillers } = entry.desk.catalog
  const settled = entry.keys().flatMap((key) => {
    if (names && !names.includes(key)) return refusePatch(entry.at(key), { key, names })
    const filler = settlePatchFiller(entry.at(key), patchFillers)
    return filler ? [[key, filler] as const] : []
  })
  return Object.fromEntries(settled)
}

function settlePatchFiller(entry: Entry, known: Parameters<typeof namesOf>[0]): FillerChoice | undefined {
  if (entry.value === 'none') return undefined
  if (!entry.isGroup && typeof entry.value !== 'string')
    return entry.refuse({
      code: 'plan/value',
      message: `is ${show(entry.value)}; expected none or the name of a filler`,
    })
  const named = nameFiller(entry)
  return named && settleKnown(named, known)
}
