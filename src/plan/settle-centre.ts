import { OUTLINE_NAMES, type OutlineName, outlineText } from '../quilt/outline-names.ts'
import { inches } from '../units.ts'
import { DEFAULTS } from './defaults.ts'
import type { Entry } from './entry.ts'
import { LENGTH_FORMS, roundLength } from './length.ts'
import type { Plan } from './plan.ts'
import { settleFabric } from './settle-fabric.ts'
import { nameFiller, settleKnown } from './settle-filler.ts'

/** Reads the centre: a rectangle by its width and height, any other shape by its size from flat to flat. */
export function settleCentre(entry: Entry): Plan['centre'] {
  const shape = entry.at('shape').choice(OUTLINE_NAMES, 'rectangle')
  const filler = entry.at('filler')
  const auto = filler.value === 'auto'
  const named = filler.isGiven && filler.value !== 'none' && !auto ? nameFiller(filler) : undefined
  return {
    ...(shape === 'rectangle' ? rectangle(entry) : across(entry, shape)),
    fabric: settleFabric(entry.at('fabric'), DEFAULTS.centreFabric),
    filler: named && settleKnown(named, entry.desk.catalog.centreFillers),
    auto,
  }
}

type Size = Pick<Plan['centre'], 'shape' | 'across' | 'width' | 'height'>

function rectangle(entry: Entry): Size {
  refuseKeys(entry, ['across'], `is for a hexagon, an octagon or a square on point; give width and height`)
  return {
    shape: 'rectangle',
    across: undefined,
    width: needed(entry, 'width'),
    height: needed(entry, 'height'),
  }
}

function across(entry: Entry, shape: Exclude<OutlineName, 'rectangle'>): Size {
  refuseKeys(
    entry,
    ['width', 'height'],
    `is for a rectangle; ${outlineText(shape)} is told by across, its size from flat to flat`,
  )
  const flats = needed(entry, 'across')
  const [width, height] = boxOf(shape, flats)
  return { shape, across: flats, width: roundLength(width), height: roundLength(height) }
}

/**
 * The box round an outline as it lies on the quilt, mm.
 *
 * @param flats  its size from flat to flat, mm
 * @source a hexagon is across its corners as wide as across its flats over cos 30 degrees; a square's diagonal is the root
 *   of 2 times its side (school formulas)
 */
export function boxOf(shape: OutlineName, flats: number): readonly [width: number, height: number] {
  switch (shape) {
    case 'hexagon':
      return [flats / Math.cos(Math.PI / 6), flats]
    case 'on-point':
      return [flats * Math.SQRT2, flats * Math.SQRT2]
    default:
      return [flats, flats]
  }
}

/** A length that must be given. */
function needed(entry: Entry, key: string): number {
  if (entry.isGiven && !entry.has(key))
    entry.at(key).refuse({ code: 'plan/missing', message: `is missing; expected ${LENGTH_FORMS}` })
  return entry.at(key).length({ fallback: inches(1) })
}

function refuseKeys(entry: Entry, keys: readonly string[], message: string): void {
  for (const key of keys)
    if (entry.has(key)) entry.at(key).refuse({ code: 'plan/contradiction', message, of: 'key' })
}
