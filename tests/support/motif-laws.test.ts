import { describe, expect, it } from 'vitest'
import { line } from '../../src/geometry/segment.ts'
import { reverseStroke, StrokeBuilder, transformStroke } from '../../src/geometry/stroke.ts'
import {
  type Drawn,
  defineMotif,
  type Edge,
  type Motif,
  type Strip,
  type Touch,
} from '../../src/motif/contract.ts'
import { assertLaw, assertParams, defaultCases, LAWS, leavesEdges, turnsWell } from './motif-laws.ts'

/** A plain smooth wave that obeys every law. */
const sound = defineMotif({
  title: 'Test wave',
  source: 'made up for these tests',
  params: {
    repeat: { kind: 'length', label: 'Repeat', default: { widths: 2 }, min: 10, max: 100 },
    lean: { kind: 'ratio', label: 'Lean', default: 0.4, min: 0.2, max: 0.5 },
  },
  suits: { min: 10, max: 50 },
  ends: 'alternate',
  bend: 'corner',
  joints: 'smooth',
  repeat: (_width, { repeat }) => repeat,
  draw: (strip, { lean }) => wave(strip, lean),
})

function wave(strip: Strip, lean: number): Drawn {
  const step = strip.length / (2 * strip.repeats)
  const heightOf = (edge: Edge) => (edge === 'inner' ? 0 : strip.width)
  const line = new StrokeBuilder([0, heightOf(strip.from)])
  const touches: Touch[] = [{ edge: strip.from, after: 0 }]
  let edge = strip.from
  for (let i = 1; i <= 2 * strip.repeats; i++) {
    const [u, v] = line.at
    edge = edge === 'inner' ? 'outer' : 'inner'
    const to = i * step
    line.cubicTo([u + step * lean, v], [to - step * lean, heightOf(edge)], [to, heightOf(edge)])
    touches.push({ edge, after: line.count })
  }
  return { stroke: line.build(), touches }
}

/** The sound motif, with what it draws spoilt. */
const spoilt = (spoil: (drawn: Drawn, strip: Strip) => Drawn): Motif => ({
  ...sound,
  draw: (strip, values) => spoil(sound.draw(strip, values as never), strip),
})

const law = (word: string) => {
  const found = Object.entries(LAWS).find(([name]) => name.includes(word))
  if (!found) throw new Error(`no law about ${word}`)
  return found[1]
}

const moved = ({ stroke, touches }: Drawn, by: { x?: number; y?: number; scale?: number }): Drawn => {
  const map = { a: 1, b: 0, c: 0, d: by.scale ?? 1, e: by.x ?? 0, f: by.y ?? 0 }
  return { stroke: transformStroke(stroke, map), touches }
}

/** The first segment's control points are changed. */
const firstBent = ({ stroke, touches }: Drawn, x: number, y: number): Drawn => {
  const [first, ...rest] = stroke.segments
  if (first?.kind !== 'cubic') throw new Error('expected a cubic')
  const bent = { ...first, c1: [first.c1[0] + x, first.c1[1] + y] as const }
  return { stroke: { ...stroke, segments: [bent, ...rest] }, touches }
}

/** The sound motif, which draws to a mitre by leaning over evenly, and so ends along the edge at the inner corner. */
const leaning: Motif = {
  ...sound,
  drawToMitre: (strip, values) => {
    const { stroke, touches } = sound.draw(strip, values as never)
    return { stroke: transformStroke(stroke, { a: 1, b: 0, c: strip.skew, d: 1, e: 0, f: 0 }), touches }
  },
}

let calls = 0

const broken: readonly (readonly [name: string, law: string, motif: Motif])[] = [
  ['starts beside its start', 'starts', spoilt((d) => moved(d, { x: 0.01 }))],
  [
    'ends on the wrong edge',
    'starts',
    { ...sound, draw: (strip, v) => sound.draw({ ...strip, repeats: strip.repeats + 0.5 }, v as never) },
  ],
  ['leaves the strip', 'starts', spoilt((d, { from }) => firstBent(d, 0, from === 'inner' ? -40 : 40))],
  ['forgets a touch', 'starts', spoilt((d) => ({ ...d, touches: d.touches.slice(1) }))],
  [
    'claims a touch on the other edge',
    'starts',
    spoilt((d) => ({
      ...d,
      touches: d.touches.map((t) => ({ ...t, edge: t.edge === 'inner' ? 'outer' : 'inner' })),
    })),
  ],
  [
    'has a corner where it says smooth',
    'starts',
    spoilt((d, { from }) => firstBent(d, 0, from === 'inner' ? 0.5 : -0.5)),
  ],
  ['differs from call to call', 'same input', spoilt((d) => firstBent(d, (calls++ % 10) / 1000, 0))],
  ['draws a fixed size', 'scales', spoilt((d) => firstBent(d, 0.1, 0))],
  ['has an absolute repeat', 'scales', { ...sound, repeat: () => 20 }],
  ['draws the first repeat otherwise', 'n times one', spoilt((d) => firstBent(d, 0.1, 0))],
  ['runs along the edge into an inner corner', 'corner', leaning],
  [
    'ends at the wrong corner of a mitre',
    'corner',
    {
      ...sound,
      drawToMitre: (strip, values) => sound.draw({ ...strip, length: strip.length + 1 }, values as never),
    },
  ],
  [
    'crosses the mitre',
    'corner',
    {
      ...leaning,
      joints: 'cusped',
      drawToMitre: (strip, values) => {
        const { stroke, touches } = sound.draw(strip, values as never)
        const corner = stroke.segments.at(-1)!.to
        const beyond = [corner[0] + 2 * strip.width, corner[1]] as const
        return { stroke: { ...stroke, segments: [...stroke.segments, line(beyond), line(corner)] }, touches }
      },
    },
  ],
  [
    'goes back over itself',
    'retraces',
    spoilt((d) => {
      const back = reverseStroke(d.stroke)
      const segments = [...d.stroke.segments, ...back.segments, ...d.stroke.segments]
      return { ...d, stroke: { start: d.stroke.start, segments } }
    }),
  ],
]

describe('the laws over motifs', () => {
  it.each(Object.entries(LAWS))('accept a sound motif: it %s', (_name, sentence) => {
    assertLaw(sound, sentence, 30)
  })

  it.each(broken)('refuse a motif that %s', (_name, word, motif) => {
    expect(() => assertLaw(motif, law(word), 30)).toThrow()
  })

  it('refuse a stroke whose SVG length differs: an arc that is not round its centre', () => {
    const motif = spoilt((d) => {
      const [first, ...rest] = d.stroke.segments
      const centre = [0, 0] as const
      return {
        ...d,
        stroke: { ...d.stroke, segments: [{ kind: 'arc', to: first!.to, centre, sweep: 3 }, ...rest] },
      }
    })
    expect(() => assertLaw(motif, law('SVG reader'), 30)).toThrow()
  })

  it('refuse a motif that runs along an edge', () => {
    const example = defaultCases(sound, 2)[0]!
    expect(() => leavesEdges(sound, example)).not.toThrow()
    const flat = spoilt((d) => ({
      ...d,
      stroke: { ...d.stroke, segments: [line([5, 0]), ...d.stroke.segments] },
    }))
    expect(() => leavesEdges(flat, example)).toThrow(/runs along/)
  })

  it('refuse a motif that runs along the mitre', () => {
    const along: Motif = {
      ...leaning,
      drawToMitre: (strip, values) => {
        const { stroke, touches } = sound.draw(strip, values as never)
        const across = strip.to === 'inner' ? strip.width : -strip.width
        const [u, v] = stroke.segments.at(-1)!.to
        return {
          stroke: { ...stroke, segments: [...stroke.segments, line([u + across, v + across])] },
          touches,
        }
      },
    }
    expect(() => turnsWell(along, defaultCases(sound, 2)[1]!)).toThrow(/lies on its own/)
  })

  it('refuse a parameter whose default is beyond its limits', () => {
    expect(() => assertParams(sound)).not.toThrow()
    const repeat = { ...sound.params.repeat, max: 15 }
    expect(() => assertParams({ ...sound, params: { repeat } } as Motif)).toThrow(
      /default 20 is not in 10 .. 15/,
    )
  })
})
