import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { dot, type Point } from '../../src/geometry/point.ts'
import { flattenStroke } from '../../src/geometry/stroke.ts'
import type { Edge, MitreStrip, Motif } from '../../src/motif/contract.ts'
import { drawStretch } from '../../src/motif/draw-stretch.ts'
import { defaultValues } from '../../src/plan/settle-filler.ts'
import { crossings, largestGap } from '../support/free-laws.ts'

const WIDTH = 60

interface Corner {
  readonly from: Edge
  readonly to: Edge
  /** Half repeats: odd if the edges differ, for a motif that alternates. */
  readonly halves: number
  readonly skew?: number
  readonly values?: Readonly<Record<string, number>>
  readonly seed?: number
  /** How far chords stray from the line at most, mm. */
  readonly chord?: number
}

/** The line up to a mitre, begun at u = 0, and the place of the mitre's inner end. */
function drawn(name: string, { from, to, halves, skew = 1, values = {}, seed = 1, chord = 0.05 }: Corner) {
  const motif: Motif = LIBRARY.motifs[name]!
  const all = { ...defaultValues(motif.params, WIDTH), ...values }
  const length = (halves / 2) * motif.repeat(WIDTH, all) - (skew * WIDTH) / 2
  const end = { inner: length, outer: length + skew * WIDTH }
  const stretch = { width: WIDTH, start: { inner: 0, outer: 0 }, end }
  const run = { stretch, from, to, halfRepeats: halves, atMiddle: true, atCorner: true, seed }
  const { stroke } = drawStretch({ name, motif, values: all }, run)
  return { points: flattenStroke(stroke, chord), length, skew }
}

/** The mirror image about the mitre. */
function mirrored({ points, length, skew }: ReturnType<typeof drawn>): Point[] {
  const along: Point = [skew / Math.hypot(1, skew), 1 / Math.hypot(1, skew)]
  return points.map((p): Point => {
    const away: Point = [p[0] - length, p[1]]
    const k = 2 * dot(away, along)
    return [length + k * along[0] - away[0], k * along[1] - away[1]]
  })
}

/** The largest gap in the last two widths before a mitre of 45 degrees and as far beyond it, mm. */
function gapAtCorner(half: ReturnType<typeof drawn>): number {
  const { length } = half
  const both = [...half.points, ...mirrored(half).reverse()]
  // Before the mitre, and not further from the inner corner than two widths.
  const inside = ([u, v]: Point) => (u - v > length ? 0 : Math.min(u - length + 2 * WIDTH, v, WIDTH - v))
  const shifted = both.map(([u, v]): Point => [u - length + 2 * WIDTH, v])
  const at = ([u, v]: Point) => inside([u + length - 2 * WIDTH, v])
  return largestGap(shifted, at, { length: 3 * WIDTH, width: WIDTH, step: WIDTH / 50 }).diameter
}

/** How near the line comes to a mitre that it does not end on, mm: all but its last `home` mm of it. */
function clearOf({ points, length, skew }: ReturnType<typeof drawn>, home: number): number {
  const end = points.at(-1)!
  const rest = points.filter((p) => Math.hypot(p[0] - end[0], p[1] - end[1]) > home)
  return Math.min(...rest.map(([u, v]) => (length + skew * v - u) / Math.hypot(1, skew)))
}

describe('a ribbon', () => {
  it.each([0.414, 0.577, 0.8, 1, 1.25])(
    'turns about the inner corner of a mitre of skew %f clear of its mirror image',
    (skew) => {
      for (const halves of [6, 8, 10]) {
        const half = drawn('ribbon', { from: 'inner', to: 'inner', halves, skew })
        expect(clearOf(half, 0.35 * WIDTH)).toBeGreaterThan(0.01 * WIDTH)
      }
    },
  )
})

describe('a square key', () => {
  it.each(['inner', 'outer'] as const)('leaves no hole in a corner that it turns at its %s end', (to) => {
    const half = drawn('square-key', { from: 'inner', to, halves: to === 'inner' ? 6 : 7 })
    // The hooks of an even strip leave about 0.45 widths.
    expect(gapAtCorner(half)).toBeLessThan(0.62 * WIDTH)
  })
})

describe('a meander', () => {
  it('does not run along the mitre', () => {
    for (const seed of [1, 2, 3, 4, 5, 6])
      for (const to of ['inner', 'outer'] as const) {
        const spacing = 0.11 * WIDTH
        const { points, length } = drawn('meander', { from: 'inner', to, halves: 8, seed })
        const beside = points.filter(([u, v]) => (length + v - u) / Math.SQRT2 < 0.55 * spacing)
        let run = 0
        let longest = 0
        for (let i = 1; i < points.length; i++) {
          const isBeside = beside.includes(points[i]!) && beside.includes(points[i - 1]!)
          const [a, b] = [points[i - 1]!, points[i]!]
          run = isBeside ? run + Math.hypot(b[0] - a[0], b[1] - a[1]) : 0
          longest = Math.max(longest, run)
        }
        expect(longest).toBeLessThan(0.7 * WIDTH)
      }
  })
})

describe('a swirl', () => {
  it.each([0.04, 0.06])('of spirals %f widths apart fills a corner as closely as the rest', (share) => {
    const spacing = share * WIDTH
    const half = drawn('swirl', { from: 'inner', to: 'outer', halves: 20, values: { spacing } })
    expect(gapAtCorner(half) / spacing).toBeLessThan(4)
  })

  it('crosses neither itself nor its mirror image on a blunt mitre', () => {
    for (const skew of [0.414, 0.577]) {
      const half = drawn('swirl', { from: 'inner', to: 'outer', halves: 6, skew })
      expect(crossings([...half.points, ...mirrored(half).reverse().slice(1)])).toEqual([])
    }
  })
})

describe('a cable', () => {
  it('runs on through the mitre: where two strands cross on it, each goes on as the image of the other', () => {
    const { points, length } = drawn('cable', { from: 'inner', to: 'outer', halves: 6, chord: 1e-4 })
    // Directions in which strands come to the mitre or leave it, away from its outer corner.
    const onMitre = points.flatMap((p, i) => {
      const isOn = Math.abs(length + p[1] - p[0]) < 1e-6 && p[1] < 0.9 * WIDTH
      if (!isOn) return []
      return [points[i - 1], points[i + 1]].flatMap((q) => (q ? [[q[0] - p[0], q[1] - p[1]] as const] : []))
    })
    const slopes = onMitre.map(([u, v]) => Math.atan2(u + v, u - v))
    expect(slopes).toHaveLength(2)
    // Seen from the mitre's normal, the one turns as far to the left as the other to the right.
    const [a, b] = slopes.map((slope) => Math.abs(Math.PI - Math.abs(slope)))
    expect(a!).toBeCloseTo(b!, 1.5)
    expect(Math.sign(slopes[0]!)).toBe(-Math.sign(slopes[1]!))
  })
})

describe('the measures of a corner', () => {
  const straight = (points: Point[]) =>
    ({ points, length: 100, skew: 1 }) satisfies Pick<MitreStrip, 'length' | 'skew'> & { points: Point[] }

  it('tell a line that comes too near to the mitre', () => {
    expect(
      clearOf(
        straight([
          [0, 0],
          [139, 40],
          [100, 0],
        ]),
        5,
      ),
    ).toBeCloseTo(1 / Math.SQRT2, 6)
  })

  it('tell an empty corner', () => {
    expect(
      gapAtCorner(
        straight([
          [0, 0],
          [100, 0],
        ]),
      ),
    ).toBeGreaterThan(0.9 * WIDTH)
  })

  it('mirror a point about the mitre', () => {
    const [u, v] = mirrored(straight([[100, 10]]))[0]!
    expect(u).toBeCloseTo(110, 9)
    expect(v).toBeCloseTo(0, 9)
  })
})
