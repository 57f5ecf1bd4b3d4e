import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { choosePorts, estimatePorts, type PortProblem } from '../../src/route/choose-ports.ts'
import { ANYWHERE, type Stage } from '../../src/route/stage.ts'

type Table = ReadonlyMap<string, number>
const keyOf = (p: number, q: number): string => `${p} ${q}`

/** A stage that is only a table: what it costs from port to port, as estimated and as settled. */
class TableStage {
  readonly #known: Map<string, number>
  readonly #sure = new Set<string>()

  constructor(
    estimates: Table,
    readonly real: Table = estimates,
  ) {
    this.#known = new Map(estimates)
  }

  cost(p: number, q: number): number {
    return this.#known.get(keyOf(p, q)) ?? Number.POSITIVE_INFINITY
  }

  /** An estimate may be made sure of once: then it is half way to what it really is. */
  makeSure(p: number, q: number): boolean {
    const [key, now] = [keyOf(p, q), this.cost(p, q)]
    if (this.#sure.has(key)) return false
    this.#sure.add(key)
    const real = this.real.get(key) ?? Number.POSITIVE_INFINITY
    const surer = Number.isFinite(now) && Number.isFinite(real) ? (now + real) / 2 : now
    this.#known.set(key, surer)
    return surer !== now
  }

  settle(p: number, q: number): boolean {
    const cost = this.real.get(keyOf(p, q)) ?? Number.POSITIVE_INFINITY
    const isNew = cost !== this.cost(p, q)
    this.#known.set(keyOf(p, q), cost)
    return isNew
  }
}

interface Drawn {
  readonly handovers: readonly (readonly number[])[]
  readonly tables: readonly Table[]
  readonly real: readonly Table[]
  readonly startCost: number
}

/** A row of stages with up to three ports between them, ANYWHERE among them, and any costs. */
const drawn: fc.Arbitrary<Drawn> = fc
  .array(fc.uniqueArray(fc.constantFrom(ANYWHERE, 1, 2, 3), { minLength: 1, maxLength: 3 }), {
    minLength: 2,
    maxLength: 5,
  })
  .chain((handovers) => {
    const stages = handovers.length - 1
    const costs = fc.array(fc.oneof(fc.nat(20), fc.constant(Number.POSITIVE_INFINITY)), {
      minLength: 9 * stages,
      maxLength: 9 * stages,
    })
    const tableOf = (list: readonly number[]): Table[] =>
      Array.from({ length: stages }, (_, s) => {
        const pairs = handovers[s]!.flatMap((p) => handovers[s + 1]!.map((q) => keyOf(p, q)))
        return new Map(pairs.map((pair, i) => [pair, list[9 * s + i]!]))
      })
    return fc.record({
      handovers: fc.constant(handovers),
      tables: costs.map(tableOf),
      real: costs.map(tableOf),
      startCost: fc.nat(30),
    })
  })

const problemOf = ({ handovers, tables, startCost }: Drawn, real?: readonly Table[]): PortProblem => ({
  stages: tables.map((table, s) => new TableStage(table, real?.[s]) as unknown as Stage),
  handovers,
  startCost,
})

/** What a choice of ports costs by some tables. */
const costOf = (ports: readonly number[], tables: readonly Table[], startCost: number): number =>
  tables.reduce((sum, table, s) => {
    const q = ports[s + 1]!
    const isNewStart = s + 1 < tables.length && q === ANYWHERE
    return sum + table.get(keyOf(ports[s]!, q))! + (isNewStart ? startCost : 0)
  }, 0)

/** Every choice of one port from each handover. */
const allChoices = (handovers: readonly (readonly number[])[]): number[][] =>
  handovers.reduce<number[][]>((some, ports) => some.flatMap((way) => ports.map((p) => [...way, p])), [[]])

const least = ({ handovers, startCost }: Drawn, tables: readonly Table[]): number =>
  Math.min(...allChoices(handovers).map((ports) => costOf(ports, tables, startCost)))

describe('handovers', () => {
  it('are those of all that cost least, with a start wherever the line is broken off', () => {
    fc.assert(
      fc.property(drawn, (row) => {
        const found = estimatePorts(problemOf(row))
        const best = least(row, row.tables)
        expect(found === undefined).toBe(!Number.isFinite(best))
        if (!found) return
        expect(found.cost).toBe(best)
        expect(costOf(found.ports, row.tables, row.startCost)).toBe(best)
        found.ports.forEach((port, s) => {
          expect(row.handovers[s]).toContain(port)
        })
      }),
      { seed: 1, numRuns: 300 },
    )
  })

  it('rest on settled costs alone in the end', () => {
    fc.assert(
      fc.property(drawn, (row) => {
        const found = choosePorts(problemOf(row, row.real))
        if (found) expect(costOf(found.ports, row.real, row.startCost)).toBe(found.cost)
      }),
      { seed: 2, numRuns: 200 },
    )
  })

  it('are the best of all where estimates are never too high', () => {
    fc.assert(
      fc.property(drawn, (row) => {
        const low = row.real.map((table, s) => {
          const entries = [...table].map(
            ([pair, cost]) => [pair, Math.min(cost, row.tables[s]!.get(pair)!)] as const,
          )
          return new Map(entries)
        })
        const found = choosePorts(problemOf({ ...row, tables: low }, row.real))
        const best = least(row, row.real)
        expect(found?.cost ?? Number.POSITIVE_INFINITY).toBe(best)
      }),
      { seed: 3, numRuns: 200 },
    )
  })

  it('are the first of equals', () => {
    const even: Table = new Map([1, 2].flatMap((p) => [1, 2].map((q) => [keyOf(p, q), 5] as const)))
    const stages = [even, even].map((table) => new TableStage(table) as unknown as Stage)
    expect(
      estimatePorts({
        stages,
        handovers: [
          [1, 2],
          [2, 1],
          [1, 2],
        ],
        startCost: 0,
      }),
    ).toEqual({
      ports: [1, 2, 1],
      cost: 10,
    })
  })
})
