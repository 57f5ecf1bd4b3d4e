import { type Affine, applyAffine, compose } from '../geometry/affine.ts'
import type { Point } from '../geometry/point.ts'
import { reverseStroke, type Stroke, StrokeBuilder, transformStroke } from '../geometry/stroke.ts'
import type { Drawn, Edge, Strip, Touch } from './contract.ts'

/** The piece of an alternating motif between two neighbouring touches. */
export interface HalfRepeat {
  readonly from: Edge
  readonly to: Edge
  /** Its place in the strip, from 0, and how many there are. */
  readonly index: number
  readonly count: number
  /** Its length along the strip, mm. */
  readonly step: number
  /** The strip's width, mm. */
  readonly width: number
  /** Maps x mm along from its start and y mm away from the edge it starts on to the strip's frame. */
  readonly frame: Affine
  /** The point at x and y in the strip's frame. */
  at(x: number, y: number): Point
}

/**
 * Draws an alternating motif half repeat by half repeat, evenly spaced, and notes a touch at each edge.
 *
 * @param follow  draws from `half.at(0, 0)`, where the needle is, to `half.at(half.step, half.width)`
 */
export function drawHalfRepeats(
  strip: Strip,
  follow: (line: StrokeBuilder, half: HalfRepeat) => void,
): Drawn {
  const count = Math.round(2 * strip.repeats)
  const line = new StrokeBuilder([0, strip.from === 'inner' ? 0 : strip.width])
  const touches: Touch[] = [{ edge: strip.from, after: 0 }]
  for (let index = 0; index < count; index++) {
    const half = halfRepeat(strip, index, count)
    follow(line, half)
    touches.push({ edge: half.to, after: line.count })
  }
  return { stroke: line.build(), touches }
}

function halfRepeat(strip: Strip, index: number, count: number): HalfRepeat {
  const { width, length } = strip
  const isOutward = (strip.from === 'inner') === (index % 2 === 0)
  const start = (length * index) / count
  const [from, to]: [Edge, Edge] = isOutward ? ['inner', 'outer'] : ['outer', 'inner']
  const frame: Affine = isOutward
    ? { a: 1, b: 0, c: 0, d: 1, e: start, f: 0 }
    : { a: 1, b: 0, c: 0, d: -1, e: start, f: width }
  const at = (x: number, y: number) => applyAffine(frame, [x, y])
  return { from, to, index, count, step: length / count, width, frame, at }
}

/**
 * A half repeat's stroke in the strip's frame, for motifs whose halves are mirror images of each other.
 *
 * @param rise  the stroke from [0, 0] to [step, width] of a half that ends on `top`
 * @param top  a half that starts there gets the mirror image, travelled backwards
 */
export function mirroredHalf(half: HalfRepeat, rise: Stroke, top: Edge): Stroke {
  if (half.to === top) return transformStroke(rise, half.frame)
  const halfTurn: Affine = { a: -1, b: 0, c: 0, d: -1, e: half.step, f: half.width }
  return reverseStroke(transformStroke(rise, compose(halfTurn, half.frame)))
}
