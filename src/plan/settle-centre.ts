import { OUTLINE_NAMES, OUTLINES, type OutlineName, outlineText } from '../quilt/outline-names.ts'
import { inches } from '../units.ts'
import { DEFAULTS } from './defaults.ts'
import type { Entry } from './entry.ts'
import { LENGTH_FORMS, roundLength } from './length.ts'
import type { Plan } from './plan.ts'
import { show } from './problems.ts'
import { settleFabric } from './settle-fabric.ts'
import { type NamedFiller, nameFiller, settleKnown } from './settle-filler.ts'

/** Reads the centre: a rectangle by its width and height, any other shape by its size from flat to flat. */
export function settleCentre(entry: Entry): Plan['centre'] {
  const shape = entry.at('shape').choice(OUTLINE_NAMES, 'rectangle')
  const filler = entry.at('filler')
  const auto = filler.value === 'auto'
  const named = filler.isGiven && filler.value !== 'none' && !auto ? nameFiller(filler) : undefined
  if (named && OUTLINES[shape].sides.length > 4) refuseRectangular(named, shape)
  // Of a shape that was refused nobody knows which sizes it takes.
  const isKnown = !entry.has('shape') || entry.at('shape').isGiven
  const size = shape === 'rectangle' ? rectangle : across(shape)
  return {
    ...(isKnown ? size(entry) : UNKNOWN),
    fabric: settleFabric(entry.at('fabric'), DEFAULTS.centreFabric),
    filler: named && settleKnown(named, entry.desk.catalog.centreFillers),
    auto,
  }
}

/** Some fillers fill rectangles only. */
function refuseRectangular({ name, at }: NamedFiller, shape: OutlineName): void {
  const { centres = {} } = at.desk.catalog
  if (!Object.hasOwn(centres, name) || centres[name]?.fillOutline) return
  const others = Object.keys(centres).filter((other) => centres[other]?.fillOutline)
  at.refuse({
    code: 'plan/contradiction',
    message: `is ${show(name)}, which fills rectangles only; in ${outlineText(shape)} are allowed: ${['none', ...others].join(', ')}`,
  })
}

type Size = Pick<Plan['centre'], 'shape' | 'across' | 'width' | 'height'>

const UNKNOWN: Size = { shape: 'rectangle', across: undefined, width: inches(1), height: inches(1) }

function rectangle(entry: Entry): Size {
  refuseKeys(entry, ['across'], `is for a hexagon, an octagon or a square on point; give width and height`)
  return {
    shape: 'rectangle',
    across: undefined,
    width: needed(entry, 'width'),
    height: needed(entry, 'height'),
  }
}

const across =
  (shape: Exclude<OutlineName, 'rectangle'>) =>
  (entry: Entry): Size => {
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
