import { turnsOf } from '../geometry/range.ts'
import { type Segment, splitAt } from '../geometry/segment.ts'
import { eachSegment, type Stroke } from '../geometry/stroke.ts'

/** The stroke with a joint wherever it turns back across the band. */
export function splitAtCrests(stroke: Stroke): Stroke {
  const segments: Segment[] = []
  eachSegment(stroke, (from, whole) => {
    let [at, rest, done] = [from, whole, 0]
    for (const t of turnsOf(from, whole, 1)) {
      const [first, after] = splitAt(at, rest, (t - done) / (1 - done))
      segments.push(first)
      at = first.to
      rest = after
      done = t
    }
    segments.push(rest)
  })
  return { start: stroke.start, segments }
}
