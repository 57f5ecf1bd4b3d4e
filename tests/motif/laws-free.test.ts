import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import clamshell from '../../motifs/clamshell.ts'
import crosshatch from '../../motifs/crosshatch.ts'
import feather from '../../motifs/feather.ts'
import leafVine from '../../motifs/leaf-vine.ts'
import meander from '../../motifs/meander.ts'
import spiralChain from '../../motifs/spiral-chain.ts'
import swirl from '../../motifs/swirl.ts'
import { distance, lerp, type Point, scale } from '../../src/geometry/point.ts'
import { arc, line } from '../../src/geometry/segment.ts'
import {
  endOf,
  flattenStroke,
  type Stroke,
  strokeLength,
  strokeThrough,
  transformStroke,
} from '../../src/geometry/stroke.ts'
import type { Drawn, Edge, MitreStrip, Motif, Params, Strip } from '../../src/motif/contract.ts'
import { archimedeanSpiral, drawDoubleSpiral } from '../../src/motif/double-spiral.ts'
import { seededRandom } from '../../src/motif/random.ts'
import { crossings, kinks, largestGap, retraced } from '../support/free-laws.ts'

type AnyMotif = Motif<Params>
const any = <P extends Params>(motif: Motif<P>) => motif as unknown as AnyMotif

/** Every motif with free ends, what it may retrace, and whether its form never crosses itself. */
const MOTIFS: readonly { motif: AnyMotif; retrace: number; simple: boolean }[] = [
  { motif: any(swirl), retrace: 0.01, simple: true },
  { motif: any(spiralChain), retrace: 0.01, simple: true },
  { motif: any(meander), retrace: 0.01, simple: true },
  { motif: any(clamshell), retrace: 0.01, simple: false },
  { motif: any(crosshatch), retrace: 0.01, simple: false },
  { motif: any(feather), retrace: 0.08, simple: false },
  { motif: any(leafVine), retrace: 0.08, simple: false },
]

type Values = Record<string, number | string>

/** Values within a motif's own limits, for a strip of `width`: `t` in 0..1 for each. */
function valuesAt(motif: AnyMotif, width: number, t: number): Values {
  const entries = Object.entries(motif.params).map(([name, p]) => {
    if (p.kind === 'choice') return [name, p.of[Math.floor(t * p.of.length * 0.999)]!] as const
    const usual = typeof p.default === 'object' ? p.default.widths * width : p.default
    if (p.kind !== 'length') return [name, p.min + (p.max - p.min) * t] as const
    return [name, Math.min(p.max, Math.max(p.min, usual * (0.35 + 1.65 * t)))] as const
  })
  return Object.fromEntries(entries)
}

const edge = fc.constantFrom<Edge>('inner', 'outer')
const draft = fc.record({
  wide: fc.double({ min: 0, max: 1, noNaN: true }),
  stretch: fc.double({ min: 0.88, max: 1.12, noNaN: true }),
  t: fc.double({ min: 0, max: 1, noNaN: true }),
  repeats: fc.integer({ min: 1, max: 6 }),
  from: edge,
  to: edge,
  mirrorStart: fc.boolean(),
  mirrorEnd: fc.boolean(),
  seed: fc.integer({ min: 0, max: 1000 }),
})
type Draft = typeof draft extends fc.Arbitrary<infer T> ? T : never

function stripFor(motif: AnyMotif, d: Draft): { strip: Strip; values: Values } {
  const { wide, stretch, t, ...rest } = d
  const width = motif.suits.min + (motif.suits.max - motif.suits.min) * wide
  const values = valuesAt(motif, width, t)
  const length = motif.repeat(width, values as never) * d.repeats * stretch
  return { strip: { ...rest, length, width }, values }
}

const draw = (motif: AnyMotif, strip: Strip, values: Values): Drawn => motif.draw(strip, values as never)
const pointsOf = (stroke: Stroke): Point[] => flattenStroke(stroke, 0.03)
const pointAfter = (stroke: Stroke, after: number): Point =>
  after === 0 ? stroke.start : stroke.segments[after - 1]!.to

/** How far a stroke leaves its strip, mm; with a mitre, its trapezoid. */
function leaves(points: readonly Point[], strip: Strip, skew = 0): number {
  const slope = Math.hypot(1, skew)
  return Math.max(
    ...points.map(([u, v]) => Math.max(-u, -v, v - strip.width, (u - strip.length - skew * v) / slope)),
  )
}

const wrongEnds = ({ stroke, touches }: Drawn, strip: Strip): string[] => {
  const v = (e: Edge) => (e === 'inner' ? 0 : strip.width)
  const wrong: string[] = []
  if (distance(stroke.start, [0, v(strip.from)]) > 1e-6) wrong.push('start')
  if (distance(endOf(stroke), [strip.length, v(strip.to)]) > 1e-6) wrong.push('end')
  if (touches[0]?.after !== 0 || touches.at(-1)?.after !== stroke.segments.length) wrong.push('first or last')
  for (const touch of touches)
    if (Math.abs(pointAfter(stroke, touch.after)[1] - v(touch.edge)) > 1e-6)
      wrong.push(`touch ${touch.after}`)
  return wrong
}

const holds = (motif: AnyMotif, runs: number, law: (strip: Strip, values: Values) => void) =>
  fc.assert(
    fc.property(draft, (d) => {
      const { strip, values } = stripFor(motif, d)
      law(strip, values)
    }),
    { seed: 1, numRuns: runs },
  )

describe.each(MOTIFS)('$motif.title', ({ motif, retrace, simple }) => {
  it('starts and ends where it is asked to and touches the edges where it says', () => {
    holds(motif, 40, (strip, values) => expect(wrongEnds(draw(motif, strip, values), strip)).toEqual([]))
  })

  it('stays within its strip', () => {
    holds(motif, 40, (strip, values) =>
      expect(leaves(pointsOf(draw(motif, strip, values).stroke), strip)).toBeLessThan(0.1),
    )
  })

  it('draws the same stroke for the same seed', () => {
    holds(motif, 6, (strip, values) => expect(draw(motif, strip, values)).toEqual(draw(motif, strip, values)))
  })

  it('draws a stroke twice as large in a strip twice as large', () => {
    holds(motif, 12, (strip, values) => {
      const twice = { ...strip, length: 2 * strip.length, width: 2 * strip.width }
      const doubled = Object.fromEntries(
        Object.entries(values).map(([k, x]) => [
          k,
          motif.params[k]?.kind === 'length' && typeof x === 'number' ? 2 * x : x,
        ]),
      )
      const large = draw(motif, twice, doubled).stroke
      const small = draw(motif, strip, values).stroke
      expect(large.segments).toHaveLength(small.segments.length)
      expect(distance(large.start, scale(small.start, 2))).toBeLessThan(1e-6)
      large.segments.forEach((s, i) => {
        expect(distance(s.to, scale(small.segments[i]!.to, 2))).toBeLessThan(1e-6)
      })
    })
  })

  it(`retraces no more than ${retrace * 100} percent of itself`, () => {
    holds(motif, 8, (strip, values) => {
      const { stroke } = draw(motif, strip, values)
      expect(retraced(pointsOf(stroke)) / strokeLength(stroke)).toBeLessThanOrEqual(retrace)
    })
  })

  if (motif.joints === 'smooth')
    it('is smooth at every joint', () => {
      holds(motif, 40, (strip, values) => expect(kinks(draw(motif, strip, values).stroke)).toEqual([]))
    })

  if (simple)
    it('never crosses itself', () => {
      holds(motif, 25, (strip, values) =>
        expect(crossings(pointsOf(draw(motif, strip, values).stroke))).toEqual([]),
      )
    })

  const { drawToMitre } = motif
  if (drawToMitre)
    it('fills the corner up to the mitre, from either edge to either corner', () => {
      const skews = fc.constantFrom(0.414, 0.577, 0.8, 1, 1.25)
      fc.assert(
        fc.property(draft, skews, (d, skew) => {
          const { strip, values } = stripFor(motif, d)
          const mitre: MitreStrip = { ...strip, skew }
          const { stroke } = drawToMitre(mitre, values as never)
          const goal: Point =
            strip.to === 'inner' ? [strip.length, 0] : [strip.length + skew * strip.width, strip.width]
          const points = pointsOf(stroke)
          expect(distance(endOf(stroke), goal)).toBeLessThan(1e-6)
          expect(leaves(points, strip, skew)).toBeLessThan(0.1)
          if (motif.joints === 'smooth') expect(kinks(stroke)).toEqual([])
          if (simple) expect(crossings(points)).toEqual([])
        }),
        { seed: 1, numRuns: 25 },
      )
    })
})

/** The largest gap of a stretch by itself, in spacings, seams and ends counting as lines. */
function gapIn(motif: AnyMotif, width: number, share: number): number {
  const values = { spacing: share * width }
  const length = motif.repeat(width, values as never) * 2
  const ends = { from: 'inner', to: 'inner', mirrorStart: true, mirrorEnd: true } as const
  const { stroke } = draw(motif, { ...ends, length, width, repeats: 2, seed: 4 }, values)
  const inside = ([u, v]: Point) => Math.min(u, v, length - u, width - v)
  return largestGap(pointsOf(stroke), inside, { length, width, step: width / 60 }).diameter / values.spacing
}

describe('the space between the lines', () => {
  it.each([0.085, 0.1, 0.12])('is even in the swirl: no gap above 2.5 spacings at %f widths', (share) => {
    expect(gapIn(any(swirl), 100, share)).toBeLessThan(2.5)
  })

  it.each(['inner', 'outer'] as const)(
    'is bounded in the swirl at a corner that is left at its %s end',
    (to) => {
      const [width, spacing] = [100, 9]
      const strip = { from: 'inner', to, length: 200, width, repeats: 2, seed: 4, skew: 1 } as const
      const { stroke } = swirl.drawToMitre!({ ...strip, mirrorStart: true, mirrorEnd: true }, { spacing })
      const near = pointsOf(stroke)
      // the other side is the mirror image about the mitre v = u - 200
      const both = [...near, ...near.map(([u, v]): Point => [v + 200, u - 200]).reverse()]
      const inside = ([u, v]: Point) => (u - v > 200 ? 0 : Math.min(u, v, width - v))
      const gap = largestGap(both, inside, { length: 300, width, step: 2 })
      expect(gap.diameter / spacing).toBeLessThan(3.6)
    },
  )

  it.each([0.06, 0.1, 0.15])('is even in the meander: no gap above 2.5 spacings at %f widths', (share) => {
    expect(gapIn(any(meander), 100, share)).toBeLessThan(2.5)
  })
})

describe('closed forms', () => {
  // F(r) = (b/2)[(r/b) sqrt(1 + (r/b)^2) + asinh(r/b)], b = pitch / 2 pi; values by numerical integration.
  it.each([
    { outer: 2 * Math.PI, inner: 0, pitch: 2 * Math.PI, length: 21.2562941482 },
    { outer: 3, inner: 0, pitch: 1, length: 28.6029878927 },
    { outer: 1.75, inner: 0.25, pitch: 0.5, length: 18.9264998279 },
  ])('an Archimedean spiral of pitch $pitch is $length long', ({ length, ...reach }) => {
    expect(Math.abs(strokeLength(archimedeanSpiral([0, 0], reach)) / length - 1)).toBeLessThan(2e-4)
  })

  it('keeps an Archimedean spiral within 0.02 mm of its form', () => {
    const points = flattenStroke(archimedeanSpiral([0, 0], { outer: 40, inner: 5, pitch: 12 }), 0.002)
    let turned = 0
    const strays = points.map((p, i) => {
      const before = points[Math.max(0, i - 1)]!
      turned += Math.atan2(before[0] * p[1] - before[1] * p[0], before[0] * p[0] + before[1] * p[1])
      return Math.abs(Math.hypot(...p) - (40 - (12 * turned) / (2 * Math.PI)))
    })
    expect(Math.max(...strays)).toBeLessThan(0.02)
  })

  it('lays the two arms of a double spiral one spacing apart', () => {
    const spacing = 5
    const ends = { enter: 0, leave: Math.PI, trimEnter: 0, trimLeave: 0 }
    const points = pointsOf(drawDoubleSpiral({ centre: [0, 0], radius: 30, spacing, turn: 1, ...ends }))
    // where the stroke passes the ray at 90 degrees, outside the eye
    const passes = points.slice(1).flatMap((b, i) => {
      const a = points[i]!
      if (a[0] * b[0] > 0 || b[1] < 1.2 * spacing) return []
      return [lerp(a, b, a[0] / (a[0] - b[0]))[1]]
    })
    const sorted = passes.sort((x, y) => x - y)
    expect(sorted.length).toBeGreaterThan(4)
    sorted.slice(1).forEach((v, i) => {
      expect(v - sorted[i]!).toBeCloseTo(spacing, 1)
    })
  })

  it('packs clamshells: the length is that of their half circles', () => {
    // 100 mm wide, shells asked for at 40 mm: 2 x 100 / 40 = 5 rows, each 20 mm high, of shells 40 mm wide. Two
    // repeats are 4 whole shells and a half one in each row: 5 rows x 4.5 shells x pi x 20 mm = 450 pi mm.
    const length = 4.5 * 40
    const ends = { from: 'inner', to: 'outer', mirrorStart: true, mirrorEnd: true } as const
    const { stroke } = clamshell.draw({ ...ends, length, width: 100, repeats: 2, seed: 0 }, { size: 40 })
    expect(strokeLength(stroke)).toBeCloseTo(450 * Math.PI, 6)
  })

  it('stitches each line of a crosshatch once', () => {
    // 3 meshes of 20 mm high and 4 long: the path is 12 mesh diagonals of 20 sqrt 2 mm.
    const ends = { from: 'inner', to: 'inner', mirrorStart: true, mirrorEnd: true } as const
    const strip = { ...ends, length: 80, width: 60, repeats: 2, seed: 0 }
    const { stroke } = crosshatch.draw(strip, { spacing: 20 * Math.SQRT2 })
    expect(strokeLength(stroke)).toBeCloseTo(12 * 20 * Math.SQRT2, 6)
  })

  it('draws even numbers from a seed', () => {
    const random = seededRandom(7)
    const all = Array.from({ length: 4000 }, () => random.next())
    expect(all.reduce((a, b) => a + b) / all.length).toBeCloseTo(0.5, 1)
    expect(all.every((x) => x >= 0 && x < 1)).toBe(true)
  })
})

describe('the laws notice a broken motif', () => {
  const strip: Strip = {
    length: 60,
    width: 30,
    from: 'inner',
    to: 'inner',
    repeats: 1,
    mirrorStart: true,
    mirrorEnd: true,
    seed: 0,
  }

  it('that ends elsewhere or claims a touch where there is none', () => {
    const stroke = strokeThrough([
      [0, 0],
      [30, 20],
      [60, 1],
    ])
    const touches = [
      { edge: 'inner', after: 0 },
      { edge: 'outer', after: 1 },
      { edge: 'inner', after: 2 },
    ] as const
    expect(wrongEnds({ stroke, touches }, strip)).toEqual(['end', 'touch 1', 'touch 2'])
  })

  it('that leaves its strip or its mitre', () => {
    expect(leaves([[30, 31]], strip)).toBeCloseTo(1)
    expect(leaves([[75, 10]], strip, 1)).toBeCloseTo(5 / Math.SQRT2)
    expect(leaves([[65, 10]], strip, 1)).toBeLessThan(0)
  })

  it('that has a corner', () => {
    const bent = strokeThrough([
      [0, 0],
      [30, 20],
      [60, 0],
    ])
    expect(kinks(bent)).toEqual([1])
    expect(kinks({ start: [0, 0], segments: [line([10, 0]), arc([20, 10], [10, 10], Math.PI / 2)] })).toEqual(
      [],
    )
  })

  it('that crosses itself', () => {
    const loop: Point[] = [
      [0, 0],
      [20, 20],
      [40, 10],
      [0, 10],
    ]
    expect(crossings(loop)).toHaveLength(1)
    expect(crossings(loop.slice(0, 3))).toEqual([])
  })

  it('that goes back over itself', () => {
    const back: Point[] = [
      [0, 0],
      [30, 0],
      [30, 8],
      [40, 8],
      [40, 0.05],
      [10, 0.05],
    ]
    expect(retraced(back)).toBeGreaterThan(19)
    expect(retraced(back.slice(0, 5))).toBe(0)
  })

  it('that leaves a hole', () => {
    const rim = strokeThrough([
      [0, 0],
      [60, 0],
      [60, 30],
      [0, 30],
      [0, 0],
    ])
    const gap = largestGap(pointsOf(rim), ([u, v]) => Math.min(u, v, 60 - u, 30 - v), {
      length: 60,
      width: 30,
      step: 1,
    })
    expect(gap.diameter).toBeGreaterThan(28)
  })

  it('that does not scale', () => {
    const small = swirl.draw({ ...strip, length: 100, width: 100 }, { spacing: 10 }).stroke
    const large = transformStroke(small, { a: 2, b: 0, c: 0, d: 2.01, e: 0, f: 0 })
    const far = large.segments.map((s, i) => distance(s.to, scale(small.segments[i]!.to, 2)))
    expect(Math.max(...far)).toBeGreaterThan(0.1)
  })
})
