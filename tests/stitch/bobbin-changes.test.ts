import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PlanError } from '../../src/error.ts'
import { strokeThrough } from '../../src/geometry/stroke.ts'
import {
  type BobbinChange,
  type BobbinSettings,
  placeBobbinChanges,
  type SewnStart,
  seamStretchesOf,
} from '../../src/stitch/bobbin-changes.ts'
import { layStitches, stitchLength } from '../../src/stitch/lay-stitches.ts'
import type { Line, LinePart } from '../../src/stitch/line.ts'
import { STITCH_DEFAULTS } from '../../src/stitch/settings.ts'
import { someLine } from './random-line.ts'

const settings: BobbinSettings = {
  thicknessMm: 1.5,
  wasteShare: 0.1,
  tailMm: 0,
  capacityM: 1,
  moveBackShare: 0.1,
}

const straight = (length: number): Line => ({
  thread: 'cream',
  parts: [
    {
      kind: 'fill',
      area: 0,
      stroke: strokeThrough([
        [0, 0],
        [length, 0],
      ]),
    },
  ],
})
const sewn = (line: Line, seams = seamStretchesOf(line)): SewnStart => ({
  stitches: layStitches(line, { ...STITCH_DEFAULTS, tieOff: { count: 0, lengthMm: 0.4 } }),
  seams,
})

/** Thread drawn from each bobbin in turn, m, added up afresh from the stitches; empty changes give one bobbin. */
function drawnFromEach(starts: readonly SewnStart[], changes: readonly BobbinChange[], s: BobbinSettings) {
  const bobbins = [0]
  starts.forEach(({ stitches }, start) => {
    const due = changes.filter((change) => change.start === start)
    if (due[0]?.reason === 'start') bobbins.push(0)
    bobbins[bobbins.length - 1]! += (2 * s.tailMm) / 1000
    for (let i = 0; i < stitches.count; i++) {
      if (due.some(({ needle, reason }) => needle === i && reason !== 'start')) bobbins.push(0)
      bobbins[bobbins.length - 1]! +=
        ((stitchLength(stitches, i) + s.thicknessMm) * (1 + s.wasteShare)) / 1000
    }
  })
  return bobbins
}

describe('bobbin changes', () => {
  it('never ask more of a bobbin than it holds, and waste no more than a tenth of it', () => {
    const seams = fc.array(fc.double({ min: 0, max: 600, noNaN: true }), { maxLength: 12 })
    fc.assert(
      fc.property(fc.array(fc.tuple(someLine, seams), { minLength: 1, maxLength: 4 }), (drawn) => {
        const s = { ...settings, capacityM: 0.3, tailMm: 20 }
        const starts = drawn.map(([line, at]) =>
          sewn(
            line,
            at.sort((a, b) => a - b).map((from) => ({ from, to: from })),
          ),
        )
        const changes = placeBobbinChanges(starts, s)
        const bobbins = drawnFromEach(starts, changes, s)
        expect(bobbins).toHaveLength(changes.length + 1)
        bobbins.forEach((used, i) => {
          expect(used).toBeLessThanOrEqual(0.3 + 1e-9)
          const change = changes[i]
          if (!change) return
          expect(change.usedM).toBeCloseTo(used, 9)
          if (change.reason !== 'start') expect(used).toBeGreaterThanOrEqual(0.9 * 0.3 - 0.005)
        })
      }),
      { seed: 7, numRuns: 100 },
    )
  })

  it('are shown to be too few by the same sum when one is left out', () => {
    const starts = [sewn(straight(3000))]
    const changes = placeBobbinChanges(starts, settings)
    expect(changes.length).toBeGreaterThan(3)
    const most = Math.max(...drawnFromEach(starts, changes.slice(0, -1), settings))
    expect(most).toBeGreaterThan(settings.capacityM)
  })

  it('fall where the thread runs out if no seam is near', () => {
    // Each 2.5 mm stitch takes (2.5 + 1.5) x 1.1 = 4.4 mm, so 1 m holds 227 of them.
    const changes = placeBobbinChanges([sewn(straight(2000))], settings)
    expect(changes.map(({ needle, reason }) => [needle, reason])).toEqual([
      [227, 'open'],
      [454, 'open'],
      [681, 'open'],
    ])
    expect(changes[0]!.at).toEqual([227 * 2.5, 0])
    expect(changes[0]!.alongMm).toBeCloseTo(567.5, 9)
    expect(changes[0]!.usedM).toBeCloseTo(0.9988, 9)
  })

  it('move back to the last crossing within the last tenth of the bobbin', () => {
    const crossings = [300, 520, 540, 560, 600].map((from) => ({ from, to: from }))
    const [first] = placeBobbinChanges([sewn(straight(1000), crossings)], settings)
    expect(first).toMatchObject({ needle: 224, reason: 'seam', alongMm: 560 })
    const [early] = placeBobbinChanges([sewn(straight(1000), crossings.slice(0, 1))], settings)
    expect(early).toMatchObject({ needle: 227, reason: 'open' })
  })

  it('stay where they are while the line travels in a seam', () => {
    const part = (kind: LinePart['kind'], x0: number, x1: number): LinePart => ({
      kind,
      area: 0,
      stroke: strokeThrough([
        [x0, 0],
        [x1, 0],
      ]),
    })
    const line: Line = {
      thread: 'cream',
      parts: [part('fill', 0, 550), part('travel', 550, 580), part('fill', 580, 900)],
    }
    expect(seamStretchesOf(line)).toEqual([{ from: 550, to: 580 }])
    expect(placeBobbinChanges([sewn(line)], settings)[0]).toMatchObject({ needle: 227, reason: 'seam' })
  })

  it('count crossings, travel and ditch stitching as seams, and nothing else', () => {
    const kinds = ['fill', 'crossing', 'travel', 'fill', 'ditch', 'tie-off'] as const
    const parts = kinds.map((kind, i): LinePart => {
      const from: [number, number] = [10 * i, 0]
      return {
        kind,
        area: 0,
        stroke: strokeThrough(kind === 'crossing' ? [from, from] : [from, [10 * i + 10, 0]]),
      }
    })
    const crossing = seamStretchesOf({ thread: 'cream', parts })
    expect(crossing.map(({ from, to }) => [from, to])).toEqual([
      [10, 10],
      [10, 20],
      [30, 40],
    ])
  })

  it('fall on the needle point nearest to a crossing on either side of it', () => {
    const { stitches } = sewn(straight(800))
    const plain = placeBobbinChanges([{ stitches, seams: [] }], settings)[0]!
    const step = stitches.along[1]! - stitches.along[0]!
    for (const off of [-0.4, 0, 0.4]) {
      const at = stitches.along[plain.needle - 5]! + off * step
      const [change] = placeBobbinChanges([{ stitches, seams: [{ from: at, to: at }] }], settings)
      expect(change).toMatchObject({ needle: plain.needle - 5, reason: 'seam' })
    }
  })

  it('fall inside a seam from its first needle point to its last', () => {
    const { stitches } = sewn(straight(800))
    const { needle } = placeBobbinChanges([{ stitches, seams: [] }], settings)[0]!
    const at = (count: number) => stitches.along[needle - count]!
    const within = (from: number, to: number) =>
      placeBobbinChanges([{ stitches, seams: [{ from: at(from), to: at(to) }] }], settings)[0]!.needle
    expect(within(9, 3)).toBe(needle - 3)
    expect(within(3, 0)).toBe(needle)
  })

  it('come before a thread start whose tails the bobbin cannot hold', () => {
    const changes = placeBobbinChanges([sewn(straight(500)), sewn(straight(500))], {
      ...settings,
      tailMm: 60,
    })
    expect(changes[0]).toMatchObject({ start: 1, needle: 0, reason: 'start' })
  })

  it('are refused for a bobbin that cannot hold one stitch', () => {
    const starts = [sewn(straight(100))]
    for (const capacityM of [0, 0.002, Number.NaN, -5]) {
      expect(() => placeBobbinChanges(starts, { ...settings, capacityM })).toThrow(PlanError)
    }
  })

  it('are refused by the place and the least that a bobbin must hold: its tails and one stitch', () => {
    const refused = (more: Partial<BobbinSettings>) => {
      try {
        placeBobbinChanges([sewn(straight(100))], { ...settings, ...more })
      } catch (error) {
        if (error instanceof PlanError)
          return error.problems.map(({ code, at, message }) => [code, at, message])
      }
      return []
    }
    // (2.5 + 1.5) x 1.1 = 4.4 mm for the stitch and twice 50 mm for the tails.
    expect(refused({ capacityM: 0.1, tailMm: 50 })).toEqual([
      ['thread/bobbin', 'thread.bobbin', '0.1 m is not allowed; it may be 0.1044 to 100000 m'],
    ])
    expect(refused({ capacityM: 0.105, tailMm: 50 })).toEqual([])
    expect(refused({ moveBackShare: 0.95 })).toEqual([
      ['thread/bobbin', 'thread.moveBack', '0.95 (a share) is not allowed; it may be 0 to 0.9 (a share)'],
    ])
  })
})
