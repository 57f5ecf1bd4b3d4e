import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import echoSquare from '../../motifs/corners/echo-square.ts'
import fourPetal from '../../motifs/corners/four-petal.ts'
import spiral from '../../motifs/corners/spiral.ts'
import { distance, type Point, scale } from '../../src/geometry/point.ts'
import { endOf, flattenStroke, strokeLength } from '../../src/geometry/stroke.ts'
import type { Params } from '../../src/motif/contract.ts'
import type { CornerMotif, Patch } from '../../src/motif/corner-contract.ts'
import { alongOutline, placeAt, wayRound } from '../../src/motif/patch-outline.ts'
import { crossings, kinks, retraced } from '../support/free-laws.ts'

type AnyCorner = CornerMotif<Params>
const any = <P extends Params>(motif: CornerMotif<P>) => motif as unknown as AnyCorner

const MOTIFS = [
  { motif: any(spiral), simple: true },
  { motif: any(fourPetal), simple: false },
  { motif: any(echoSquare), simple: true },
]

/** Ways round at which ports are asked for: corners, and the middles and quarters of sides. */
const ways = fc.constantFrom(0, 0.25, 0.5, 1, 1.5, 1.75, 2, 2.5, 3, 3.5)
const drafts = fc.record({
  width: fc.double({ min: 40, max: 200, noNaN: true }),
  ratio: fc.double({ min: 0.75, max: 1.3, noNaN: true }),
  entry: ways,
  exit: ways,
  t: fc.double({ min: 0, max: 1, noNaN: true }),
})

function patchOf(width: number, height: number, ports: readonly [number, number]): Patch {
  const at = (way: number): Point => {
    const [u, v] = placeAt(way)
    return [u * width, v * height]
  }
  return { width, height, entry: at(ports[0]), exit: at(ports[1]) }
}

describe.each(MOTIFS)('the corner motif $motif.title', ({ motif, simple }) => {
  const values = (t: number) =>
    Object.fromEntries(
      Object.entries(motif.params).map(([name, p]) => {
        if (p.kind === 'choice') return [name, p.default]
        const value = p.min + (p.max - p.min) * t
        return [name, p.kind === 'count' ? Math.round(value) : value]
      }),
    )
  const holds = (runs: number, law: (patch: Patch, t: number) => void) =>
    fc.assert(
      fc.property(drafts, ({ width, ratio, entry, exit, t }) => {
        law(patchOf(width, width * ratio, [entry, exit]), t)
      }),
      { seed: 1, numRuns: runs },
    )
  const draw = (patch: Patch, t: number) => motif.draw(patch, values(t) as never)

  it('runs from its entry to its exit and stays inside the patch', () => {
    holds(60, (patch, t) => {
      const stroke = draw(patch, t)
      expect(distance(stroke.start, patch.entry)).toBeLessThan(1e-6)
      expect(distance(endOf(stroke), patch.exit)).toBeLessThan(1e-6)
      for (const [u, v] of flattenStroke(stroke, 0.05))
        expect(Math.max(-u, -v, u - patch.width, v - patch.height)).toBeLessThan(0.1)
    })
  })

  it('draws a stroke twice as large in a patch twice as large', () => {
    holds(15, (patch, t) => {
      const [small, large] = [
        draw(patch, t),
        draw(
          {
            width: 2 * patch.width,
            height: 2 * patch.height,
            entry: scale(patch.entry, 2),
            exit: scale(patch.exit, 2),
          },
          t,
        ),
      ]
      expect(strokeLength(large) / strokeLength(small)).toBeCloseTo(2, 6)
    })
  })

  it('retraces no more than 1 percent of itself', () => {
    holds(10, (patch, t) => {
      const stroke = draw(patch, t)
      expect(retraced(flattenStroke(stroke, 0.05)) / strokeLength(stroke)).toBeLessThanOrEqual(0.01)
    })
  })

  if (motif.joints === 'smooth')
    it('is smooth', () => {
      holds(40, (patch, t) => expect(kinks(draw(patch, t))).toEqual([]))
    })

  if (simple)
    it('never crosses itself', () => {
      holds(40, (patch, t) => expect(crossings(flattenStroke(draw(patch, t), 0.05).slice(1, -1))).toEqual([]))
    })
})

describe('places on the outline of a patch', () => {
  it('are found again from their way round', () => {
    for (let way = 0; way < 4; way += 0.125) expect(wayRound(placeAt(way))).toBeCloseTo(way)
  })

  it('are joined the shorter way, by the corners between', () => {
    expect(alongOutline(0.5, 1.5)).toEqual([
      [0.5, 0],
      [1, 0],
      [1, 0.5],
    ])
    expect(alongOutline(0.5, 3.5)).toEqual([
      [0.5, 0],
      [0, 0],
      [0, 0.5],
    ])
  })
})
