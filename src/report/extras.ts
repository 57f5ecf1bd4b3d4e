import type { Overlap } from '../check/overlap.ts'
import type { Point } from '../geometry/point.ts'
import { endOf, strokeLength } from '../geometry/stroke.ts'
import type { Quilt } from '../quilt/quilt.ts'
import type { Line, LinePart } from '../stitch/line.ts'
import type { LengthUnit } from '../units.ts'
import type { Extra } from './report.ts'
import { wherePoint } from './where.ts'

/** What reasons are told from. */
export interface ExtrasContext {
  readonly overlaps: readonly Overlap[]
  readonly quilt: Quilt
  readonly units: LengthUnit
  /** Whether an odd number of the stretches that an area must stitch end at a place: the line can't just pass it. */
  readonly isOdd: (at: Point, area: number) => boolean
}

/** Every travel and every overlap of the lines: how long, where, and why. */
export function listExtras(lines: readonly Line[], context: ExtrasContext): Extra[] {
  const travel = lines.flatMap(({ parts }) =>
    parts.flatMap((part, i): Extra[] =>
      part.kind === 'travel'
        ? [extraAt('travel', part.stroke.start, { ...context, ...told(parts, i, context) })]
        : [],
    ),
  )
  const starts = lines.map(partStarts)
  const over = context.overlaps.map((overlap): Extra => {
    const { from, fromMm, toMm } = overlap
    return extraAt('overlap', from, {
      ...context,
      lengthMm: toMm - fromMm,
      reason: whyOver(overlap, { lines, starts, context }),
    })
  })
  return [...travel, ...over]
}

const round = (value: number): number => Math.round(value * 1000) / 1000

function extraAt(
  kind: Extra['kind'],
  at: Point,
  { lengthMm, reason, ...place }: ExtrasContext & { lengthMm: number; reason: string },
): Extra {
  return {
    kind,
    lengthMm: round(lengthMm),
    at: [round(at[0]), round(at[1])],
    where: wherePoint(at, place),
    reason,
  }
}

function told(parts: readonly LinePart[], i: number, context: ExtrasContext) {
  const { stroke, reason } = parts[i]!
  return { lengthMm: strokeLength(stroke), reason: reason ?? whyTravel(parts, i, context) }
}

/** Where a travel leads, and what makes it necessary. */
function whyTravel(parts: readonly LinePart[], i: number, { quilt, isOdd }: ExtrasContext): string {
  const part = parts[i]!
  const before = parts.slice(0, i).reverse().find(isStitching)
  const after = parts.slice(i + 1).find(isStitching)
  if (!after) return 'to the end that was asked for'
  if (!before) return 'from the start that was asked for'
  const to = nameOf(after, quilt)
  if (part.region !== undefined) return `round ${quilt.regions![part.region]!.name}, on to ${to}`
  if (before.area !== after.area) return `to the next area, which begins in ${to}`
  const isParity = isOdd(part.stroke.start, part.area) || isOdd(endOf(part.stroke), part.area)
  const why = isParity
    ? 'an odd number of the lines of this area end here'
    : 'what is stitched before and after does not meet'
  return before.band === after.band ? `on to where ${to} goes on: ${why}` : `on into ${to}: ${why}`
}

const isStitching = ({ kind }: LinePart): boolean => kind === 'fill' || kind === 'ditch'

function nameOf({ band, region }: LinePart, quilt: Quilt): string {
  if (region !== undefined) return `the edge of ${quilt.regions![region]!.name}`
  return band === undefined ? 'a seam' : (quilt.bands[band]?.name ?? 'the centre')
}

/** How far along its line each part begins, mm. */
function partStarts({ parts }: Line): number[] {
  let along = 0
  return parts.map(({ stroke }) => {
    const start = along
    along += strokeLength(stroke)
    return start
  })
}

interface Told {
  readonly lines: readonly Line[]
  readonly starts: readonly (readonly number[])[]
  readonly context: ExtrasContext
}

function partAt(line: number, alongMm: number, { lines, starts }: Told): LinePart {
  const after = starts[line]!.findIndex((start) => start > alongMm)
  return lines[line]!.parts.at(after === -1 ? -1 : Math.max(0, after - 1))!
}

/** What lies on what, and how that comes about. */
function whyOver({ line, fromMm, toMm, onto }: Overlap, told: Told): string {
  const here = partAt(line, (fromMm + toMm) / 2, told)
  const below = partAt(onto.line, onto.alongMm, told)
  const { quilt } = told.context
  if (!isStitching(here) && here.region !== undefined && below.kind !== 'fill')
    return `round ${quilt.regions![here.region]!.name} again, to go on beyond it`
  if (!isStitching(here))
    return below.kind === 'ditch'
      ? 'travel over a seam that is stitched in the ditch'
      : isStitching(below)
        ? `travel beside ${nameOf(below, quilt)}, which lies on the seam here`
        : 'travel over a seam that was travelled before'
  if (!isStitching(below)) return `${nameOf(here, quilt)} lies on a seam that was travelled before`
  if (here.kind === 'ditch' || below.kind === 'ditch')
    return `${nameOf(here.kind === 'ditch' ? below : here, quilt)} runs along a seam that is stitched in the ditch`
  if (here.band !== below.band)
    return `${nameOf(here, quilt)} and ${nameOf(below, quilt)} run together along their seam`
  return `${nameOf(here, quilt)} is stitched again, or two of its own lines run together: no seam leads on here`
}
