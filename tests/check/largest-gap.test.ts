import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { gapsInField, largestGap } from '../../src/check/largest-gap.ts'
import { polylineOf } from '../../src/check/polyline.ts'
import { type Region, regionArea, regionOf } from '../../src/check/region.ts'
import { layField } from '../../src/check/stitch-field.ts'
import { PlanError } from '../../src/error.ts'
import { distanceToLine, type Point } from '../../src/geometry/point.ts'

const box = (x0: number, y0: number, x1: number, y1: number): Point[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
]
const closed = (ring: readonly Point[]) => polylineOf([...ring, ring[0]!])

describe('the largest gap, against closed forms', () => {
  it('between parallel lines is as wide as they are apart, as a circle and as a square', () => {
    const lines = [0, 17, 40, 71.25, 100].map((y) =>
      polylineOf([
        [-5, y],
        [205, y],
      ]),
    )
    const { circle, square } = largestGap(lines, { rings: [box(0, 0, 200, 100)] })
    expect(circle.sizeMm).toBeCloseTo(31.25, 7)
    expect(square.sizeMm).toBeCloseTo(31.25, 7)
    expect(circle.at[1]).toBeCloseTo(55.625, 6)
  })

  it('between concentric squares is the largest square in the middle, or the corner of the widest ring', () => {
    const squares = [0, 10, 35, 50].map((inset) => closed(box(inset, inset, 200 - inset, 200 - inset)))
    const region = { rings: [box(0, 0, 200, 200)] }
    expect(largestGap(squares, region).circle.sizeMm).toBeCloseTo(100, 7)
    expect(largestGap(squares, region).square.sizeMm).toBeCloseTo(100, 7)
    // A ring of width w holds at its corner a circle that touches both outer sides and the inner corner:
    // sqrt(2) (w - r) = r, so its diameter is 2 w sqrt(2) / (1 + sqrt(2)).
    const ring = { rings: [box(0, 0, 200, 200), box(50, 50, 150, 150)] }
    const { circle, square } = largestGap(squares, ring)
    expect(circle.sizeMm).toBeCloseTo((2 * 25 * Math.SQRT2) / (1 + Math.SQRT2), 7)
    expect(square.sizeMm).toBeCloseTo(25, 7)
  })

  it('of an unquilted rectangle is the rectangle', () => {
    const { circle, square } = largestGap([], { rings: [box(-30, 20, 170, 95)] })
    expect(circle.sizeMm).toBeCloseTo(75, 7)
    expect(square.sizeMm).toBeCloseTo(75, 7)
  })

  it('inside a round line is its diameter, and the square that fits in it', () => {
    const count = 7200
    const ring = Array.from({ length: count }, (_, i): Point => {
      const angle = (2 * Math.PI * i) / count
      return [100 + 60 * Math.cos(angle), 100 + 60 * Math.sin(angle)]
    })
    const { circle, square } = largestGap([closed(ring)], { rings: [box(30, 30, 170, 170)] })
    expect(circle.sizeMm).toBeCloseTo(120, 3)
    expect(square.sizeMm).toBeCloseTo(60 * Math.SQRT2, 3)
  })

  it('never reaches over the edge of the region', () => {
    const region = {
      rings: [
        [
          [0, 0],
          [90, 0],
          [0, 120],
        ] as Point[],
      ],
    }
    // Radius of the circle in a right triangle: (a + b - c) / 2; side of the square: a b / (a + b).
    const { circle, square } = largestGap([], region)
    expect(circle.sizeMm).toBeCloseTo(90 + 120 - 150, 7)
    expect(square.sizeMm).toBeCloseTo((90 * 120) / 210, 7)
  })

  it('of four mitred sides is that of the ring they form', () => {
    const sides = [
      [
        [0, 0],
        [100, 0],
        [80, 20],
        [20, 20],
      ],
      [
        [100, 0],
        [100, 100],
        [80, 80],
        [80, 20],
      ],
      [
        [100, 100],
        [0, 100],
        [20, 80],
        [80, 80],
      ],
      [
        [0, 100],
        [0, 0],
        [20, 20],
        [20, 80],
      ],
    ] as unknown as Point[][]
    const region = regionOf(sides)
    expect(regionArea(region)).toBeCloseTo(100 * 100 - 60 * 60, 6)
    expect(largestGap([], region).circle.sizeMm).toBeCloseTo((2 * 20 * Math.SQRT2) / (1 + Math.SQRT2), 6)
  })

  it('is refused for a region without area', () => {
    expect(() =>
      largestGap([], {
        rings: [
          [
            [0, 0],
            [5, 5],
          ],
        ],
      }),
    ).toThrow(PlanError)
    expect(() => largestGap([], { rings: [] })).toThrow(PlanError)
  })
})

/** The largest gap on a raster: every place on a grid, its distance to every stretch and edge. */
function gapByBruteForce(lines: readonly (readonly Point[])[], ring: readonly Point[], step: number) {
  const [x0, y0, x1, y1] = [ring[0]![0], ring[0]![1], ring[2]![0], ring[2]![1]]
  let best = 0
  for (let y = y0 + step / 2; y < y1; y += step) {
    for (let x = x0 + step / 2; x < x1; x += step) {
      let clear = Math.min(x - x0, x1 - x, y - y0, y1 - y)
      for (const line of lines) {
        for (let i = 1; i < line.length && clear > best; i++) {
          clear = Math.min(clear, distanceToLine([x, y], line[i - 1]!, line[i]!))
        }
      }
      best = Math.max(best, clear)
    }
  }
  return 2 * best
}

describe('the largest gap, against a raster', () => {
  const coordinate = fc.double({ min: -20, max: 140, noNaN: true })
  const polyline = fc.array(fc.tuple(coordinate, coordinate), { minLength: 2, maxLength: 12 })

  it('is that of 100 random sets of lines, within the error of the raster', () => {
    fc.assert(
      fc.property(fc.array(polyline, { minLength: 0, maxLength: 5 }), (lines) => {
        const ring = box(0, 0, 110, 80)
        const { circle } = largestGap(lines.map(polylineOf), { rings: [ring] })
        const raster = gapByBruteForce(lines, ring, 0.8)
        expect(circle.sizeMm).toBeGreaterThanOrEqual(raster - 1e-9)
        expect(circle.sizeMm).toBeLessThanOrEqual(raster + 0.8 * Math.SQRT2)
        expect(circle.atMostMm).toBeGreaterThanOrEqual(circle.sizeMm)
        expect(circle.atMostMm).toBeLessThan(circle.sizeMm + 0.05)
      }),
      { seed: 3, numRuns: 100 },
    )
  })

  it('is shown to be wrong by the raster when a line is left out or added', () => {
    const ring = box(0, 0, 110, 80)
    const lines: Point[][] = [
      [
        [0, 25],
        [110, 25],
      ],
      [
        [0, 50],
        [110, 50],
      ],
    ]
    const raster = gapByBruteForce(lines, ring, 0.8)
    const sizeOf = (some: Point[][]) => largestGap(some.map(polylineOf), { rings: [ring] }).circle.sizeMm
    expect(sizeOf(lines)).toBeGreaterThanOrEqual(raster)
    expect(sizeOf(lines)).toBeLessThanOrEqual(raster + 0.8 * Math.SQRT2)
    expect(sizeOf(lines.slice(0, 1))).toBeGreaterThan(raster + 0.8 * Math.SQRT2)
    expect(
      sizeOf([
        ...lines,
        [
          [0, 65],
          [110, 65],
        ],
      ]),
    ).toBeLessThan(raster)
  })

  it('of a part of the quilt is never larger than that of the whole, and circles fit no square larger', () => {
    fc.assert(
      fc.property(fc.array(polyline, { minLength: 1, maxLength: 4 }), (lines) => {
        const whole: Region = { rings: [box(0, 0, 110, 80)] }
        const part: Region = { rings: [box(10, 10, 100, 70), box(30, 30, 60, 60)] }
        const field = layField(lines.map(polylineOf), { minX: 0, minY: 0, maxX: 110, maxY: 80 })
        const [all, some] = [gapsInField(field, whole), gapsInField(field, part)]
        const alone = largestGap(lines.map(polylineOf), part)
        expect(some.circle.sizeMm).toBeCloseTo(alone.circle.sizeMm, 6)
        expect(some.square.sizeMm).toBeCloseTo(alone.square.sizeMm, 6)
        expect(some.circle.sizeMm).toBeLessThanOrEqual(all.circle.sizeMm + 1e-9)
        expect(some.square.sizeMm).toBeLessThanOrEqual(all.square.sizeMm + 1e-9)
        expect(all.square.sizeMm).toBeLessThanOrEqual(all.circle.sizeMm + 1e-9)
        expect(all.square.sizeMm).toBeGreaterThanOrEqual(all.circle.sizeMm / Math.SQRT2 - 1e-9)
      }),
      { seed: 4, numRuns: 30 },
    )
  })
})
