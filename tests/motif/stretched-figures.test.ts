import { describe, expect, it } from 'vitest'
import cable from '../../motifs/cable.ts'
import clamshell from '../../motifs/clamshell.ts'
import fourPetal from '../../motifs/corners/four-petal.ts'
import leafVine from '../../motifs/leaf-vine.ts'
import spiralChain from '../../motifs/spiral-chain.ts'
import swirl from '../../motifs/swirl.ts'
import { cross, distance, dot, lerp, type Point, subtract } from '../../src/geometry/point.ts'
import { flattenStroke, type Stroke, strokeLength } from '../../src/geometry/stroke.ts'
import type { Edge } from '../../src/motif/contract.ts'
import { columnsFor, drawShells } from '../../src/motif/shell-rows.ts'
import { wedgeCircles } from '../../src/motif/wedge-circles.ts'
import { crossings, retraced } from '../support/free-laws.ts'

const EDGES = ['inner', 'outer'] as const satisfies readonly Edge[]
const mirrored = { mirrorStart: true, mirrorEnd: true, seed: 3 } as const
const fine = (stroke: Stroke): Point[] => flattenStroke(stroke, 0.002)

/** How far from a place the line passes a ray, nearest first, mm; no further than `reach`. */
function passes(
  points: readonly Point[],
  from: Point,
  { along, reach }: { along: Point; reach: number },
): number[] {
  const found = points.slice(1).flatMap((b, i): number[] => {
    const [p, q] = [subtract(points[i]!, from), subtract(b, from)]
    const [s, t] = [cross(along, p), cross(along, q)]
    if (s === t || s * t > 0) return []
    const away = dot(along, lerp(p, q, s / (s - t)))
    return away > 0 && away < reach ? [away] : []
  })
  return found.sort((a, b) => a - b)
}

/** The distances between neighbouring passes along the u and the v axis, from outside the eye to `reach` from the centre. */
function gapsAbout(
  points: readonly Point[],
  centre: Point,
  { eye, reach }: { eye: number; reach: number },
): number[] {
  const axes: readonly Point[] = [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ]
  return axes.flatMap((along) => {
    const all = passes(points, centre, { along, reach }).filter((away) => away > eye)
    return all.slice(1).map((away, i) => away - all[i]!)
  })
}

describe('a chain of spirals', () => {
  it.each([0.8, 1, 1.3])('keeps its spirals round in a strip of %f of its repeats', (stretch) => {
    const [width, spacing, repeats] = [120, 10, 3]
    const length = stretch * repeats * spiralChain.repeat(width, { spacing })
    for (const to of EDGES) {
      const strip = { ...mirrored, length, width, from: 'inner', to, repeats } as const
      // Begun on the inner edge, three spirals end on the outer one: to the inner one a lead runs down the end.
      const pitch = (length - (to === 'outer' ? 0 : 0.95 * spacing)) / repeats
      const gaps = gapsAbout(fine(spiralChain.draw(strip, { spacing }).stroke), [1.5 * pitch, width / 2], {
        eye: 1.3 * spacing,
        reach: Math.min(width, pitch) / 2 - spacing,
      })
      expect(gaps.length).toBeGreaterThan(3)
      for (const gap of gaps) expect(gap).toBeCloseTo(spacing, 1)
    }
  })

  it('turns the same corner whatever the length of its strip', () => {
    const [width, spacing] = [60, 6]
    for (const to of EDGES) {
      const ends = [1.05, 1.2].map((stretch) => {
        const length = 4 * stretch * spiralChain.repeat(width, { spacing }) - width / 2
        const strip = { ...mirrored, length, width, skew: 1, from: 'inner', to, repeats: 4 } as const
        const points = fine(spiralChain.drawToMitre!(strip, { spacing }).stroke)
        return points.map(([u, v]): Point => [u - length, v]).filter(([u]) => u > -0.2 * width)
      })
      expect(furthest(ends[0]!, ends[1]!)).toBeLessThan(0.05)
    }
  })
})

/** Where a chain is cut, the chord over the gap is longer, mm. */
const CUT = 2

/** The furthest that a point of one chain lies from the points of another, which lie close together. */
const furthest = (a: readonly Point[], b: readonly Point[]): number =>
  Math.max(...a.filter((_, i) => i % 9 === 0).map((p) => distanceTo(p, b, CUT)))

function distanceTo(p: Point, chain: readonly Point[], longest = Number.POSITIVE_INFINITY): number {
  let least = Number.POSITIVE_INFINITY
  for (let i = 1; i < chain.length; i++) {
    const [a, along] = [chain[i - 1]!, subtract(chain[i]!, chain[i - 1]!)]
    const square = dot(along, along)
    if (square > longest ** 2) continue
    const t = square === 0 ? 0 : Math.min(1, Math.max(0, dot(subtract(p, a), along) / square))
    least = Math.min(least, distance(p, [a[0] + t * along[0], a[1] + t * along[1]]))
  }
  return least
}

describe('circles in a mitre’s wedge', () => {
  it('touch the circle before them, and keep as far from the edge and the mitre as they are told to', () => {
    const strip = {
      ...mirrored,
      length: 100,
      width: 50,
      skew: 1.6,
      from: 'inner',
      to: 'outer',
      repeats: 1,
    } as const
    const first = { centre: [96, 25], radius: 20 } as const
    const keep = { fromEdge: 2, fromMitre: 3, least: 1 }
    const circles = wedgeCircles(strip, first, keep)
    expect(circles.length).toBeGreaterThan(1)
    circles.forEach(({ centre, radius }, i) => {
      const before = circles[i - 1] ?? first
      expect(distance(centre, before.centre)).toBeCloseTo(radius + before.radius, 9)
      expect(50 - centre[1] - radius).toBeCloseTo(2, 9)
      expect((100 + 1.6 * centre[1] - centre[0]) / Math.hypot(1, 1.6) - radius).toBeCloseTo(3, 9)
      expect(radius).toBeGreaterThanOrEqual(1)
    })
  })
})

describe('a swirl', () => {
  it('turns the same corner whatever the length of its strip', () => {
    const [width, spacing] = [100, 9]
    for (const to of EDGES) {
      const ends = [1, 1.15].map((stretch) => {
        const length = 4 * stretch * swirl.repeat(width, { spacing }) - width / 2
        const strip = { ...mirrored, length, width, skew: 1, from: 'inner', to, repeats: 4 } as const
        const points = fine(swirl.drawToMitre!(strip, { spacing }).stroke)
        return points
          .map(([u, v]): Point => [u - length, v])
          .filter(([u, v]) => u > 0.25 * width && v > 0.6 * width)
      })
      // Spirals settle with their neighbours: within 2 percent of the width.
      expect(furthest(ends[0]!, ends[1]!)).toBeLessThan(0.02 * width)
    }
  })
})

describe('clamshells', () => {
  it.each(EDGES)('that come back to the %s edge stitch every arc of their half circles once', (edge) => {
    // 5 rows, 20 mm high, of 4 shells of 40 mm: 5 x 4 x pi x 20 mm.
    const strip = { ...mirrored, length: 160, width: 100, from: edge, to: edge, repeats: 2 } as const
    const { stroke } = clamshell.draw(strip, { size: 40 })
    expect(strokeLength(stroke)).toBeCloseTo(400 * Math.PI, 6)
    expect(retraced(flattenStroke(stroke, 0.03))).toBeLessThan(0.01)
  })

  it('end whole on a mitre of 45 degrees: quarter circles all of one size', () => {
    // Along its middle 10 + 5/2 half shells of 20 mm.
    const strip = { ...mirrored, length: 200, width: 100, skew: 1, from: 'inner', repeats: 3 } as const
    for (const to of EDGES) {
      const { stroke } = clamshell.drawToMitre!({ ...strip, to }, { size: 40 })
      // Rows of 10, 11, 12, 13 and 14 quarters, and the last ones of two or three rows beside the mitre.
      const quarters = 60 + (to === 'outer' ? 3 : 2)
      expect(strokeLength(stroke) / (quarters * 10 * Math.PI)).toBeCloseTo(1, 3)
      for (const [u, v] of flattenStroke(stroke, 0.05)) expect(u - v).toBeLessThan(200.1)
    }
  })

  it('have as many columns as their ends leave them', () => {
    for (const from of EDGES)
      for (const to of EDGES)
        for (const end of ['square', 'mitre'] as const) {
          const columns = columnsFor({ from, to, end }, 7.3)
          expect(Math.abs(columns - 7.3)).toBeLessThanOrEqual(1)
          const { stroke } = drawShells({ rows: 5, columns, end, from, to })
          const goal: Point = [columns + (end === 'mitre' && to === 'outer' ? 5 : 0), to === 'inner' ? 0 : 5]
          expect(stroke.segments.at(-1)!.to).toEqual(goal)
        }
  })
})

describe('a cable', () => {
  it('holds as many touches as fit its strip best, whatever the number of repeats asked for', () => {
    for (const to of EDGES)
      for (const length of [90, 130, 170, 260]) {
        const strip = { ...mirrored, length, width: 40, from: 'inner', to, repeats: 1 } as const
        const { repeats } = cable.draw(strip, { repeat: 112 })
        const count = 6 * repeats!
        // Strands end as they begin only after so many thirds of a half period.
        expect([1, 2]).toContain(Math.round(count) % 3)
        expect(Math.round(count) % 2).toBe(to === 'inner' ? 0 : 1)
        expect(Math.abs(Math.log(length / (repeats! * 112)))).toBeLessThan(Math.log(2) / 2 + 0.2)
      }
  })
})

describe('a leaf vine', () => {
  it('has whole leaves or none in strips shorter than a third of a repeat', () => {
    for (const length of [12, 20, 28]) {
      const strip = { ...mirrored, length, width: 50, from: 'inner', repeats: 1 } as const
      const across = leafVine.draw({ ...strip, to: 'outer' }, { leaf: 0.3 }).stroke
      expect(crossings(flattenStroke(across, 0.05))).toEqual([])
      const back = leafVine.draw({ ...strip, to: 'inner' }, { leaf: 0.3 }).stroke
      const tip = fine(back).reduce((a, b) => (b[1] > a[1] ? b : a))
      // One leaf that stands up straight in the middle.
      expect(tip[0]).toBeCloseTo(length / 2, 2)
      expect(retraced(flattenStroke(back, 0.03))).toBeLessThan(0.08)
    }
  })
})

describe('four petals', () => {
  it('are alike on both sides of the diagonal by which they are left', () => {
    const patch = { width: 60, height: 60, entry: [0, 0], exit: [60, 60] } as const
    const points = flattenStroke(fourPetal.draw(patch, { breadth: 0.36 }), 0.02)
    for (const [u, v] of points.filter((_, i) => i % 5 === 0))
      expect(distanceTo([v, u], points)).toBeLessThan(0.05)
  })
})
