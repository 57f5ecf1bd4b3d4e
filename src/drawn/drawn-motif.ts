import { scaling, translation } from '../geometry/affine.ts'
import { type Point, scale, subtract } from '../geometry/point.ts'
import { cubic, directionAt, type Segment } from '../geometry/segment.ts'
import { endOf, joinStrokes, type Stroke, transformStroke } from '../geometry/stroke.ts'
import { type Drawn, defineMotif, type Edge, type Motif, type Strip, type Touch } from '../motif/contract.ts'
import type { RepeatShape } from './repeat-shape.ts'

/** How much shorter or longer than drawn a repeat may be made. */
const LEAST = 0.4
const MOST = 2.5
/** Length of a lead from a seam to where a repeat begins, in the height that it climbs. */
const LEAD = 0.7

type Alternating = RepeatShape & { kind: 'alternate' }
type Free = RepeatShape & { kind: 'free' }

/** What is known of a drawn motif besides its shape. */
export interface DrawnMotif {
  readonly name: string
  readonly shape: RepeatShape
  /** Finished widths that it suits, mm. */
  readonly suits: { readonly min: number; readonly max: number }
}

/** A motif of one's own: a drawn repeat, laid along a band like any other motif. */
export function drawnMotif({ name, shape, suits }: DrawnMotif): Motif {
  const motif = defineMotif({
    title: name.replaceAll('-', ' '),
    source: 'a drawing of your own',
    params: {
      repeat: {
        kind: 'length',
        label: 'Repeat',
        default: { widths: Number(shape.length.toPrecision(3)) },
        min: LEAST * shape.length * suits.min,
        max: MOST * shape.length * suits.max,
      },
    },
    suits,
    ends: shape.kind,
    bend: 'corner',
    joints: shape.joints,
    repeat: (width, { repeat }) =>
      Math.min(Math.max(repeat, LEAST * shape.length * width), MOST * shape.length * width),
    draw: (strip) => (shape.kind === 'alternate' ? layHalves(shape, strip) : layRepeats(shape, strip)),
  })
  return motif as unknown as Motif
}

/** Half by half, each as long beside the others as it was drawn. */
function layHalves(
  { rise, fall, length }: Alternating,
  { length: strip, width, from, repeats }: Strip,
): Drawn {
  const up = endOf(rise)[0]
  const parts: Stroke[] = []
  const touches: Touch[] = [{ edge: from, after: 0 }]
  let [at, after] = [0, 0]
  for (let i = 0; i < Math.round(2 * repeats); i++) {
    const isRise = (from === 'inner') === (i % 2 === 0)
    parts.push(transformStroke(isRise ? rise : fall, translation(isRise ? at : at - up, 0)))
    at += isRise ? up : length - up
    after += parts.at(-1)!.segments.length
    touches.push({ edge: isRise ? 'outer' : 'inner', after })
  }
  const stroke = transformStroke(joinStrokes(parts), scaling(strip / at, width))
  return { stroke: endedAt(stroke, [strip, touches.at(-1)!.edge === 'inner' ? 0 : width]), touches }
}

/** Whole repeats, with a lead from and to a seam where they do not begin on it. */
function layRepeats(shape: Free, { length: strip, width, from, to, repeats }: Strip): Drawn {
  const { height, repeat } = shape
  const [first, last] = [heightOf(from), heightOf(to)]
  const [leadIn, leadOut] = [LEAD * Math.abs(height - first), LEAD * Math.abs(height - last)]
  const parts: Stroke[] = leadIn > 0 ? [leadTo(repeat, first, leadIn)] : []
  const touches: Touch[] = [{ edge: from, after: 0 }]
  // Leads take the room of repeats, so that those that are left are as long as they should be.
  const room = Math.max(1, Math.round(repeats - (leadIn + leadOut) / shape.length))
  for (let i = 0; i < room; i++) {
    const before = countOf(parts)
    parts.push(transformStroke(repeat, translation(leadIn + i * shape.length, 0)))
    touches.push(...shape.touches.map(({ edge, after }) => ({ edge, after: before + after })))
  }
  if (leadOut > 0) parts.push(leadFrom(parts.at(-1)!, last, leadOut))
  const count = countOf(parts)
  const whole = transformStroke(joinStrokes(parts), scaling(strip / endOf(parts.at(-1)!)[0], width))
  return {
    stroke: endedAt(whole, [strip, last * width]),
    touches: [...touches.filter(({ after }) => after < count), { edge: to, after: count }],
  }
}

const heightOf = (edge: Edge): 0 | 1 => (edge === 'inner' ? 0 : 1)

const countOf = (parts: readonly Stroke[]): number =>
  parts.reduce((sum, { segments }) => sum + segments.length, 0)

/** From [0, `edge`] smoothly into a repeat that begins at u = `length`. */
function leadTo(repeat: Stroke, edge: 0 | 1, length: number): Stroke {
  const to: Point = [length, repeat.start[1]]
  const handle = handleWithin(to, scale(directionAt(repeat.start, repeat.segments[0]!, 0), -length / 2))
  return { start: [0, edge], segments: [cubic([length / 2, edge], handle, to)] }
}

/** Smoothly out of a repeat to the edge. */
function leadFrom(repeat: Stroke, edge: 0 | 1, length: number): Stroke {
  const start = endOf(repeat)
  const before = repeat.segments.at(-2)?.to ?? repeat.start
  const handle = handleWithin(start, scale(directionAt(before, repeat.segments.at(-1)!, 1), length / 2))
  const to: Point = [start[0] + length, edge]
  return { start, segments: [cubic(handle, [start[0] + length / 2, edge], to)] }
}

/** A handle that stays between the edges. */
function handleWithin(at: Point, offset: Point): Point {
  const room = offset[1] > 0 ? 1 - at[1] : at[1]
  const most = offset[1] === 0 ? 1 : Math.min(1, room / Math.abs(offset[1]))
  return [at[0] + most * offset[0], at[1] + most * offset[1]]
}

/** The stroke with its last place where it is asked for, not a rounding beside it. */
function endedAt({ start, segments }: Stroke, to: Point): Stroke {
  const last = segments.at(-1)!
  const by = subtract(to, last.to)
  const closing: Segment =
    last.kind === 'cubic' ? cubic(last.c1, [last.c2[0] + by[0], last.c2[1] + by[1]], to) : { ...last, to }
  return { start, segments: [...segments.slice(0, -1), closing] }
}
