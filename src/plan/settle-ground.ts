import { distance, type Point } from '../geometry/point.ts'
import { type AvoidedRegion, crossesItself, type RegionShape } from '../quilt/avoided-region.ts'
import { outlineText } from '../quilt/outline-names.ts'
import type { Entry } from './entry.ts'
import { LIMITS } from './limits.ts'
import { type BandPlan, type MeasuredPlan, type Plan, REGION_OUTLINES } from './plan.ts'
import { show } from './problems.ts'
import { findBand } from './settle-route.ts'

/** The regions that no stitching may enter. `size` is the quilt's finished size, mm. */
export function settleAvoid(entry: Entry, size: Point): readonly AvoidedRegion[] {
  const seen = new Set<string>()
  return entry.items().flatMap((item, index) => {
    const shape = settleShape(item)
    if (shape && isOutside(shape, size))
      item.warn({ code: 'plan/avoid-outside', message: 'lies outside of the quilt, and changes nothing' })
    const name = item.at('name').text() ?? `region ${index + 1}`
    if (seen.has(name))
      item
        .at('name')
        .refuse({ code: 'plan/duplicate-name', message: `is ${show(name)}; another region has that name` })
    seen.add(name)
    const outline = item.at('outline').choice(REGION_OUTLINES, 'whole')
    return shape ? [{ ...shape, name, outline }] : []
  })
}

function settleShape(entry: Entry): RegionShape | undefined {
  if (!entry.isGiven) return undefined
  const [hasCircle, hasPolygon] = [entry.has('circle'), entry.has('polygon')]
  if (hasCircle === hasPolygon) {
    const message = `has ${hasCircle ? 'both' : 'neither'} circle ${hasCircle ? 'and' : 'nor'} polygon; give one of them`
    return entry.refuse({ code: 'plan/contradiction', message })
  }
  if (!hasCircle) return settlePolygon(entry.at('polygon'))
  const circle = entry.at('circle')
  return {
    kind: 'circle',
    centre: settlePoint(circle.at('at')),
    radius: circle.at('radius').length({ fallback: LIMITS.least }),
  }
}

/** Corners on the same spot are one. */
function settlePolygon(entry: Entry): RegionShape {
  const corners = entry.items().map(settlePoint)
  const points = corners.filter((p, i) => distance(p, corners.at(i - 1)!) > SAME_CORNER)
  if (corners.length >= 3 && (points.length < 3 || crossesItself(points))) {
    const message =
      'is a polygon whose edges cross or touch each other; give its corners in order round its edge'
    entry.refuse({ code: 'plan/polygon', message })
  }
  return { kind: 'polygon', points }
}

/** mm */
const SAME_CORNER = 1e-3

/** A place on the quilt may be at its very edge, or beyond. */
function settlePoint(entry: Entry): Point {
  const bounds = { least: -LIMITS.greatest, fallback: 0 }
  return [entry.at(0).length(bounds), entry.at(1).length(bounds)]
}

function isOutside(region: RegionShape, [width, height]: Point): boolean {
  const points = region.kind === 'circle' ? [region.centre] : region.points
  const margin = region.kind === 'circle' ? region.radius : 0
  const [xs, ys] = [points.map((p) => p[0]), points.map((p) => p[1])]
  return (
    Math.max(...xs) + margin < 0 ||
    Math.min(...xs) - margin > width ||
    Math.max(...ys) + margin < 0 ||
    Math.min(...ys) - margin > height
  )
}

/** What stands for the centre where bands are named. */
export const CENTRE_NAME = 'centre'

/** The sizes that were measured on the real quilt, each band once. */
export function settleMeasured(
  entry: Entry,
  { centre, bands }: { centre: Plan['centre']; bands: readonly BandPlan[] },
): readonly MeasuredPlan[] {
  if (centre.shape !== 'rectangle' && entry.items().length > 0) {
    const message = `is for a rectangular top; the centre is ${outlineText(centre.shape)}, and is planned as it should be`
    entry.refuse({ code: 'plan/contradiction', message, of: 'key' })
  }
  const seen = new Set<number>()
  return entry.items().flatMap((item) => {
    const measured = settleMeasures(item, bands)
    if (!measured) return []
    if (seen.has(measured.band)) {
      const message = `is ${show(item.at('band').value)}, which is measured twice; give it once`
      item.at('band').refuse({ code: 'plan/duplicate-name', message })
    }
    seen.add(measured.band)
    return [measured]
  })
}

function settleMeasures(entry: Entry, bands: readonly BandPlan[]): MeasuredPlan | undefined {
  const name = entry.at('band')
  const band = name.value === CENTRE_NAME ? -1 : findBand(name, bands)
  if (band === undefined) return undefined
  const one = (key: string, i: number) => entry.at(key).at(i).length({ fallback: LIMITS.least })
  const three = (key: string) => [one(key, 0), one(key, 1), one(key, 2)] as const
  return {
    band,
    across: three('across'),
    down: three('down'),
    ...(entry.has('diagonals') ? { diagonals: [one('diagonals', 0), one('diagonals', 1)] as const } : {}),
  }
}
