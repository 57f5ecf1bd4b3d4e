import fc from 'fast-check'
import { svgPathProperties } from 'svg-path-properties'
import { scaling } from '../../src/geometry/affine.ts'
import { cross, distance, dot, type Point } from '../../src/geometry/point.ts'
import { directionAt, type Segment } from '../../src/geometry/segment.ts'
import {
  eachSegment,
  endOf,
  flattenStroke,
  joinStrokes,
  reverseStroke,
  type Stroke,
  strokeLength,
  transformStroke,
} from '../../src/geometry/stroke.ts'
import type {
  Drawn,
  Edge,
  MitreStrip,
  Motif,
  Param,
  Params,
  Strip,
  ValuesOf,
} from '../../src/motif/contract.ts'
import { pathDataOf } from './path-data.ts'
import { evenPoints, retraceLength } from './retrace.ts'

/** What every motif must obey, as functions that throw an Error saying what is wrong. */

export type Values = ValuesOf<Params>

/** A strip and values that a motif is asked to draw. */
export interface Case {
  readonly strip: Strip
  readonly values: Values
}

/** A law: throws if the motif breaks it in this case. */
export type Law = (motif: Motif, example: Case) => void

const opposite = (edge: Edge): Edge => (edge === 'inner' ? 'outer' : 'inner')
const heightOf = (edge: Edge, width: number): number => (edge === 'inner' ? 0 : width)

function demand(condition: boolean, message: string): asserts condition {
  if (!condition) throw new Error(message)
}

// ---------------------------------------------------------------------------------------------- cases

const paramArbitrary = (param: Param): fc.Arbitrary<number | string> => {
  if (param.kind === 'choice') return fc.constantFrom(...param.of)
  if (param.kind === 'count') return fc.integer({ min: param.min, max: param.max })
  return fc.double({ min: param.min, max: param.max, noNaN: true })
}

const defaultOf = (param: Param, width: number): number | string => {
  if (param.kind !== 'length') return param.default
  if (typeof param.default === 'number') return param.default
  return Math.min(param.max, Math.max(param.min, param.default.widths * width))
}

/** The motif's defaults for a strip of `width` mm. */
export const defaultValues = (motif: Motif, width: number): Values =>
  Object.fromEntries(Object.entries(motif.params).map(([key, p]) => [key, defaultOf(p, width)])) as Values

/** Values from the whole range of every parameter; one case in three keeps the defaults. */
const valuesArbitrary = (motif: Motif, width: number): fc.Arbitrary<Values> =>
  fc.oneof(
    { weight: 1, arbitrary: fc.constant(defaultValues(motif, width)) },
    {
      weight: 2,
      arbitrary: fc.record(
        Object.fromEntries(Object.entries(motif.params).map(([key, p]) => [key, paramArbitrary(p)])),
      ) as fc.Arbitrary<Values>,
    },
  )

/** Strips of widths that suit the motif, 1/2 to 8 repeats long, stretched by up to 12 percent. */
export const caseArbitrary = (motif: Motif): fc.Arbitrary<Case> =>
  fc
    .double({ min: motif.suits.min, max: motif.suits.max, noNaN: true })
    .chain((width) =>
      fc.record({
        width: fc.constant(width),
        values: valuesArbitrary(motif, width),
        halves: fc.integer({ min: 1, max: 16 }),
        stretch: fc.double({ min: 0.88, max: 1.12, noNaN: true }),
        from: fc.constantFrom<Edge>('inner', 'outer'),
        freeTo: fc.constantFrom<Edge>('inner', 'outer'),
        mirrorStart: fc.boolean(),
        mirrorEnd: fc.boolean(),
        seed: fc.integer({ min: 0, max: 1000 }),
      }),
    )
    .map(({ width, values, halves, stretch, from, freeTo, mirrorStart, mirrorEnd, seed }) => {
      const isFree = motif.ends === 'free'
      const repeats = isFree ? Math.ceil(halves / 2) : halves / 2
      const to = isFree ? freeTo : halves % 2 === 0 ? from : opposite(from)
      const length = repeats * motif.repeat(width, values) * stretch
      return { strip: { length, width, from, to, repeats, mirrorStart, mirrorEnd, seed }, values }
    })

/** Strips with default values, at `count` widths from the least to the greatest that suits. */
export function defaultCases(motif: Motif, count: number): Case[] {
  const { min, max } = motif.suits
  return Array.from({ length: count }, (_, i) => {
    const width = min + ((max - min) * i) / Math.max(1, count - 1)
    const values = defaultValues(motif, width)
    const length = 4 * motif.repeat(width, values)
    const ends = { from: 'inner', to: 'inner', mirrorStart: false, mirrorEnd: false } as const
    return { strip: { length, width, repeats: 4, seed: 1, ...ends }, values }
  })
}

// ---------------------------------------------------------------------------------------------- one drawing

/** Checks what can be seen on a single drawing: ends, containment, touches and joints. */
export function assertValidDrawn(motif: Motif, strip: Strip, drawn: Drawn): void {
  assertEnds(strip, drawn)
  assertInside(strip, drawn.stroke)
  assertTouches(motif, strip, drawn)
  if (motif.joints === 'smooth') assertSmooth(drawn.stroke)
}

function assertEnds(strip: Strip, { stroke }: Drawn): void {
  const start: Point = [0, heightOf(strip.from, strip.width)]
  const end: Point = [strip.length, heightOf(strip.to, strip.width)]
  demand(distance(stroke.start, start) < 1e-6, `starts at ${stroke.start}, not at ${start}`)
  demand(distance(endOf(stroke), end) < 1e-6, `ends at ${endOf(stroke)}, not at ${end}`)
}

/** How far, in widths, a motif may sway past an end where the band runs on: the next stretch sways with it. */
const SWAY = 0.25

function assertInside(strip: Strip, stroke: Stroke): void {
  const slack = 1e-6 * (1 + strip.width)
  const past = (isMirrored: boolean) => slack + (isMirrored ? 0 : SWAY * strip.width)
  const [least, most] = [-past(strip.mirrorStart), strip.length + past(strip.mirrorEnd)]
  for (const [u, v] of flattenStroke(stroke, strip.width / 2000)) {
    demand(Number.isFinite(u) && Number.isFinite(v), `not a number: [${u}, ${v}]`)
    const isInside = u >= least && u <= most && v >= -slack && v <= strip.width + slack
    demand(isInside, `[${u}, ${v}] lies outside of ${strip.length} x ${strip.width}`)
  }
}

function assertTouches(motif: Motif, strip: Strip, { stroke, touches }: Drawn): void {
  const [first, last] = [touches[0], touches.at(-1)]
  demand(first?.after === 0 && first.edge === strip.from, 'the first touch is not the start')
  demand(last?.after === stroke.segments.length && last.edge === strip.to, 'the last touch is not the end')
  touches.forEach(({ edge, after }, i) => {
    const p = after === 0 ? stroke.start : stroke.segments[after - 1]?.to
    demand(p !== undefined, `touch ${i} is after ${after} of ${stroke.segments.length} segments`)
    const isOn = Math.abs(p[1] - heightOf(edge, strip.width)) < 1e-6
    demand(isOn, `touch ${i} at ${p} is not on the ${edge} edge`)
    demand(i === 0 || after > touches[i - 1]!.after, `touch ${i} does not come after the one before`)
    if (motif.ends === 'alternate')
      demand(i === 0 || edge !== touches[i - 1]!.edge, `touches ${i - 1} and ${i} are both ${edge}`)
  })
  if (motif.ends === 'alternate')
    demand(
      touches.length === 2 * strip.repeats + 1,
      `${touches.length} touches in ${strip.repeats} repeats, not ${2 * strip.repeats + 1}`,
    )
}

/** The angle between two directions, radians, 0..pi. */
const angleBetween = (a: Point, b: Point): number => Math.abs(Math.atan2(cross(a, b), dot(a, b)))

/** No corner at any joint, and along the edge at both ends (or at `arrival` to it), where stretches and images join. */
function assertSmooth(stroke: Stroke, arrival = 0): void {
  let before: Point | undefined
  eachSegment(stroke, (from, segment, i) => {
    const direction = directionAt(from, segment, 0)
    const turn = before
      ? angleBetween(before, direction)
      : Math.abs(Math.atan2(direction[1], Math.abs(direction[0])))
    demand(turn < 1e-3, `turns by ${turn} rad before segment ${i}, at ${from}`)
    before = directionAt(from, segment, 1)
  })
  const lean = before ? Math.abs(Math.atan2(Math.abs(before[1]), Math.abs(before[0])) - arrival) : 0
  demand(lean < 1e-3, `is off by ${lean} rad from the direction it should end with`)
}

// ---------------------------------------------------------------------------------------------- laws

const drawCase = (motif: Motif, { strip, values }: Case): Drawn => motif.draw(strip, values)

const isValid: Law = (motif, example) => assertValidDrawn(motif, example.strip, drawCase(motif, example))

const isDeterministic: Law = (motif, example) => {
  const copy = structuredClone(example)
  const [first, second] = [drawCase(motif, example), drawCase(motif, copy)]
  demand(JSON.stringify(first) === JSON.stringify(second), 'two drawings of the same strip differ')
  demand(JSON.stringify(example) === JSON.stringify(copy), 'drawing changed what it was given')
}

const scaleValues = (motif: Motif, values: Values, k: number): Values =>
  Object.fromEntries(
    Object.entries(values).map(([key, v]) => [key, motif.params[key]?.kind === 'length' ? v * k : v]),
  )

const pointsOf = (segment: Segment): Point[] => {
  if (segment.kind === 'line') return [segment.to]
  if (segment.kind === 'arc') return [segment.centre, segment.to]
  return [segment.c1, segment.c2, segment.to]
}

/** Whether two strokes have the same segments, to within `slack` mm. */
function assertSameStroke({ a, b, slack }: { a: Stroke; b: Stroke; slack: number }): void {
  const [p, q] = [a, b].map((s) => [s.start, ...s.segments.flatMap(pointsOf)])
  demand(p!.length === q!.length, `${a.segments.length} segments, not ${b.segments.length}`)
  p!.forEach((point, i) => {
    demand(distance(point, q![i]!) <= slack, `${point} is not ${q![i]} (point ${i})`)
  })
}

const scales: Law = (motif, example) => {
  const { strip, values } = example
  const drawn = drawCase(motif, example)
  for (const k of [0.1, 20]) {
    const scaled = { ...strip, length: strip.length * k, width: strip.width * k }
    const b = motif.draw(scaled, scaleValues(motif, values, k))
    const slack = 1e-6 * k * (1 + strip.length)
    assertSameStroke({ a: b.stroke, b: transformStroke(drawn.stroke, scaling(k)), slack })
    demand(
      JSON.stringify(b.touches) === JSON.stringify(drawn.touches),
      `other touches at ${k} times the size`,
    )
    const nominal = motif.repeat(scaled.width, scaleValues(motif, values, k))
    const expected = k * motif.repeat(strip.width, values)
    demand(Math.abs(nominal - expected) < 1e-9 * expected, `repeat ${nominal}, not ${expected}`)
  }
}

/** The stroke from its first to its second touch but `skip`, moved so that it starts at u = 0. */
function piece({ stroke, touches }: Drawn, first: number, last: number): Stroke {
  const [a, b] = [touches[first]!.after, touches[last]!.after]
  const start = a === 0 ? stroke.start : stroke.segments[a - 1]!.to
  const moved = { start, segments: stroke.segments.slice(a, b) }
  return transformStroke(moved, { a: 1, b: 0, c: 0, d: 1, e: -start[0], f: 0 })
}

const repeatsAlike: Law = (motif, { strip, values }) => {
  if (motif.ends !== 'alternate') return
  const endless = { ...strip, mirrorStart: false, mirrorEnd: false }
  const drawn = motif.draw(endless, values)
  const slack = 1e-6 * (1 + strip.length)
  for (let i = 2; i < drawn.touches.length - 1; i++)
    assertSameStroke({ a: piece(drawn, i, i + 1), b: piece(drawn, i - 2, i - 1), slack })
  if (strip.repeats < 1) return
  const one = { ...endless, repeats: 1, length: strip.length / strip.repeats, to: strip.from }
  assertSameStroke({ a: motif.draw(one, values).stroke, b: piece(drawn, 0, 2), slack })
}

/** Two stretches with a station between them, and their mirror image before them, as one stroke. */
function joinedWithImage(motif: Motif, { strip, values }: Case): Stroke {
  const first = { ...strip, mirrorStart: true, mirrorEnd: false }
  const isSwapped = strip.from !== strip.to
  const [from, to] = isSwapped ? [strip.to, strip.from] : [strip.from, strip.to]
  const next = { ...strip, from, to, length: strip.length * 0.96, mirrorStart: false, mirrorEnd: true }
  const after = { a: 1, b: 0, c: 0, d: 1, e: strip.length, f: 0 }
  const half = joinStrokes([
    motif.draw(first, values).stroke,
    transformStroke(motif.draw(next, values).stroke, after),
  ])
  return joinStrokes([reverseStroke(transformStroke(half, scaling(-1, 1))), half])
}

/** Stretches join at stations and at mirror lines without a corner, if the motif is smooth, and without retracing. */
const joinsWell: Law = (motif, { strip, values }) => {
  const repeats = strip.repeats > 2 ? 1 + (strip.repeats % 1) : strip.repeats
  const short = { ...strip, repeats, length: (strip.length * repeats) / strip.repeats }
  const stroke = joinedWithImage(motif, { strip: short, values })
  if (motif.joints === 'smooth') assertSmooth(stroke)
  const share = retraceLength(stroke) / strokeLength(stroke)
  demand(share <= 0.01, `${(100 * share).toFixed(1)} % of joined stretches lies on its own earlier part`)
}

const readsAlike: Law = (motif, example) => {
  const { stroke } = drawCase(motif, example)
  const [ours, theirs] = [strokeLength(stroke), new svgPathProperties(pathDataOf(stroke)).getTotalLength()]
  demand(Math.abs(ours - theirs) < 1e-3 * ours, `length ${ours}, but ${theirs} as an SVG path`)
}

/**
 * What a motif draws to a mitre itself ends in the mitre's corner, stays inside, and, if it is smooth, passes the inner
 * corner square to the mitre, so that it runs smoothly into its mirror image.
 */
const reachesMitre: Law = (motif, { strip, values }) => {
  if (!motif.drawToMitre) return
  for (const skew of [0.414, 0.7, 1, 1.3]) {
    const mitre: MitreStrip = { ...strip, skew }
    const drawn = motif.drawToMitre(mitre, values)
    const corner = strip.length + (strip.to === 'outer' ? skew * strip.width : 0)
    assertEnds({ ...strip, length: corner }, drawn)
    assertTouches(motif, strip, drawn)
    assertBeforeMitre(mitre, drawn.stroke)
    // A motif that ends by itself comes home to the corner as it can: a cusp on the mitre.
    if (motif.joints === 'smooth' && motif.ends === 'alternate')
      assertSmooth(drawn.stroke, strip.to === 'inner' ? Math.atan(skew) : 0)
  }
}

function assertBeforeMitre({ length, width, skew }: MitreStrip, stroke: Stroke): void {
  // Half of what the design lets a line leave its band by.
  const slack = 0.05
  for (const [u, v] of flattenStroke(stroke, width / 500)) {
    const isInside = u >= -slack && u <= length + skew * v + slack && v >= -slack && v <= width + slack
    demand(isInside, `[${u}, ${v}] lies outside of ${length} x ${width} or beyond its mitre`)
  }
}

/** Laws for every case. The names are sentences about "a motif". */
export const LAWS: Readonly<Record<string, Law>> = {
  'starts, ends, touches and joins as the contract says and stays inside its strip': isValid,
  'draws the same for the same input and changes nothing it was given': isDeterministic,
  'reaches the corner where it draws to the mitre itself': reachesMitre,
  'scales with the strip, down to a doll and up to a giant': scales,
  'repeats: n repeats drawn at once are n times one': repeatsAlike,
  'joins the next stretch and its own mirror image smoothly and retraces at most one percent': joinsWell,
  'has the length that an SVG reader finds': readsAlike,
}

/**
 * With its default values, a motif does not run along an edge: nowhere does it lie within 0.05 mm of one for 4 mm (in a
 * wide strip, a seventh of the width), so that two neighbours that meet there do not count as overlapping.
 */
export const leavesEdges: Law = (motif, example) => {
  const { stroke } = drawCase(motif, example)
  let run = 0
  for (const [, v] of evenPoints(flattenStroke(stroke, 0.002), 0.1)) {
    const depth = Math.min(Math.abs(v), Math.abs(example.strip.width - v))
    run = depth < 0.05 ? run + 0.1 : 0
    demand(run < Math.max(4, example.strip.width / 7), `runs along an edge for ${run} mm`)
  }
}

/** What a motif draws to a 45 degree mitre, joined with its mirror image beyond it, retraces at most one percent. */
export const turnsWell: Law = (motif, { strip, values }) => {
  for (const to of ['inner', 'outer'] as const) {
    const repeats = motif.ends === 'free' || to === strip.from ? 3 : 2.5
    const length = repeats * motif.repeat(strip.width, values)
    const drawn = motif.drawToMitre?.({ ...strip, to, repeats, length, mirrorEnd: true, skew: 1 }, values)
    if (!drawn) return
    const image = transformStroke(drawn.stroke, { a: 0, b: 1, c: 1, d: 0, e: length, f: -length })
    const turned = joinStrokes([drawn.stroke, reverseStroke(image)])
    const share = retraceLength(turned) / strokeLength(turned)
    demand(share <= 0.01, `${(100 * share).toFixed(1)} % of the turn lies on its own earlier part`)
  }
}

/** Every parameter's default lies within its limits, at the narrowest and the widest strip that suits. */
export function assertParams(motif: Motif): void {
  demand(motif.title !== '' && motif.source !== '', 'has no title or source')
  demand(motif.suits.min > 0 && motif.suits.min < motif.suits.max, 'suits no widths')
  for (const [key, p] of Object.entries(motif.params)) {
    demand(p.label !== '', `${key} has no label`)
    if (p.kind === 'choice') demand(p.of.includes(p.default), `${key}: ${p.default} is not one of ${p.of}`)
    else
      for (const width of [motif.suits.min, motif.suits.max]) {
        const value = typeof p.default === 'number' ? p.default : p.default.widths * width
        demand(p.min <= value && value <= p.max, `${key}: default ${value} is not in ${p.min} .. ${p.max}`)
      }
  }
}

/** Runs a law over `numRuns` cases with a fixed seed. */
export function assertLaw(motif: Motif, law: Law, numRuns = 40): void {
  fc.assert(
    fc.property(caseArbitrary(motif), (example) => law(motif, example)),
    { seed: 1, numRuns },
  )
}
