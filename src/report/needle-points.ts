import type { NeedlePoint } from '../export/drawing.ts'
import type { Stitches } from '../stitch/lay-stitches.ts'

/** Every place where the needle goes down, in order, with the part of the line that it ends or, for the first, begins. */
export const needlePoints = ({ count, xs, ys, parts }: Stitches): NeedlePoint[] =>
  Array.from({ length: count + 1 }, (_, i) => ({
    at: [xs[i]!, ys[i]!],
    part: parts[Math.max(0, i - 1)] ?? 0,
  }))
