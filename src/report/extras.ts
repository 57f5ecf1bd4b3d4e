import type { Overlap } from '../check/overlap.ts'
import { strokeLength } from '../geometry/stroke.ts'
import type { Quilt } from '../quilt/quilt.ts'
import type { Line } from '../stitch/line.ts'
import type { LengthUnit } from '../units.ts'
import type { Extra } from './report.ts'
import { wherePoint } from './where.ts'

/** Every travel and every overlap of the lines: how long, where, and why. */
export function listExtras(
  lines: readonly Line[],
  { overlaps, ...place }: { overlaps: readonly Overlap[]; quilt: Quilt; units: LengthUnit },
): Extra[] {
  const round = (value: number) => Math.round(value * 1000) / 1000
  const travel = lines.flatMap((line) =>
    line.parts.flatMap((part, i): Extra[] => {
      if (part.kind !== 'travel') return []
      const before = line.parts[i - 1]
      const after = line.parts.slice(i + 1).find((p) => p.kind === 'fill')
      const [x, y] = part.stroke.start
      const isNext = before && after && before.area !== after.area
      const reason =
        part.reason ??
        (isNext
          ? 'to the start of the next area'
          : after
            ? 'to a piece that no other crossing reaches'
            : 'to the end')
      return [
        {
          kind: 'travel',
          lengthMm: round(strokeLength(part.stroke)),
          at: [round(x), round(y)],
          where: wherePoint(part.stroke.start, place),
          reason,
        },
      ]
    }),
  )
  const over = overlaps.map(({ fromMm, toMm, from }): Extra => {
    const at: [number, number] = [round(from[0]), round(from[1])]
    const reason = 'stitched again: the way on leads over it, or another line lies there'
    return { kind: 'overlap', lengthMm: round(toMm - fromMm), at, where: wherePoint(from, place), reason }
  })
  return [...travel, ...over]
}
