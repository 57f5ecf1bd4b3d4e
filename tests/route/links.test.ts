import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { completeTree, linkCandidates } from '../../src/route/links.ts'
import type { Network } from '../../src/route/network.ts'
import { Task } from '../../src/route/task.ts'
import { allDistances, networkOf, smallNetwork } from './small-networks.ts'

const taskOf = (network: Network, free: 0 | 2 = 2): Task => new Task(network, { fixed: [], free })

/** Required edges a few steps apart on a line of seams: component k at vertices 4k and 4k + 1. */
const beads = (count: number): Network =>
  networkOf(
    4 * count,
    Array.from({ length: 4 * count - 1 }, (_, x) => [x, x + 1, 10 + x, x % 4 === 0] as const),
  )

/** A few required edges far apart among many seams, some parts cut off from the rest. */
const patchy: fc.Arbitrary<Network> = fc
  .record({
    required: fc.uniqueArray(fc.nat(9), { minLength: 2, maxLength: 6 }),
    seams: fc.array(fc.tuple(fc.nat(19), fc.nat(19), fc.nat(30)), { minLength: 14, maxLength: 40 }),
  })
  .map(({ required, seams }) =>
    networkOf(20, [...required.map((k) => [2 * k, 2 * k + 1, 5, true] as const), ...seams]),
  )

describe('links worth trying', () => {
  it('are the five best between any two components, by score and then by their ends', () => {
    fc.assert(
      fc.property(patchy, fc.constantFrom<0 | 2>(0, 2), (network, free) => {
        const task = taskOf(network, free)
        const d = allDistances(network)
        const odd = new Set(task.terminals([]))
        const on = [...task.component.keys()].filter((x) => task.component[x] !== -1)
        const scoreOf = (a: number, b: number) =>
          d[a]![b]! * (1 - (Number(odd.has(a)) + Number(odd.has(b))) / 4)
        const links = linkCandidates(task)
        for (let i = 0; i < task.componentCount; i++)
          for (let j = i + 1; j < task.componentCount; j++) {
            const scores = on
              .filter((a) => task.component[a] === i)
              .flatMap((a) => on.filter((b) => task.component[b] === j).map((b) => scoreOf(a, b)))
              .filter(Number.isFinite)
              .sort((x, y) => x - y)
            const found = links.filter(({ from, to }) => from === i && to === j)
            expect(found.map(({ score }) => score)).toEqual(scores.slice(0, 5))
          }
        links.slice(1).forEach((link, i) => {
          const before = links[i]!
          const order = before.score - link.score || before.a - link.a || before.b - link.b
          expect(order).toBeLessThan(0)
        })
      }),
      { seed: 4, numRuns: 80 },
    )
  })

  it('lead from each component to its eight nearest, and from the farther ones only what joins all', () => {
    const links = linkCandidates(taskOf(beads(12)))
    const pairs = [...new Set(links.map(({ from, to }) => `${from} ${to}`))].map((pair) =>
      pair.split(' ').map(Number),
    )
    // Beads in a row lie the farther apart the farther along: the nearest pairs are taken until both have eight.
    const taken = new Array<number>(12).fill(0)
    for (const [i, j] of pairs) {
      taken[i!]!++
      taken[j!]!++
    }
    for (const count of taken) expect(count).toBeGreaterThanOrEqual(8)
    const d = allDistances(beads(12))
    const gap = (i: number, j: number) => d[4 * i + 1]![4 * j]!
    const wanted = new Set<string>()
    const full = new Array<number>(12).fill(0)
    const all = [...Array(12).keys()].flatMap((i) =>
      [...Array(12).keys()].filter((j) => j > i).map((j) => [i, j] as const),
    )
    const gaps = new Map(all.map(([i, j]) => [`${i} ${j}`, gap(i, j)]))
    for (const [i, j] of [...all].sort(
      (x, y) => gaps.get(x.join(' '))! - gaps.get(y.join(' '))! || x[0] - y[0] || x[1] - y[1],
    )) {
      const isNext = j === i + 1
      if (!isNext && full[i]! >= 8 && full[j]! >= 8) continue
      full[i]!++
      full[j]!++
      wanted.add(`${i} ${j}`)
    }
    expect(new Set(pairs.map((pair) => pair.join(' ')))).toEqual(wanted)
  })

  it('lead between components, and score their length, less for each odd end', () => {
    fc.assert(
      fc.property(smallNetwork, (network) => {
        const task = taskOf(network)
        const d = allDistances(network)
        const odd = new Set(task.terminals([]))
        for (const { a, b, from, to, score } of linkCandidates(task)) {
          expect([task.component[a], task.component[b]]).toEqual([from, to])
          expect(from).not.toBe(to)
          const ends = Number(odd.has(a)) + Number(odd.has(b))
          expect(score).toBeCloseTo(d[a]![b]! * (1 - ends / 4), 9)
        }
      }),
      { seed: 1, numRuns: 60 },
    )
  })

  it('come best first, with the nearest between any two components that can be joined, and join all', () => {
    fc.assert(
      fc.property(smallNetwork, (network) => {
        const task = taskOf(network)
        const d = allDistances(network)
        const links = linkCandidates(task)
        const scores = links.map(({ score }) => score)
        expect(scores).toEqual([...scores].sort((x, y) => x - y))
        for (let i = 0; i < task.componentCount; i++)
          for (let j = i + 1; j < task.componentCount; j++) {
            const between = links.filter(({ from, to }) => from === i && to === j)
            const all = [...task.component.keys()].flatMap((a) =>
              [...task.component.keys()].flatMap((b) =>
                task.component[a] === i && task.component[b] === j && Number.isFinite(d[a]![b]!)
                  ? [d[a]![b]!]
                  : [],
              ),
            )
            expect(between).toHaveLength(Math.min(5, all.length))
          }
      }),
      { seed: 2, numRuns: 40 },
    )
  })

  it('are none where there is nothing to join', () => {
    expect(
      linkCandidates(
        taskOf(
          networkOf(3, [
            [0, 1, 1, true],
            [1, 2, 1, true],
          ]),
        ),
      ),
    ).toEqual([])
    expect(linkCandidates(taskOf(networkOf(2, [[0, 1, 1]])))).toEqual([])
  })

  it('are kept to the nearest eight of many components, and to what joins all', () => {
    const task = taskOf(beads(12))
    const pairs = new Set(linkCandidates(task).map(({ from, to }) => `${from} ${to}`))
    for (let k = 0; k + 1 < 12; k++) expect(pairs.has(`${k} ${k + 1}`)).toBe(true)
    expect(pairs.size).toBeLessThan((12 * 11) / 2)
    // The two ends of the row are each other's farthest.
    expect(pairs.has('0 11')).toBe(false)
  })
})

describe('a tree of links', () => {
  it('joins all components that can be joined, with one link fewer, those given first', () => {
    fc.assert(
      fc.property(smallNetwork, (network) => {
        const task = taskOf(network)
        const links = linkCandidates(task)
        const tree = completeTree(task, [], links)
        const groups = new Map<number, number>()
        const rootOf = (c: number): number => (groups.has(c) ? rootOf(groups.get(c)!) : c)
        for (const { a, b } of tree) {
          const [x, y] = [rootOf(task.component[a]!), rootOf(task.component[b]!)]
          expect(x).not.toBe(y)
          groups.set(x, y)
        }
        for (const { from, to } of links) expect(rootOf(from)).toBe(rootOf(to))
      }),
      { seed: 3, numRuns: 40 },
    )
  })

  it('keeps the links that it is given and completes them with the first that fit', () => {
    const task = taskOf(beads(3))
    const link = (a: number, b: number) => ({ a, b })
    const candidate = (a: number, b: number) => ({ a, b, from: 0, to: 0, score: 0 })
    expect(completeTree(task, [link(0, 9)], [candidate(1, 8), candidate(1, 4), candidate(5, 8)])).toEqual([
      link(0, 9),
      candidate(1, 4),
    ])
    expect(completeTree(task, [link(0, 9), link(1, 8)], [candidate(5, 8)])).toEqual([
      link(0, 9),
      candidate(5, 8),
    ])
  })
})
