import { type OutlineName, outlineText } from '../quilt/outline-names.ts'
import type { Corners } from '../quilt/quilt.ts'
import { inches } from '../units.ts'
import { namesOf } from './catalog.ts'
import { DEFAULTS } from './defaults.ts'
import type { Entry } from './entry.ts'
import { roundLength } from './length.ts'
import { LIMITS } from './limits.ts'
import {
  type BandPlan,
  type FillerChoice,
  type PiecedPlan,
  SIDES,
  type SideName,
  type Sides,
} from './plan.ts'
import { isSetting } from './setting-bands.ts'
import { settleFabric } from './settle-fabric.ts'
import { nameFiller, settleMotif } from './settle-filler.ts'
import { fillsByPatch, settlePatchFillers, settlePieced } from './settle-pieced.ts'
import { settingWidth, settleSettingFillers } from './settle-setting.ts'

/**
 * Seam allowance, mm.
 *
 * @source 1/4 in: cut = finished + 1/2 in, allpeoplequilt.com "Border and corner blocks"
 */
export const SEAM_ALLOWANCE = inches(0.25)

/** Where a band lies, and what decides its finished widths. */
export interface BandPlace {
  readonly index: number
  /** What it goes round, and how large that is from flat to flat, mm (of a rectangle: of no matter). */
  readonly outline: OutlineName
  readonly inside: number
  readonly isOutermost: boolean
  /** What the binding covers, mm. */
  readonly binding: number
}

/** Reads one band. */
export function settleBand(entry: Entry, place: BandPlace): BandPlan {
  const corners = settleCorners(entry)
  const pieced = settlePieced(entry.at('pieced'), { corners, outline: place.outline })
  const width = pieced && isSetting({ pieced }) ? settingWidth(entry, place) : settleWidth(entry, place)
  if (place.outline !== 'rectangle') refuseSides(entry, place.outline)
  const sides = place.outline === 'rectangle' ? settleSides(entry.at('sides'), width) : {}
  const filling =
    pieced && isSetting({ pieced })
      ? settleSettingFillers(entry.at('filler'), pieced)
      : settleBandFiller(entry.at('filler'), { width, sides, pieced, corners })
  return {
    name: entry.at('name').text() ?? `band ${place.index + 1}`,
    width,
    ...filling,
    sides,
    fabric: settleFabric(entry.at('fabric'), DEFAULTS.fabrics[place.index % 2]!),
    corners,
    cornerstone: settleCornerstone(entry.at('cornerstone'), corners),
    thread: entry.at('thread').colour(undefined),
  }
}

/** Finished widths: the seam allowances come off a cut width; the outermost band loses one and the binding's cover. */
function settleWidth(entry: Entry, { isOutermost, binding }: BandPlace): Sides {
  const [hasWidth, hasCut] = [entry.has('width'), entry.has('cut')]
  if (hasWidth && hasCut)
    entry.refuse({
      code: 'plan/contradiction',
      message: 'has both width (finished) and cut; give one of them',
    })
  if (!hasWidth && !hasCut && entry.isGiven)
    entry.refuse({ code: 'plan/missing', message: 'has neither width (finished) nor cut; give one of them' })
  if (hasWidth || !hasCut) return lengthsOfSides(entry.at('width'), 0)
  return lengthsOfSides(entry.at('cut'), SEAM_ALLOWANCE + (isOutermost ? binding : SEAM_ALLOWANCE))
}

/** Round any other outline than a rectangle all sides are alike. */
function refuseSides(entry: Entry, outline: OutlineName): void {
  for (const key of ['width', 'cut'])
    if (entry.at(key).isGroup)
      entry.at(key).refuse({
        code: 'plan/contradiction',
        message: `gives a width for each side; round ${outlineText(outline)} all sides are equally wide: give one`,
      })
  if (entry.has('sides'))
    entry.at('sides').refuse({
      code: 'plan/contradiction',
      message: `gives sides fillers of their own; round ${outlineText(outline)} all sides are filled alike`,
      of: 'key',
    })
}

/** A width for every side, mm, less what is lost in the seams. */
function lengthsOfSides(entry: Entry, lost: number): Sides {
  const one = (written: Entry): number => {
    const mm = written.length({ least: lost + LIMITS.least, fallback: undefined })
    return mm === undefined ? Number.NaN : roundLength(mm - lost)
  }
  if (entry.isGroup) return ofSides((side) => one(entry.at(side)))
  const mm = one(entry)
  return ofSides(() => mm)
}

const ofSides = <T>(value: (side: SideName) => T): Sides<T> => ({
  top: value('top'),
  right: value('right'),
  bottom: value('bottom'),
  left: value('left'),
})

/** A motif for the cornerstones says that there are cornerstones. */
function settleCorners(entry: Entry): Corners {
  const written = entry.at('corners')
  const butted = written.at('butted')
  if (butted.isGiven || written.value === 'butted')
    return butted.value === 'columns-first' ? 'butted-columns' : 'butted-rows'
  const isMeant = !entry.has('corners') && (entry.at('cornerstone').text() ?? 'none') !== 'none'
  return written.value === 'cornerstone' || isMeant ? 'cornerstone' : 'mitred'
}

function settleCornerstone(entry: Entry, corners: Corners): string | undefined {
  const name = entry.text()
  if (name === undefined || name === 'none') return undefined
  if (corners !== 'cornerstone')
    return entry.refuse({
      code: 'plan/contradiction',
      message: `is "${name}", but the corners are ${corners}; a motif needs corners: cornerstone`,
    })
  const known = namesOf(entry.desk.catalog.cornerMotifs)
  return known.includes(name) ? name : entry.refuseName('plan/unknown-corner-motif', ['none', ...known])
}

interface Shape {
  readonly width: Sides
  readonly sides: BandPlan['sides']
  readonly pieced: PiecedPlan | undefined
  readonly corners: Corners
}

export type BandFilling = Pick<BandPlan, 'filler' | 'auto' | 'pieced'>

/** What fills the band: nothing, the program's choice, a motif along it, or a filler for each patch name. */
function settleBandFiller(entry: Entry, { width, sides, pieced, corners }: Shape): BandFilling {
  const open = { filler: undefined, auto: false, pieced }
  if (!entry.isGiven || entry.value === 'none') return open
  if (entry.value === 'auto') return { ...open, auto: true }
  if (pieced && fillsByPatch(entry, pieced))
    return { ...open, pieced: { ...pieced, fillers: settlePatchFillers(entry, { pieced, corners }) } }
  const named = nameFiller(entry)
  const filled = SIDES.filter((side) => sides[side] === undefined)
  const widths = usable((filled.length > 0 ? filled : SIDES).map((side) => width[side]))
  const mean = SIDES.reduce((sum, side) => sum + width[side], 0) / SIDES.length
  return { ...open, filler: named && settleMotif(named, { mean, widths }) }
}

/** Widths that were refused are not held against a motif as well. */
const usable = (widths: readonly number[]): number[] => widths.filter((width) => !Number.isNaN(width))

function settleSides(entry: Entry, width: Sides): BandPlan['sides'] {
  const settled: Partial<Record<SideName, FillerChoice | 'none'>> = {}
  for (const side of SIDES) {
    const filler = settleSide(entry.at(side), width[side])
    if (filler) settled[side] = filler
  }
  return settled
}

function settleSide(entry: Entry, width: number): FillerChoice | 'none' | undefined {
  if (entry.value === 'none') return 'none'
  const named = entry.isGiven ? nameFiller(entry) : undefined
  return named && settleMotif(named, { mean: width, widths: usable([width]) })
}
