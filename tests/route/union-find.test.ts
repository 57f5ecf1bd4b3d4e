import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { UnionFind } from '../../src/route/union-find.ts'

const pairs = fc.array(fc.tuple(fc.nat(11), fc.nat(11)), { maxLength: 20 })

describe('disjoint sets', () => {
  it('are those that the pairs join, by relabelling', () => {
    fc.assert(
      fc.property(pairs, (joined) => {
        const sets = new UnionFind(12)
        const label = Array.from({ length: 12 }, (_, x) => x)
        for (const [a, b] of joined) {
          const isNew = label[a] !== label[b]
          expect(sets.union(a, b)).toBe(isNew)
          const [from, to] = [label[b], label[a]!]
          label.forEach((l, x) => {
            if (l === from) label[x] = to
          })
        }
        for (let x = 0; x < 12; x++)
          for (let y = 0; y < 12; y++) expect(sets.find(x) === sets.find(y)).toBe(label[x] === label[y])
      }),
      { seed: 1, numRuns: 50 },
    )
  })

  it('are represented by one of the larger set, so that finding stays quick', () => {
    const sets = new UnionFind(6)
    sets.union(0, 1)
    sets.union(0, 2)
    const root = sets.find(0)
    expect(sets.union(5, 1)).toBe(true)
    expect(sets.find(5)).toBe(root)
    sets.union(3, 4)
    sets.union(3, 0)
    expect(sets.find(4)).toBe(root)
  })

  it('are single again after a reset', () => {
    const sets = new UnionFind(4)
    for (const x of [1, 2, 3]) sets.union(0, x)
    sets.reset()
    expect([0, 1, 2, 3].map((x) => sets.find(x))).toEqual([0, 1, 2, 3])
    expect(sets.union(2, 3)).toBe(true)
    sets.union(0, 1)
    sets.union(1, 2)
    expect(sets.union(3, 0)).toBe(false)
  })

  it('are the same in a copy, and apart from it afterwards', () => {
    const sets = new UnionFind(5)
    sets.union(0, 1)
    const same = sets.copy()
    same.union(2, 3)
    sets.union(1, 4)
    expect([same.find(0) === same.find(1), same.find(2) === same.find(3)]).toEqual([true, true])
    expect(same.find(4)).toBe(4)
    expect(sets.find(2)).not.toBe(sets.find(3))
    // The larger set still takes the smaller one in.
    const root = same.find(0)
    same.union(4, 0)
    expect(same.find(4)).toBe(root)
  })
})
