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

describe('links worth trying', () => {
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
