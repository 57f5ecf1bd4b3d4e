import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { Heap } from '../../src/route/heap.ts'

describe('a heap', () => {
  it('gives back all that was put in, least first', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: -50, max: 50 }), fc.nat(999)), { maxLength: 60 }),
        (all) => {
          const heap = new Heap(all.length)
          for (const [key, item] of all) heap.push(key, item)
          expect(heap.size).toBe(all.length)
          const out: [number, number][] = []
          while (heap.size > 0) {
            const key = heap.topKey
            out.push([key, heap.pop()])
          }
          const byKey = (a: readonly number[], b: readonly number[]) => a[0]! - b[0]! || a[1]! - b[1]!
          expect(out.map(([key]) => key)).toEqual(all.map(([key]) => key).sort((a, b) => a - b))
          expect([...out].sort(byKey)).toEqual([...all].sort(byKey))
        },
      ),
      { seed: 1, numRuns: 200 },
    )
  })

  it('keeps its order when things come and go in turn', () => {
    fc.assert(
      fc.property(fc.array(fc.option(fc.nat(40)), { maxLength: 80 }), (acts) => {
        const heap = new Heap(acts.length + 1)
        const list: number[] = []
        for (const act of acts) {
          if (act !== null) {
            heap.push(act, act)
            list.push(act)
          } else if (list.length > 0) {
            list.sort((a, b) => a - b)
            expect(heap.topKey).toBe(list[0])
            expect(heap.pop()).toBe(list.shift())
          }
          expect(heap.size).toBe(list.length)
        }
      }),
      { seed: 2, numRuns: 200 },
    )
  })

  it('is empty after it was cleared, and takes things again', () => {
    const heap = new Heap(3)
    heap.push(2, 20)
    heap.push(1, 10)
    heap.clear()
    expect(heap.size).toBe(0)
    heap.push(5, 50)
    expect([heap.topKey, heap.pop(), heap.size]).toEqual([5, 50, 0])
  })
})
