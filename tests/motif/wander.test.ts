import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distance, type Point } from '../../src/geometry/point.ts'
import { seededRandom } from '../../src/motif/random.ts'
import { wander } from '../../src/motif/wander.ts'

const size = fc.integer({ min: 1, max: 12 })

/** All cells of a mesh, row by row there and back. */
const cellsOf = (columns: number, rows: number): [number, number][] =>
  Array.from({ length: rows }, (_, r) =>
    Array.from({ length: columns }, (_, c): [number, number] => [r % 2 === 0 ? c : columns - 1 - c, r]),
  ).flat()

describe('the middles of a walk’s cells, strayed', () => {
  it('stay in the mesh, one for each cell, and far enough apart', () => {
    fc.assert(
      fc.property(size, size, fc.nat(99), (columns, rows, seed) => {
        const cells = cellsOf(columns, rows)
        const points = wander(cells, [columns, rows], seededRandom(seed))
        expect(points).toHaveLength(cells.length)
        points.forEach(([u, v], i) => {
          expect(u > 0 && u < columns && v > 0 && v < rows).toBe(true)
          expect(distance([u, v], [cells[i]![0] + 0.5, cells[i]![1] + 0.5])).toBeLessThan(2.2)
        })
      }),
      { seed: 1, numRuns: 60 },
    )
  })

  it('are the same for the same seed', () => {
    const draw = (seed: number) => wander(cellsOf(4, 3), [4, 3], seededRandom(seed))
    expect(draw(5)).toEqual(draw(5))
    expect(draw(5)).not.toEqual(draw(6))
  })

  it('lie where they always lay', () => {
    // Pinned from a run: the same bytes for the same plan rest on it.
    const cells = [
      [0, 0],
      [1, 0],
      [1, 1],
      [2, 1],
      [3, 2],
    ] as const
    const points = wander(cells, [6, 4], seededRandom(2))
    const known = [
      [0.567485, 0.549524],
      [1.42283, 0.472047],
      [1.399574, 1.330405],
      [2.30411, 1.207149],
      [3.632938, 2.317667],
    ]
    points.forEach(([u, v], i) => {
      expect(u).toBeCloseTo(known[i]![0]!, 5)
      expect(v).toBeCloseTo(known[i]![1]!, 5)
    })
  })

  it('sway by as much as is left of it at their place', () => {
    const cells = cellsOf(9, 9)
    const still = wander(cells, () => 0, seededRandom(3))
    const half = wander(cells, () => 0.5, seededRandom(3))
    const whole = wander(cells, () => 1, seededRandom(3))
    const moved = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1]]
    let most = 0
    cells.forEach((_, i) => {
      const [dx, dy] = moved(whole[i]!, still[i]!)
      const [hx, hy] = moved(half[i]!, still[i]!)
      expect(hx).toBeCloseTo(dx / 2, 9)
      expect(hy).toBeCloseTo(dy / 2, 9)
      most = Math.max(most, Math.abs(dx), Math.abs(dy))
    })
    // Two waves of 1 and 0.6 times 0.42.
    expect(most).toBeLessThanOrEqual(0.42 * 1.6)
    expect(most).toBeGreaterThan(0.3)
  })

  it('without sway stray by an eighth of a cell at most', () => {
    const row = Array.from({ length: 30 }, (_, c): [number, number] => [c, 0])
    const points = wander(row, () => 0, seededRandom(8))
    points.slice(1, -1).forEach(([u, v], i) => {
      expect(Math.abs(u - (i + 1.5))).toBeLessThan(0.125)
      expect(Math.abs(v - 0.5)).toBeLessThan(0.125)
    })
    // A single cell lies where the stream puts it.
    const random = seededRandom(8)
    for (let i = 0; i < 4; i++) random.next()
    const [only] = wander([[2, 5]], () => 0, seededRandom(8))
    expect(only).toEqual([2.5 + random.between(-0.12, 0.12), 5.5 + random.between(-0.12, 0.12)])
  })

  it('have no sway at a mesh’s rim', () => {
    const corner = wander([[0, 0]], [8, 8], seededRandom(4))
    const still = wander([[0, 0]], () => 0, seededRandom(4))
    const inner = wander([[3, 3]], [8, 8], seededRandom(4))
    const innerStill = wander([[3, 3]], () => 0, seededRandom(4))
    expect(distance(corner[0]!, still[0]!)).toBeLessThan(0.12)
    expect(distance(inner[0]!, innerStill[0]!)).toBeGreaterThan(distance(corner[0]!, still[0]!))
  })
})
