import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { machineFiles } from '../../src/export/files.ts'
import { orderSteps } from '../../src/export/order/order-steps.ts'
import { strokeLength } from '../../src/geometry/stroke.ts'
import { orderThreads } from '../../src/pieces/thread-order.ts'
import { type PlannedQuilt, planFromText } from '../../src/pipeline.ts'
import { assertNoGap } from './piece-laws.ts'

const CATALOG = catalogOf(LIBRARY)
const [NAVY, RED, CREAM] = ['#1d3f57', '#9c2f2f', '#fbf7ea'] as const

interface Wanted {
  readonly threads?: readonly (string | undefined)[]
  readonly more?: Record<string, unknown>
  readonly avoid?: unknown
}

function planned({ threads = [], more = {} }: Wanted): PlannedQuilt {
  const names = ['sand', 'swell', 'rope', 'foam']
  const fillers = ['bracket', 's-echo', 'loop-line', 'scallop']
  const bands = names.map((name, i) => ({
    name,
    width: [1, 2, 1.5, 1.5][i],
    filler: fillers[i],
    ...(threads[i] && { thread: threads[i] }),
  }))
  const file = {
    centre: { width: 10, height: 13 },
    bands,
    thread: { colour: CREAM, bobbin: '30 m', spool: '500 m' },
    machine: { reach: [12, 12] },
    ...more,
  }
  return planFromText(JSON.stringify(file), CATALOG)
}

const plain = planned({})
const flags = planned({ threads: [undefined, NAVY, RED, NAVY] })
const threadsOf = ({ drawing }: PlannedQuilt) => drawing.lines.map(({ thread }) => thread)

describe('bands in threads of their own', () => {
  it('are stitched in one line a thread, each thread put in once', () => {
    expect(threadsOf(plain)).toEqual([CREAM])
    expect(threadsOf(flags)).toEqual([CREAM, NAVY, RED])
    expect(flags.report.line).toMatchObject({ threadStarts: 3, threadStartsBound: 3 })
    expect(flags.report.thread.changesBound).toBe(2)
    expect(flags.report.warnings.map(({ code }) => code)).not.toContain('route/second-start')
    for (const line of flags.drawing.lines) assertNoGap(line)
  })

  it('have every stitch of theirs in their thread, and all that is stitched without threads', () => {
    const own = [CREAM, NAVY, RED, NAVY]
    for (const { thread, parts } of flags.drawing.lines)
      for (const { kind, band } of parts) if (kind === 'fill') expect(thread).toBe(own[band!])
    const numbers = (quilt: PlannedQuilt) => quilt.report.bands.map(({ stitchedMm }) => stitchedMm > 0)
    expect(numbers(flags)).toEqual(numbers(plain))
  })

  it('take what the report says: line, thread, bobbins and spools of each colour', () => {
    const { spools } = flags.report.thread
    expect(spools.map(({ thread, bands }) => [thread, bands])).toEqual([
      [CREAM, ['sand']],
      [NAVY, ['swell', 'foam']],
      [RED, ['rope']],
    ])
    for (const { thread, lineMm, needleM, bobbins, starts } of spools) {
      const lines = flags.drawing.lines.filter((line) => line.thread === thread)
      const length = lines
        .flatMap(({ parts }) => parts)
        .reduce((sum, { stroke }) => sum + strokeLength(stroke), 0)
      expect(lineMm).toBeCloseTo(length, 2)
      expect(starts).toBe(1)
      expect(bobbins).toBeGreaterThanOrEqual(Math.ceil(needleM / 30))
      expect(bobbins).toBeLessThanOrEqual(Math.ceil(needleM / 27))
    }
    expect(flags.report.thread.bobbins).toBe(spools.reduce((sum, { bobbins }) => sum + bobbins, 0))
    expect(flags.report.thread.topM).toBeCloseTo(
      spools.reduce((sum, { needleM }) => sum + needleM, 0),
      2,
    )
    expect(flags.report.line.lengthMm).toBeCloseTo(
      spools.reduce((sum, { lineMm }) => sum + lineMm, 0),
      1,
    )
  })

  it('cost the time of each change of thread', () => {
    const slow = planned({
      threads: [undefined, NAVY, RED, NAVY],
      more: { machine: { reach: [12, 12], threadSeconds: 600 } },
    })
    const usual = planned({
      threads: [undefined, NAVY, RED, NAVY],
      more: { machine: { reach: [12, 12], threadSeconds: 0 } },
    })
    expect(slow.report.time.minutes - usual.report.time.minutes).toBeCloseTo(2 * 10, 2)
    expect(slow.report.time.parts).toContainEqual({
      what: '2 changes of thread',
      minutes: 20,
      rate: '600 s each',
    })
  })

  it('follow each other from the middle outward, or from the outside in', () => {
    const order = (way: string) =>
      threadsOf(planned({ threads: [RED, NAVY], more: { route: { order: way } } }))
    expect(order('middle-out')).toEqual([RED, NAVY, CREAM])
    expect(order('outside-in')).toEqual([CREAM, NAVY, RED])
  })

  it('begin with the thread of the band in which the line is to start, and end with that of its end', () => {
    const route = { start: { band: 'rope', side: 'top' }, end: { band: 'sand', side: 'left' } }
    const quilt = planned({ threads: [undefined, NAVY, RED, NAVY], more: { route } })
    expect(threadsOf(quilt)).toEqual([RED, NAVY, CREAM])
    const [x] = quilt.drawing.lines[0]!.parts[0]!.stroke.start
    expect(Math.abs(x - quilt.quilt.widthMm / 2)).toBeLessThan(20)
  })

  it('are one line with the others if their thread is the same', () => {
    expect(threadsOf(planned({ threads: [CREAM, CREAM, CREAM, CREAM] }))).toEqual([CREAM])
    expect(threadsOf(planned({ threads: [NAVY, NAVY, NAVY, NAVY] }))).toEqual([NAVY])
  })

  it('have their seams stitched in the ditch in their thread, once', () => {
    const quilt = planned({ threads: [undefined, NAVY], more: { route: { ditch: 'rings' } } })
    const ditch = quilt.drawing.lines.map(({ thread, parts }) => ({
      thread,
      length: parts
        .filter(({ kind }) => kind === 'ditch')
        .reduce((sum, { stroke }) => sum + strokeLength(stroke), 0),
    }))
    const round = (ring: number) =>
      quilt.quilt.rings[ring]!.reduce((sum, p, i, all) => {
        const q = all[(i + 1) % all.length]!
        return sum + Math.hypot(q[0] - p[0], q[1] - p[1])
      }, 0)
    expect(ditch.find(({ thread }) => thread === NAVY)!.length).toBeCloseTo(round(1), 3)
    expect(ditch.find(({ thread }) => thread === CREAM)!.length).toBeCloseTo(
      round(0) + round(2) + round(3),
      3,
    )
  })

  it('stitch the edge of a region once, in the thread of the band it is nearest to', () => {
    const avoid = [{ name: 'sun', circle: { at: [4, 4], radius: 1.5 } }]
    const quilt = planned({ threads: [undefined, NAVY, RED, NAVY], more: { avoid } })
    expect(quilt.report.regions[0]).toMatchObject({ outlined: true, outlinedMm: 239.389 })
  })
})

describe('what says when to change the thread', () => {
  it('is the order of work, at the first step of each thread', () => {
    const words = orderSteps(flags.drawing).map((step) => step.words)
    expect(words[0]).toMatch(/^Put in thread #fbf7ea \(sand\)\. Start thread 1 of 3/)
    const changes = words.filter((text) => text.startsWith('Change the thread'))
    expect(changes.map((text) => text.slice(0, 62))).toEqual([
      expect.stringContaining('put in #1d3f57 (swell, foam) and its bobbin'),
      expect.stringContaining('put in #9c2f2f (rope) and its bobbin'),
    ])
    expect(orderSteps(plain.drawing)[0]!.words).toMatch(/^Start here/)
  })

  it.each(['gcode', 'dxf', 'csv', 'svg'])('is every machine path in plain words: %s', async (id) => {
    const [file] = await machineFiles(id, flags.drawing)
    const text = String(file!.content)
    expect(text).toMatch(/Thread start 2 of 3: thread #1d3f57 .?swell, foam/)
    const [one] = await machineFiles(id, plain.drawing)
    expect(String(one!.content)).not.toMatch(/Thread start 1 of 1: thread/)
  })

  it('is a program stop in G-code, with the needle up', async () => {
    const [file] = await machineFiles('gcode', flags.drawing)
    const lines = String(file!.content).split('\n')
    const stops = lines.flatMap((line, i) => (line === 'M0' ? [i] : []))
    expect(stops).toHaveLength(2)
    for (const i of stops) {
      const before = lines.slice(0, i).filter((line) => /^M[35]$/.test(line))
      expect(before.at(-1)).toBe('M5')
      expect(lines[i - 1]).toMatch(/put in thread #/)
    }
  })
})

describe('on a frame', () => {
  const frame = { machine: { kind: 'frame', reach: [60, 10], throat: 10 } }
  const quilt = planned({ threads: [undefined, NAVY, RED, NAVY], more: frame })

  it('each pass is stitched with all its threads, and the one that ends it begins the next', () => {
    const { passes } = quilt.report.frame!
    expect(passes).toBeGreaterThan(1)
    const passOf = quilt.drawing.passes!.flatMap((areas, pass) => areas.map((area) => [area, pass] as const))
    const of = new Map(passOf)
    const order = quilt.drawing.lines.flatMap(({ parts }) => parts.map(({ area }) => of.get(area)!))
    expect(order).toEqual([...order].sort((a, b) => a - b))
    const { changes, changesBound } = quilt.report.thread
    expect(changes).toHaveLength(changesBound)
    expect(changesBound).toBeLessThanOrEqual(2 * passes)
    expect(quilt.report.line.threadStarts).toBeGreaterThanOrEqual(quilt.report.line.threadStartsBound)
  })

  it('every band is stitched whole, in its thread', () => {
    const own = [CREAM, NAVY, RED, NAVY]
    const one = planned({ more: frame })
    for (const { thread, parts } of quilt.drawing.lines)
      for (const { kind, band } of parts) if (kind === 'fill') expect(thread).toBe(own[band!])
    const share = quilt.report.bands.map(({ stitchedMm }, i) => stitchedMm / one.report.bands[i]!.stitchedMm)
    for (const part of share) expect(Math.abs(part - 1)).toBeLessThan(0.1)
  })
})

describe('the order of threads over passes', () => {
  const passes = fc.array(fc.subarray(['a', 'b', 'c'], { minLength: 1 }), { minLength: 1, maxLength: 5 })

  /** The fewest times that a thread is put in, by trying all orders. */
  function fewest(list: readonly (readonly string[])[], before = ''): number {
    const [first, ...rest] = list
    if (!first) return 0
    const orders = permutations(first)
    return Math.min(
      ...orders.map((order) => order.length - (order[0] === before ? 1 : 0) + fewest(rest, order.at(-1))),
    )
  }

  const permutations = (items: readonly string[]): string[][] =>
    items.length < 2
      ? [[...items]]
      : items.flatMap((item) =>
          permutations(items.filter((other) => other !== item)).map((rest) => [item, ...rest]),
        )

  it('puts threads in as seldom as any order does, and leaves none out', () => {
    fc.assert(
      fc.property(passes, (list) => {
        const turns = orderThreads(list)
        expect(turns).toHaveLength(fewest(list))
        list.forEach((threads, pass) => {
          const used = turns.filter((turn) => turn.passes.includes(pass)).map(({ thread }) => thread)
          expect([...used].sort()).toEqual([...threads].sort())
        })
        expect(turns.map(({ passes: of }) => of[0]!)).toEqual(
          turns.map(({ passes: of }) => of[0]!).sort((a, b) => a - b),
        )
      }),
      { seed: 3, numRuns: 200 },
    )
  })
})
