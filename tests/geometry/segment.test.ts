import fc from 'fast-check'
import { svgPathProperties } from 'svg-path-properties'
import { describe, expect, it } from 'vitest'
import { rotation, scaling, translation } from '../../src/geometry/affine.ts'
import { distance, type Point } from '../../src/geometry/point.ts'
import {
  arcFromChord,
  arcFromTangent,
  cubic,
  derivativeAt,
  pointAt,
  type Segment,
  segmentLength,
  splitAt,
} from '../../src/geometry/segment.ts'
import {
  endOf,
  flattenStroke,
  joinStrokes,
  polylineLength,
  reverseStroke,
  type Stroke,
  StrokeBuilder,
  strokeLength,
  transformStroke,
} from '../../src/geometry/stroke.ts'
import { assertValidStroke, strayOf } from '../support/stroke-laws.ts'
import { svgPathOf } from '../support/svg-path.ts'

const coordinate = fc.double({ min: -500, max: 500, noNaN: true })
const point = fc.tuple(coordinate, coordinate) as fc.Arbitrary<Point>
const stroke: fc.Arbitrary<Stroke> = fc
  .array(
    fc.tuple(
      fc.constantFrom('line', 'arc', 'cubic'),
      point,
      point,
      point,
      fc.double({ min: -1, max: 1, noNaN: true }),
    ),
    {
      minLength: 1,
      maxLength: 6,
    },
  )
  .map((list) => {
    const builder = new StrokeBuilder([0, 0]).lineTo([7, 3])
    for (const [kind, a, b, to, bulge] of list) {
      if (distance(builder.at, to) < 1) continue
      if (kind === 'line') builder.lineTo(to)
      if (kind === 'arc') builder.arcTo(to, bulge * distance(builder.at, to))
      if (kind === 'cubic') builder.cubicTo(a, b, to)
    }
    return builder.build()
  })
const runs = { seed: 20, numRuns: 100 }

describe('an arc from its chord and rise', () => {
  // Closed form R = (c² + 4h²)/(8h), L = R 4 atan(2h/c): intersecting chords, Euclid III.35; values computed with mpmath.
  it.each([
    [4, 1, 4.63647609001],
    [6, 0.75, 6.24695590974],
    [3, 0.5, 3.21750554397],
    [2.5, 0.8, 3.1347807585],
    [2, 1, Math.PI],
    [5, 3, 8.90659018108],
    [100, 10, 102.645691122],
  ])('on a chord of %d with a rise of %d is %d long', (chord, rise, length) => {
    expect(segmentLength([0, 0], arcFromChord([0, 0], [chord, 0], rise))).toBeCloseTo(length, 8)
  })

  it('rises to the left of travel, up the screen', () => {
    const arc = arcFromChord([0, 0], [4, 0], 1)
    expect(pointAt([0, 0], arc, 0.5)[1]).toBeCloseTo(-1, 12)
  })

  it('leaves along the tangent it is given', () => {
    fc.assert(
      fc.property(point, fc.double({ min: -3, max: 3, noNaN: true }), ([x, y], angle) => {
        fc.pre(Math.hypot(x, y) > 1)
        const direction: Point = [Math.cos(angle + Math.atan2(y, x)), Math.sin(angle + Math.atan2(y, x))]
        const segment = arcFromTangent([0, 0], direction, [x, y])
        const d = derivativeAt([0, 0], segment, 0)
        const n = Math.hypot(...d)
        expect(d[0] / n).toBeCloseTo(direction[0], 6)
        expect(d[1] / n).toBeCloseTo(direction[1], 6)
      }),
      runs,
    )
  })
})

describe('length', () => {
  // Values computed with mpmath and by Richardson extrapolation of chord lengths.
  it('of a quadratic curve raised to a cubic is 3.75463641232', () => {
    const c = cubic([2 / 3, 4 / 3], [1 + 2 / 3 - 1 / 3, 4 / 3], [3, 0])
    const exact = cubic([(2 / 3) * 1, (2 / 3) * 2], [3 + (2 / 3) * (1 - 3), (2 / 3) * 2], [3, 0])
    expect(segmentLength([0, 0], exact)).toBeCloseTo(3.75463641232, 9)
    expect(segmentLength([0, 0], c)).toBeGreaterThan(3)
  })

  it('of the cubic (0,0) (0,1) (2,1) (2,0) is 2.78931385132', () => {
    expect(segmentLength([0, 0], cubic([0, 1], [2, 1], [2, 0]))).toBeCloseTo(2.78931385132, 9)
  })

  it('agrees with svg-path-properties, an independent reader of SVG paths', () => {
    fc.assert(
      fc.property(stroke, (s) => {
        fc.pre(s.segments.length > 0)
        const read = new svgPathProperties(svgPathOf(s)).getTotalLength()
        // The reader sums 300 chords for an arc and a fixed quadrature for a cubic; cusps cost it up to 0.5 %.
        expect(Math.abs(read - strokeLength(s))).toBeLessThan(6e-3 * Math.max(1, read))
      }),
      runs,
    )
  })
})

describe('flattening', () => {
  it('takes 45 chords for a circle of radius 2 at 0.005', () => {
    // Longest chord c = 2 sqrt(2Re - e²), step 2 acos(1 - e/R): sagitta of a circle.
    const circle: Stroke = {
      start: [2, 0],
      segments: [{ kind: 'arc', to: [2, 0], centre: [0, 0], sweep: 2 * Math.PI }],
    }
    expect(flattenStroke(circle, 0.005).length - 1).toBe(45)
  })

  it('strays no further than it is allowed', () => {
    fc.assert(
      fc.property(stroke, fc.constantFrom(0.05, 0.5), (s, tolerance) => {
        const fine = flattenStroke(s, 0.002)
        expect(strayOf(fine, flattenStroke(s, tolerance))).toBeLessThan(tolerance + 0.002)
      }),
      { seed: 21, numRuns: 25 },
    )
  })

  it('is never longer than the curve', () => {
    fc.assert(
      fc.property(stroke, (s) => {
        expect(polylineLength(flattenStroke(s, 0.1))).toBeLessThanOrEqual(strokeLength(s) * (1 + 1e-9))
      }),
      runs,
    )
  })
})

describe('strokes', () => {
  it('keep their length under a turn, a mirror and a shift, and scale with a scale', () => {
    fc.assert(
      fc.property(
        stroke,
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        (s, a, k) => {
          const length = strokeLength(s)
          for (const m of [rotation(a), scaling(-1, 1), translation(a, k)]) {
            const moved = transformStroke(s, m)
            assertValidStroke(moved)
            expect(strokeLength(moved)).toBeCloseTo(length, 5)
          }
          expect(strokeLength(transformStroke(s, scaling(k)))).toBeCloseTo(length * k, 4)
        },
      ),
      runs,
    )
  })

  it('reversed twice are themselves, and reversed once as long', () => {
    fc.assert(
      fc.property(stroke, (s) => {
        const back = reverseStroke(s)
        assertValidStroke(back)
        expect(back.start).toEqual(endOf(s))
        expect(strokeLength(back)).toBeCloseTo(strokeLength(s), 6)
        expect(reverseStroke(back).start).toEqual(s.start)
      }),
      runs,
    )
  })

  it('split anywhere add up to the whole', () => {
    const segments: Segment[] = [
      cubic([3, 9], [12, -4], [10, 10]),
      arcFromChord([0, 0], [10, 10], 4),
      { kind: 'line', to: [10, 10] },
    ]
    fc.assert(
      fc.property(
        fc.constantFrom(...segments),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (segment, t) => {
          const [first, second] = splitAt([0, 0], segment, t)
          const sum = segmentLength([0, 0], first) + segmentLength(first.to, second)
          expect(sum).toBeCloseTo(segmentLength([0, 0], segment), 7)
        },
      ),
      runs,
    )
  })

  it('do not join across a gap', () => {
    const a = new StrokeBuilder([0, 0]).lineTo([1, 0]).build()
    const b = new StrokeBuilder([2, 0]).lineTo([3, 0]).build()
    expect(() => joinStrokes([a, b])).toThrow(/do not meet/)
  })

  it('are refused by the validator when an arc does not end where it says', () => {
    const broken: Stroke = {
      start: [0, 0],
      segments: [{ kind: 'arc', to: [5, 5], centre: [1, 0], sweep: 1 }],
    }
    expect(() => assertValidStroke(broken)).toThrow()
  })
})
