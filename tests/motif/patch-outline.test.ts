import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { alongOutline, inUnit, placeAt, UNIT_CORNERS, wayRound } from '../../src/motif/patch-outline.ts'

const way = fc.integer({ min: 0, max: 399 }).map((n) => n / 100)
const close = (found: readonly number[], expected: readonly number[]) => {
  expected.forEach((value, i) => {
    expect(found[i]).toBeCloseTo(value, 9)
  })
}

describe('the way round a unit square', () => {
  it('passes its corners at whole numbers', () => {
    expect(UNIT_CORNERS.map(wayRound)).toEqual([0, 1, 2, 3])
    UNIT_CORNERS.forEach((corner, i) => {
      close(placeAt(i), corner)
    })
    expect([wayRound([0.25, 0]), wayRound([1, 0.25]), wayRound([0.25, 1]), wayRound([0, 0.25])]).toEqual([
      0.25, 1.25, 2.75, 3.75,
    ])
  })

  it('leads back to the place it was asked for, and takes places inside by their nearest side', () => {
    fc.assert(
      fc.property(way, fc.integer({ min: 0, max: 20 }), (at, depth) => {
        expect(wayRound(placeAt(at))).toBeCloseTo(at, 9)
        const inset = depth / 100
        const [u, v] = placeAt(at, inset)
        expect(Math.min(u, v, 1 - u, 1 - v)).toBeCloseTo(inset, 9)
      }),
      { seed: 1, numRuns: 100 },
    )
    expect(wayRound([0.5, 0.1])).toBe(0.5)
    expect(wayRound([0.9, 0.5])).toBe(1.5)
  })
})

describe('a path along the outline', () => {
  it.each([
    [
      0.5,
      0.75,
      [
        [0.5, 0],
        [0.75, 0],
      ],
    ],
    [
      0.5,
      1.5,
      [
        [0.5, 0],
        [1, 0],
        [1, 0.5],
      ],
    ],
    [
      1.5,
      0.5,
      [
        [1, 0.5],
        [1, 0],
        [0.5, 0],
      ],
    ],
    [
      0.5,
      2.25,
      [
        [0.5, 0],
        [1, 0],
        [1, 1],
        [0.75, 1],
      ],
    ],
    [
      0.5,
      3.5,
      [
        [0.5, 0],
        [0, 0],
        [0, 0.5],
      ],
    ],
    [
      3.5,
      0.5,
      [
        [0, 0.5],
        [0, 0],
        [0.5, 0],
      ],
    ],
    [
      0,
      1,
      [
        [0, 0],
        [1, 0],
      ],
    ],
    [
      1,
      0,
      [
        [1, 0],
        [0, 0],
      ],
    ],
    [
      0,
      2,
      [
        [0, 0],
        [1, 0],
        [1, 1],
      ],
    ],
    [
      0.5,
      0.5,
      [
        [0.5, 0],
        [0.5, 0],
      ],
    ],
  ])('from %d to %d goes the shorter way over the corners between', (from, to, expected) => {
    const found = alongOutline(from, to)
    expect(found).toHaveLength(expected.length)
    found.forEach((p, i) => {
      close(p, expected[i]!)
    })
  })

  it('keeps to an inset, and is never longer than half round', () => {
    fc.assert(
      fc.property(way, way, fc.constantFrom(0, 0.1), (from, to, inset) => {
        const path = alongOutline(from, to, inset)
        close(path[0]!, placeAt(from, inset))
        close(path.at(-1)!, placeAt(to, inset))
        const length = path
          .slice(1)
          .reduce((sum, p, i) => sum + Math.hypot(p[0] - path[i]![0], p[1] - path[i]![1]), 0)
        const ahead = (to - from + 4) % 4
        expect(length).toBeCloseTo(Math.min(ahead, 4 - ahead) * (1 - 2 * inset), 6)
      }),
      { seed: 2, numRuns: 200 },
    )
  })
})

it('a place of a patch is the same share of its sides', () => {
  expect(inUnit({ width: 40, height: 20 } as never, [10, 15])).toEqual([0.25, 0.75])
})
