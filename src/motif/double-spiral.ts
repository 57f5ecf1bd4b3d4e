import { norm, type Point, scale, subtract } from '../geometry/point.ts'
import { arcFromTangent, arcToCubics, cubic, type Segment } from '../geometry/segment.ts'
import { reverseStroke, type Stroke } from '../geometry/stroke.ts'

/**
 * A spiral that goes in and comes back out between its own lines. Angles run from the u axis towards the v axis.
 */
export interface DoubleSpiral {
  readonly centre: Point
  /** The circle that it fills, mm. */
  readonly radius: number
  /** The distance between neighbouring lines, mm. */
  readonly spacing: number
  /** The angle, seen from the centre, at which it comes in; where it goes out. */
  readonly enter: number
  readonly leave: number
  /** The sense of the way in: 1 from u towards v, -1 the other way. The way out turns back. */
  readonly turn: 1 | -1
  /** By how much the outer ends of the arms are cut short, radians, to leave room for a joint. */
  readonly trimEnter: number
  readonly trimLeave: number
}

const TURN = 2 * Math.PI

/** One arm, from outside in: r = radius - growth x (angle - start) until it reaches the eye. */
interface Arm {
  readonly centre: Point
  readonly radius: number
  readonly growth: number
  readonly start: number
  readonly turn: 1 | -1
}

const armRadius = (arm: Arm, swept: number): number => arm.radius - arm.growth * swept

/** Where an arm is, and its derivative by the angle swept, mm per radian. */
interface ArmPlace {
  readonly at: Point
  readonly along: Point
}

function armPlace(arm: Arm, swept: number): ArmPlace {
  const { centre, growth, turn } = arm
  const angle = arm.start + turn * swept
  const r = armRadius(arm, swept)
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  return {
    at: [centre[0] + r * c, centre[1] + r * s],
    along: [-growth * c - turn * r * s, -growth * s + turn * r * c],
  }
}

/**
 * The piece of an arm between two swept angles, as cubics of at most an eighth of a turn each that share its points
 * and tangents.
 *
 * @source handle = derivative x 4/3 tan(step / 4), as for a circle; strays by less than 1e-5 of the radius where the
 * pitch is small beside it
 */
function armStroke(arm: Arm, from: number, to: number): Stroke {
  const count = Math.max(1, Math.ceil((to - from) / (Math.PI / 4)))
  const step = (to - from) / count
  const handle = (4 / 3) * Math.tan(step / 4)
  const start = armPlace(arm, from)
  const segments: Segment[] = []
  let { at, along } = start
  for (let i = 1; i <= count; i++) {
    const swept = from + i * step
    const { at: end, along: next } = armPlace(arm, swept)
    segments.push(
      cubic(
        [at[0] + along[0] * handle, at[1] + along[1] * handle],
        [end[0] - next[0] * handle, end[1] - next[1] * handle],
        end,
      ),
    )
    at = end
    along = next
  }
  return { start: start.at, segments }
}

/**
 * An Archimedean spiral from the angle `start`, winding in from `outer` to `inner` mm from its centre.
 *
 * @param reach        from how far out to how far in, mm from the centre
 * @param reach.pitch  how much nearer to the centre it is after a whole turn, mm
 * @source r = outer - pitch x angle / 2 pi
 */
export function archimedeanSpiral(
  centre: Point,
  reach: { readonly outer: number; readonly inner: number; readonly pitch: number },
  start = 0,
): Stroke {
  const arm: Arm = { centre, radius: reach.outer, growth: reach.pitch / TURN, start, turn: 1 }
  return armStroke(arm, 0, (reach.outer - reach.inner) / arm.growth)
}

/** The half of the eye from the end of an arm to the centre, cubics. */
function halfEye(arm: Arm, swept: number): Segment[] {
  const { at: from, along } = armPlace(arm, swept)
  const segment = arcFromTangent(from, along, arm.centre)
  return segment.kind === 'arc' ? arcToCubics(from, segment) : [segment]
}

const between = (from: number, to: number, turn: 1 | -1): number => {
  const angle = (turn * (to - from)) % TURN
  return angle <= 0 ? angle + TURN : angle
}

/** By how much a double spiral's radius on the way out exceeds that on the way in, mm: what the angle makes up. */
export function outwardStep(spiral: Pick<DoubleSpiral, 'enter' | 'leave' | 'turn' | 'spacing'>): number {
  return spiral.spacing * (1 - between(spiral.enter, spiral.leave, spiral.turn) / Math.PI)
}

/**
 * The two arms of a double spiral: Archimedean, with a pitch of twice the spacing, the one half a turn from the other,
 * so that lines in and out lie `spacing` apart everywhere. Where the two ends are not half a turn apart, the outer
 * radii differ by what the angle between them makes up, evenly about `radius`.
 */
function arms(spiral: DoubleSpiral): readonly [way: Arm, back: Arm] {
  const { centre, radius, spacing, turn } = spiral
  const difference = outwardStep(spiral)
  const growth = spacing / Math.PI
  return [
    { centre, radius: radius - difference / 2, growth, start: spiral.enter, turn },
    { centre, radius: radius + difference / 2, growth, start: spiral.leave, turn },
  ]
}

/**
 * Draws a double spiral as one stroke of cubics: in, through an S at the eye, and out.
 *
 * @source two Archimedean spirals r = b angle, half a turn apart, b = spacing / pi
 */
export function drawDoubleSpiral(spiral: DoubleSpiral): Stroke {
  const [way, back] = arms(spiral)
  const [outer, inner] = [spiral.trimEnter, spiral.trimLeave]
  const smallest = Math.min(armRadius(way, outer), armRadius(back, inner))
  const eye = Math.min(0.95 * spiral.spacing, 0.8 * smallest)
  const [end, start] = [(way.radius - eye) / way.growth, (back.radius - eye) / back.growth]
  const enter = armStroke(way, outer, end)
  const leave = reverseStroke(armStroke(back, inner, start))
  const [first, second] = [halfEye(way, end), halfEye(back, start)]
  const out = reverseStroke({ start: leave.start, segments: second })
  return { start: enter.start, segments: [...enter.segments, ...first, ...out.segments, ...leave.segments] }
}

/** The direction in which a stroke ends, or (reversed) starts: that of the last cubic's handle. */
export function endDirection(stroke: Stroke): Point {
  const last = stroke.segments.at(-1)
  if (last?.kind !== 'cubic') throw new Error('a stroke of cubics is needed')
  const along = subtract(last.to, last.c2)
  return scale(along, 1 / norm(along))
}

/** The direction in which a stroke of cubics starts. */
export function startDirection(stroke: Stroke): Point {
  const first = stroke.segments[0]
  if (first?.kind !== 'cubic') throw new Error('a stroke of cubics is needed')
  const along = subtract(first.c1, stroke.start)
  return scale(along, 1 / norm(along))
}
