import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import crosshatch from '../../motifs/centres/crosshatch.ts'
import echoRails from '../../motifs/centres/echo-rails.ts'
import meander from '../../motifs/centres/meander.ts'
import { LIBRARY } from '../../motifs/library.ts'
import { applyAffine, rotation } from '../../src/geometry/affine.ts'
import { distance, lerp, type Point, scale } from '../../src/geometry/point.ts'
import { endOf, flattenStroke, strokeLength } from '../../src/geometry/stroke.ts'
import type { CentreFiller } from '../../src/motif/centre-contract.ts'
import type { Params } from '../../src/motif/contract.ts'
import { depthIn, regularOutline, shiftOutline } from '../../src/quilt/outline.ts'
import { crossings, kinks, largestGap, retraced } from '../support/free-laws.ts'

const any = <P extends Params>(filler: CentreFiller<P>) => filler as unknown as CentreFiller<Params>

/** Every filler that fills outlines, whether its line never crosses itself, and its greatest gap in spacings. */
const FILLERS = [
  { filler: any(echoRails), simple: true, most: 3.3 },
  { filler: any(meander), simple: true, most: 2.9 },
  { filler: any(crosshatch), simple: false, most: 1.5 },
]

interface Area {
  readonly sides: number
  readonly angle: number
  readonly across: number
  readonly spacing: number
  readonly seed: number
}

const areas: fc.Arbitrary<Area> = fc
  .record({
    sides: fc.constantFrom(4, 6, 8),
    angle: fc.constantFrom(0, Math.PI / 4, 1),
    across: fc.double({ min: 120, max: 500, noNaN: true }),
    share: fc.double({ min: 0.03, max: 0.12, noNaN: true }),
    seed: fc.integer({ min: 0, max: 1000 }),
  })
  .map(({ share, ...area }) => ({ ...area, spacing: share * area.across }))

const holds = (runs: number, law: (area: Area) => void) =>
  fc.assert(fc.property(areas, law), { seed: 1, numRuns: runs })

/** Off the origin and turned, as a centre may lie on its quilt. */
const outlineOf = ({ sides, across, angle }: Area): Point[] => {
  const turned = regularOutline(sides, across).map((p) => applyAffine(rotation(angle), p))
  return shiftOutline(turned, [across, 2 * across])
}

/** Points from one to the other, the other left out, no further apart than a length. */
function divided(a: Point, b: Point, most: number): Point[] {
  const count = Math.max(1, Math.ceil(distance(a, b) / most))
  return Array.from({ length: count }, (_, i) => lerp(a, b, i / count))
}

it('every filler of the library that fills outlines is held to the laws', () => {
  const able = Object.values(LIBRARY.centres).filter(({ fillOutline }) => fillOutline)
  expect(able.map(({ title }) => title).sort()).toEqual(FILLERS.map(({ filler }) => filler.title).sort())
})

describe.each(FILLERS)(
  '$filler.title in a square on point, a hexagon or an octagon',
  ({ filler, simple, most }) => {
    const fill = (area: Area) =>
      filler.fillOutline!({ outline: outlineOf(area), seed: area.seed }, { spacing: area.spacing } as never)
    const pointsOf = (area: Area) => fill(area).map((stroke) => flattenStroke(stroke, 0.05))

    it('starts and ends on the outline', () => {
      holds(20, (area) => {
        for (const stroke of fill(area))
          for (const end of [stroke.start, endOf(stroke)])
            expect(Math.abs(depthIn(end, outlineOf(area)))).toBeLessThan(1e-6)
      })
    })

    it('stays inside', () => {
      holds(20, (area) => {
        const outline = outlineOf(area)
        for (const p of pointsOf(area).flat()) expect(depthIn(p, outline)).toBeGreaterThan(-1e-6)
      })
    })

    it('is drawn twice as large in an outline twice as large, and the same for the same seed', () => {
      holds(8, (area) => {
        const small = fill(area)
        expect(fill(area)).toEqual(small)
        const large = fill({ ...area, across: 2 * area.across, spacing: 2 * area.spacing })
        large.forEach(({ segments }, k) => {
          expect(segments).toHaveLength(small[k]!.segments.length)
          segments.forEach((s, i) => {
            expect(distance(s.to, scale(small[k]!.segments[i]!.to, 2))).toBeLessThan(1e-6)
          })
        })
      })
    })

    it('retraces no more than 1 percent of itself', () => {
      holds(3, (area) => {
        for (const stroke of fill(area))
          expect(retraced(flattenStroke(stroke, 0.05)) / strokeLength(stroke)).toBeLessThanOrEqual(0.01)
      })
    })

    it(`leaves no gap of ${most} spacings`, () => {
      holds(4, (area) => {
        const outline = outlineOf(area)
        const home: Point = [-Math.min(...outline.map((p) => p[0])), -Math.min(...outline.map((p) => p[1]))]
        const inside = (p: Point) => depthIn(p, shiftOutline(outline, home))
        const length = 2 * area.across
        // Long slanted chords are found by place only in short pieces.
        const chain = pointsOf(area).flat()
        const short = chain.flatMap((p, i) => divided(p, chain[i + 1] ?? p, area.spacing / 3))
        const points = shiftOutline(short, home)
        const gap = largestGap(points, inside, { length, width: length, step: area.spacing / 5 })
        expect(gap.diameter / area.spacing).toBeLessThan(most)
      })
    })

    if (filler.joints === 'smooth')
      it('is smooth', () => {
        holds(10, (area) => {
          for (const stroke of fill(area)) expect(kinks(stroke)).toEqual([])
        })
      })

    if (simple)
      it('never crosses itself on its way', () => {
        holds(10, (area) => {
          for (const points of pointsOf(area)) expect(crossings(points.slice(1, -1))).toEqual([])
        })
      })
  },
)
