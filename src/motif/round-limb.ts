import { distance, type Point, polar } from '../geometry/point.ts'
import { arc } from '../geometry/segment.ts'
import type { StrokeBuilder } from '../geometry/stroke.ts'
import type { HalfRepeat } from './half-repeats.ts'

/** A circle in a half repeat's own frame, mm, travelled towards the far edge with the near edge behind. */
interface Turn {
  readonly centre: Point
  readonly radius: number
}

/**
 * Follows `turn` from heading `from`, then a limb that touches it, to the half repeat's end: over an arc that touches the
 * far edge, or, at a mitre's inner corner, over one that passes the corner square to the mitre and so is half of a turn
 * about it. Headings are radians from along the strip to the far edge.
 *
 * @param line         is drawn on
 * @param half         the half repeat that it is drawn in
 * @param limb         the circle, and how the line comes to it and leaves it
 * @param limb.rounds  how often to go all the way round first
 * @param limb.crest   radius of the arc at the far edge or about the mitre, mm
 */
export function followRoundLimb(
  line: StrokeBuilder,
  half: HalfRepeat,
  { turn, from, rounds, crest }: { turn: Turn; from: number; rounds: number; crest: number },
): void {
  const { step, width, arrival, frame, at } = half
  const end = polar([step, width], -crest, arrival + Math.PI / 2)
  const round = crossingTangent(turn, end, crest)
  // A limb that comes in flatter than square to the mitre has no turn to make about it.
  const isFlat = arrival > 0 && round < arrival
  const heading = isFlat ? headingToCorner(half, turn) : round
  const exit = polar(turn.centre, turn.radius, heading - Math.PI / 2)
  line.push(arc(at(...exit), at(...turn.centre), (2 * Math.PI * rounds + heading - from) * frame.d))
  if (isFlat) {
    passCorner(line, half, { exit, heading })
    return
  }
  line.lineTo(at(...polar(end, crest, heading + Math.PI / 2)))
  line.push(arc(at(step, width), at(...end), (arrival - heading) * frame.d))
}

/** The heading of the line that leaves `turn` and runs, on its other side, into the circle of radius `crest` at `end`. */
function crossingTangent({ centre, radius }: Turn, end: Point, crest: number): number {
  const [dx, dy] = [end[0] - centre[0], end[1] - centre[1]]
  return Math.atan2(dy, dx) + Math.asin(Math.min(1, (radius + crest) / Math.hypot(dx, dy)))
}

/** A little steeper than straight to the corner, since the limb still has to bend into the heading of its arrival. */
function headingToCorner({ step, width, arrival }: HalfRepeat, turn: Turn): number {
  const straight = crossingTangent(turn, [step, width], 0)
  return straight + 0.4 * (straight - arrival)
}

function passCorner(
  line: StrokeBuilder,
  { step, width, arrival, at }: HalfRepeat,
  { exit, heading }: { exit: Point; heading: number },
): void {
  const handle = 0.36 * distance(exit, [step, width])
  line.cubicTo(
    at(...polar(exit, handle, heading)),
    at(...polar([step, width], -handle, arrival)),
    at(step, width),
  )
}
