import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import clamshell from '../../motifs/centres/clamshell.ts'
import crosshatch from '../../motifs/centres/crosshatch.ts'
import echoRails from '../../motifs/centres/echo-rails.ts'
import meander from '../../motifs/centres/meander.ts'
import swirl from '../../motifs/centres/swirl.ts'
import { distance, type Point, scale } from '../../src/geometry/point.ts'
import { endOf, flattenStroke, strokeLength } from '../../src/geometry/stroke.ts'
import type { CentreFiller, Rectangle } from '../../src/motif/centre-contract.ts'
import type { Params } from '../../src/motif/contract.ts'
import { seededRandom } from '../../src/motif/random.ts'
import { spiralTree } from '../../src/motif/spiral-tree.ts'
import { type Cell, type Grid, growTree, type Tree, walkPast, walkRound } from '../../src/motif/tree-walk.ts'
import { crossings, kinks, largestGap, retraced } from '../support/free-laws.ts'

type AnyFiller = CentreFiller<Params>
const any = <P extends Params>(filler: CentreFiller<P>) => filler as unknown as AnyFiller
type Values = Record<string, number>

/** Every filler, its key of spacing, and whether its line never crosses itself. */
const FILLERS = [
  { filler: any(echoRails), by: 'spacing', simple: true },
  { filler: any(meander), by: 'spacing', simple: true },
  { filler: any(swirl), by: 'spacing', simple: true },
  { filler: any(crosshatch), by: 'spacing', simple: false },
  { filler: any(clamshell), by: 'size', simple: false },
]

const drafts = fc.record({
  width: fc.double({ min: 80, max: 500, noNaN: true }),
  height: fc.double({ min: 80, max: 500, noNaN: true }),
  seed: fc.integer({ min: 0, max: 1000 }),
  share: fc.double({ min: 0.05, max: 0.2, noNaN: true }),
})

const holds = (runs: number, law: (area: Rectangle, size: number) => void) =>
  fc.assert(
    fc.property(drafts, ({ share, ...area }) => {
      law(area, share * Math.min(area.width, area.height))
    }),
    { seed: 1, numRuns: runs },
  )

const outside = (points: readonly Point[], { width, height }: Rectangle): number =>
  Math.max(...points.map(([u, v]) => Math.max(-u, -v, u - width, v - height)))

describe.each(FILLERS)('the centre filler $filler.title', ({ filler, by, simple }) => {
  const fill = (area: Rectangle, size: number) => filler.fill(area, { [by]: size } as Values as never)
  const pointsOf = (area: Rectangle, size: number) => flattenStroke(fill(area, size).stroke, 0.05)

  it('starts and ends at its ports, and touches the outline where it says', () => {
    holds(15, (area, size) => {
      const { stroke, touches } = fill(area, size)
      const [start, end]: [Point, Point] =
        filler.ports === 'middle'
          ? [
              [area.width / 2, 0],
              [area.width / 2, 0],
            ]
          : [
              [0, 0],
              [area.width, 0],
            ]
      expect(distance(stroke.start, start)).toBeLessThan(1e-6)
      expect(distance(endOf(stroke), end)).toBeLessThan(1e-6)
      expect(touches[0]).toBe(0)
      expect(touches.at(-1)).toBe(stroke.segments.length)
      for (const after of touches) {
        const [, v] = after === 0 ? stroke.start : stroke.segments[after - 1]!.to
        expect(Math.min(Math.abs(v), Math.abs(area.height - v))).toBeLessThan(1e-6)
      }
    })
  })

  it('stays inside the rectangle', () => {
    holds(15, (area, size) => expect(outside(pointsOf(area, size), area)).toBeLessThan(0.1))
  })

  it('draws a stroke twice as large in a rectangle twice as large, and the same for the same seed', () => {
    holds(8, (area, size) => {
      const small = fill(area, size).stroke
      expect(fill(area, size).stroke).toEqual(small)
      const large = fill({ ...area, width: 2 * area.width, height: 2 * area.height }, 2 * size).stroke
      expect(large.segments).toHaveLength(small.segments.length)
      large.segments.forEach((s, i) => {
        expect(distance(s.to, scale(small.segments[i]!.to, 2))).toBeLessThan(1e-6)
      })
    })
  })

  it('retraces no more than 1 percent of itself', () => {
    holds(3, (area, size) => {
      const { stroke } = fill(area, size)
      expect(retraced(flattenStroke(stroke, 0.05)) / strokeLength(stroke)).toBeLessThanOrEqual(0.01)
    })
  })

  if (filler.joints === 'smooth')
    it('is smooth', () => {
      holds(10, (area, size) => expect(kinks(fill(area, size).stroke)).toEqual([]))
    })

  if (simple)
    it('never crosses itself on its way', () => {
      holds(10, (area, size) => {
        const points = pointsOf(area, size)
        // the two ends share their port
        expect(crossings(points.slice(1, -1))).toEqual([])
      })
    })
})

describe('the space between the lines of a centre', () => {
  it.each([
    { title: 'echo rails', filler: any(echoRails), spacing: 15, most: 1.6 },
    { title: 'meander', filler: any(meander), spacing: 12, most: 2.6 },
    { title: 'swirl', filler: any(swirl), spacing: 9, most: 3.6 },
  ])('of $title is no more than $most spacings', ({ filler, spacing, most }) => {
    for (const [width, height] of [
      [220, 220],
      [300, 160],
    ] as const) {
      const { stroke } = filler.fill({ width, height, seed: 2 }, { spacing } as never)
      const inside = ([u, v]: Point) => Math.min(u, v, width - u, height - v)
      const gap = largestGap(flattenStroke(stroke, 0.05), inside, { length: width, width: height, step: 2 })
      expect(gap.diameter / spacing).toBeLessThan(most)
    }
  })
})

/** What is wrong with a walk over a grid of fine cells: cells missed or passed twice, and leaps. */
function faults(walk: readonly Cell[], columns: number, rows: number): string[] {
  const seen = new Set(walk.map((cell) => cell.join()))
  const wrong: string[] = []
  if (seen.size !== columns * rows) wrong.push('missed')
  if (walk.length !== columns * rows) wrong.push('twice')
  if (walk.some(([c, r]) => c < 0 || r < 0 || c >= columns || r >= rows)) wrong.push('outside')
  walk.slice(1).forEach(([c, r], i) => {
    const [a, b] = walk[i]!
    if (Math.abs(a - c) + Math.abs(b - r) !== 1) wrong.push(`leap ${i}`)
  })
  return wrong
}

describe('the walk round a tree', () => {
  const grids = fc.record({ columns: fc.integer({ min: 1, max: 9 }), rows: fc.integer({ min: 1, max: 9 }) })
  const each = (law: (grid: Grid, seed: number) => void) =>
    fc.assert(
      fc.property(grids, fc.integer(), (grid, seed) => {
        law(grid, seed)
      }),
      { seed: 1, numRuns: 100 },
    )

  it('passes every fine cell exactly once, step by step, and comes back beside its start', () => {
    each((grid, seed) => {
      for (const tree of [growTree(grid, seededRandom(seed), 'one'), spiralTree(grid)]) {
        const walk = walkRound(grid, tree)
        expect(faults(walk, 2 * grid.columns, 2 * grid.rows)).toEqual([])
        expect(walk.at(-1)).toEqual([grid.columns, 0])
      }
    })
  })

  it('passes every fine cell from one end of its lane to the other', () => {
    each((grid, seed) => {
      const walk = walkPast(grid, growTree(grid, seededRandom(seed), 'many'))
      expect(faults(walk, 2 * grid.columns, 2 * grid.rows + 1)).toEqual([])
      expect([walk[0], walk.at(-1)]).toEqual([
        [0, 0],
        [2 * grid.columns - 1, 0],
      ])
    })
  })

  it('is found wanting if the tree does not span the grid', () => {
    const bare: Tree = { right: new Set(), up: new Set(), ground: new Set() }
    expect(faults(walkRound({ columns: 3, rows: 1 }, bare), 6, 2)).toContain('missed')
    expect(
      faults(
        [
          [0, 0],
          [1, 1],
        ],
        2,
        1,
      ),
    ).toEqual(['outside', 'leap 0'])
  })
})

describe('the laws notice a broken filler', () => {
  it('that leaves its rectangle', () => {
    expect(outside([[10, 21]], { width: 20, height: 20, seed: 0 })).toBeCloseTo(1)
  })
})
