import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { crosshatchPath, oddNear } from '../../src/motif/billiard.ts'

const columns = fc.integer({ min: 1, max: 14 })
const rows = fc.integer({ min: 1, max: 5 }).map((n) => 2 * n + 1)

/** Each unit step of a path along a diagonal, as the middle of the cell that it crosses and its slope. */
function stepsOf(path: readonly (readonly [number, number])[]): string[] {
  return path.slice(1).flatMap(([u, v], i) => {
    const [u0, v0] = path[i]!
    const count = Math.abs(u - u0)
    const slope = Math.sign(u - u0) * Math.sign(v - v0)
    return Array.from({ length: count }, (_, k) => {
      const [x, y] = [u0 + Math.sign(u - u0) * (k + 0.5), v0 + Math.sign(v - v0) * (k + 0.5)]
      return `${x} ${y} ${slope}`
    })
  })
}

describe('a crosshatch as one path', () => {
  it('runs at 45 degrees from the near corner to the far end, inside the table', () => {
    fc.assert(
      fc.property(columns, rows, (across, down) => {
        const path = crosshatchPath(across, down)
        expect(path[0]).toEqual([0, 0])
        expect(path.at(-1)).toEqual([across, across % 2 === 1 ? down : 0])
        path.forEach(([u, v], i) => {
          expect(u >= 0 && u <= across && v >= 0 && v <= down).toBe(true)
          if (i === 0) return
          const [du, dv] = [u - path[i - 1]![0], v - path[i - 1]![1]]
          expect(Math.abs(du)).toBe(Math.abs(dv))
          expect(du).not.toBe(0)
        })
      }),
      { seed: 1, numRuns: 100 },
    )
  })

  it('crosses each cell once, on every second diagonal one way and the other, and no line twice', () => {
    fc.assert(
      fc.property(columns, rows, (across, down) => {
        const steps = stepsOf(crosshatchPath(across, down))
        expect(new Set(steps).size).toBe(steps.length)
        expect(steps).toHaveLength(across * down)
        const cells = new Set(steps.map((step) => step.replace(/ -?1$/, '')))
        expect(cells.size).toBe(across * down)
      }),
      { seed: 2, numRuns: 100 },
    )
  })

  it('turns only at the table’s edges', () => {
    fc.assert(
      fc.property(columns, rows, (across, down) => {
        const path = crosshatchPath(across, down)
        for (const [u, v] of path.slice(1, -1))
          expect(v === 0 || v === down || u === 0 || u === across || u % 1 === 0).toBe(true)
        for (let i = 1; i + 1 < path.length; i++) {
          const [a, b, c] = [path[i - 1]!, path[i]!, path[i + 1]!]
          const turns = Math.sign(b[1] - a[1]) !== Math.sign(c[1] - b[1])
          if (turns) expect([0, down]).toContain(b[1])
        }
      }),
      { seed: 3, numRuns: 60 },
    )
  })

  it('is as many tables as their lengths need to share no divisor with the height', () => {
    expect(crosshatchPath(1, 3)).toEqual([
      [0, 0],
      [1, 1],
      [0, 2],
      [1, 3],
    ])
    // 3 shares a divisor with 3: a table 1 long, then from [1, 3] one 2 long, each bounced through by hand.
    expect(crosshatchPath(3, 3).map(([u]) => u)).toEqual([0, 1, 0, 1, 3, 2, 1, 3])
  })
})

it.each([
  [6, 3, 2],
  [9, 3, 4],
  [10, 5, 4],
  [10, 15, 2],
  [12, 15, 4],
  [8, 3, 8],
])('a crosshatch %i by %i is cut as evenly as may be: its first table is %i long', (across, down, first) => {
  const path = crosshatchPath(across, down).map(([u]) => u)
  expect(Math.max(...path.slice(0, first + down - 1))).toBe(first)
  expect(path.slice(first + down - 1).every((u) => u >= first)).toBe(true)
})

it('a crosshatch that no two tables make is cut into three', () => {
  // Of 1 + 6, 2 + 5 and 3 + 4 each pair has a divisor in common with 105.
  const steps = stepsOf(crosshatchPath(7, 105))
  expect(steps).toHaveLength(7 * 105)
  expect(new Set(steps).size).toBe(7 * 105)
})

it('the odd number nearest is at least three', () => {
  expect([-4, 0, 2.9, 3, 3.9, 4.1, 5, 6.1, 7.9].map(oddNear)).toEqual([3, 3, 3, 3, 3, 5, 5, 7, 7])
})
