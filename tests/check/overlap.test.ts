import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { measureOverlap } from '../../src/check/overlap.ts'
import { polylineOf } from '../../src/check/polyline.ts'
import { PlanError } from '../../src/error.ts'
import type { Point } from '../../src/geometry/point.ts'

const overlapOf = (...lines: (readonly Point[])[]) => measureOverlap(lines.map(polylineOf))

/** A circular arc from angle `from` to `to`, in chords that stray by less than 0.001 mm. */
function bow(centre: Point, radius: number, [from, to]: readonly [number, number]): Point[] {
  const count = Math.ceil(Math.abs(to - from) / (2 * Math.acos(1 - 0.001 / radius)))
  return Array.from({ length: count + 1 }, (_, i): Point => {
    const angle = from + ((to - from) * i) / count
    return [centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle)]
  })
}

describe('overlap', () => {
  it('of a line there and back is the way back, but for what lies within 6 mm along it', () => {
    const { lengthMm, stretches } = overlapOf([
      [0, 0],
      [100, 0],
      [0, 0],
    ])
    expect(lengthMm).toBeCloseTo(97, 4)
    expect(stretches).toHaveLength(1)
    expect(stretches[0]).toMatchObject({ line: 0, to: [0, 0] })
    expect(stretches[0]!.fromMm).toBeCloseTo(103, 4)
    expect(stretches[0]!.onto.alongMm).toBeCloseTo(48.5, 1)
  })

  it('of a closed line sewn three times is twice its length, and the last tenth of a millimetre before it', () => {
    const square: Point[] = [
      [0, 0],
      [50, 0],
      [50, 50],
      [0, 50],
    ]
    const thrice = [...square, ...square, ...square, [0, 0] as Point]
    expect(overlapOf(thrice).lengthMm).toBeCloseTo(400.1, 3)
  })

  it('is found between thread starts, and only counted for the later', () => {
    const { stretches } = overlapOf(
      [
        [0, 0],
        [80, 0],
      ],
      [
        [30, 20],
        [30, 0],
        [60, 0],
        [60, 20],
      ],
    )
    expect(stretches).toHaveLength(1)
    expect(stretches[0]!.line).toBe(1)
    expect(stretches[0]!.fromMm).toBeCloseTo(19.9, 4)
    expect(stretches[0]!.toMm).toBeCloseTo(50.1, 4)
    expect(stretches[0]!.onto).toMatchObject({ line: 0 })
  })

  it('starts at 4 mm, and ends 0.1 mm off', () => {
    const beside = (gap: number, length: number): Point[] => [
      [0, 0],
      [100, 0],
      [100, 30],
      [50, 30],
      [50, gap],
      [50 + length, gap],
      [50 + length, 30],
    ]
    expect(overlapOf(beside(0.05, 3.8)).lengthMm).toBe(0)
    expect(overlapOf(beside(0.05, 4.1)).lengthMm).toBeCloseTo(4.2, 4)
    expect(overlapOf(beside(0.11, 40)).lengthMm).toBe(0)
    expect(overlapOf(beside(0.09, 40)).lengthMm).toBeCloseTo(40.02, 4)
  })

  it('is a line that turns onto an earlier one, follows it and turns off on its other side', () => {
    const zigzag: Point[] = [
      [20, 20],
      [30, 0],
      [38, 0],
      [48, -20],
    ]
    const seam: Point[] = [
      [0, 0],
      [100, 0],
    ]
    expect(overlapOf(seam, zigzag).lengthMm).toBeCloseTo(8 + 2 * (0.1 * (Math.hypot(10, 20) / 20)), 2)
  })

  it('is no crossing, at any angle from 1.5 degrees', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1.5, max: 90, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (degrees, turn) => {
          const at = (angle: number, r: number): Point => [
            r * Math.cos(angle) + 300,
            r * Math.sin(angle) - 100,
          ]
          const base = (turn * Math.PI) / 180
          const other = base + (degrees * Math.PI) / 180
          const lines = [base, other].map((angle) => [at(angle, -60), at(angle, 60)])
          expect(overlapOf(...lines).lengthMm).toBe(0)
        },
      ),
      { seed: 9, numRuns: 200 },
    )
  })

  it('is no kiss of two curves of radius under 40 mm, from outside or inside', () => {
    const radius = fc.double({ min: 4, max: 39, noNaN: true })
    fc.assert(
      fc.property(radius, radius, fc.boolean(), (a, b, isInside) => {
        fc.pre(Math.abs(a - b) > 0.2 * Math.max(a, b))
        const centre: Point = isInside ? [0, a - b] : [0, a + b]
        const facing = isInside ? Math.PI / 2 : -Math.PI / 2
        const first = bow([0, 0], a, [Math.PI / 2 - 1, Math.PI / 2 + 1])
        const second = bow(centre, b, [facing - 1, facing + 1])
        expect(overlapOf(first, second).lengthMm).toBe(0)
      }),
      { seed: 10, numRuns: 200 },
    )
  })

  it('is a touch of two wide curves, which lie on each other for long', () => {
    const first = bow([0, 0], 200, [Math.PI / 2 - 0.3, Math.PI / 2 + 0.3])
    const second = bow([0, 500], 300, [-Math.PI / 2 - 0.2, -Math.PI / 2 + 0.2])
    // Gap x² / 2 (1/200 + 1/300) = 0.1 at x = 4.9.
    expect(overlapOf(first, second).lengthMm).toBeCloseTo(2 * Math.sqrt(0.2 / (1 / 200 + 1 / 300)), 0)
  })

  it('is a tight curve sewn twice', () => {
    const there = bow([0, 0], 12, [0, 2])
    const back = [...there].reverse()
    const { lengthMm } = overlapOf([...there, [-40, 40], [-45, 20], ...back, [80, 10]])
    expect(lengthMm).toBeGreaterThan(23.8)
    expect(lengthMm).toBeLessThan(24.6)
  })

  it('is unchanged when the quilt is turned or moved', () => {
    const tangle = fc.array(
      fc.tuple(fc.double({ min: 0, max: 60, noNaN: true }), fc.double({ min: 0, max: 60, noNaN: true })),
      { minLength: 2, maxLength: 20 },
    )
    fc.assert(
      fc.property(tangle, fc.double({ min: 0, max: 6, noNaN: true }), (points, angle) => {
        const line = [...points, ...points.slice(0, 2)]
        const moved = line.map(
          ([x, y]): Point => [
            x * Math.cos(angle) - y * Math.sin(angle) - 77,
            x * Math.sin(angle) + y * Math.cos(angle) + 990,
          ],
        )
        expect(overlapOf(moved).lengthMm).toBeCloseTo(overlapOf(line).lengthMm, 2)
      }),
      { seed: 11, numRuns: 60 },
    )
  })

  it('is measured on nothing, a point and a short line without complaint', () => {
    expect(overlapOf().lengthMm).toBe(0)
    expect(overlapOf([[3, 3]], []).lengthMm).toBe(0)
    expect(
      overlapOf([
        [0, 0],
        [1, 0],
      ]).lengthMm,
    ).toBe(0)
    const nonsense = { within: -1, back: 6, shortest: 4, kissRadius: 40 }
    expect(() => measureOverlap([], nonsense)).toThrow(PlanError)
  })
})
