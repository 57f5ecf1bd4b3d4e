import { type Affine, applyAffine } from '../../geometry/affine.ts'
import { distance, distanceToLine, lerp, type Point, subtract, unit } from '../../geometry/point.ts'
import { type Box, boundsOf, flattenStroke } from '../../geometry/stroke.ts'
import { outlineOf } from '../../quilt/avoided-region.ts'
import type { Drawing, TraceStrip } from '../drawing.ts'
import { LABELS } from '../labels.ts'
import { piecesOfLine } from '../path/line-pieces.ts'
import { slimStroke } from '../path/slim-stroke.ts'
import { hasThreads } from '../thread-name.ts'
import { type BoxedLine, boxedLine } from './cut-line.ts'

/** A short text beside a place on the line. */
export interface Tag {
  readonly at: Point
  /** The direction of the line there, unit vector. */
  readonly along: Point
  readonly text: string
  /** A disc with a number, a flag with words, or a tick across a seam with words. */
  readonly look: 'number' | 'flag' | 'tick'
}

/** The tip of an arrow on the line. */
export interface Arrow {
  readonly at: Point
  readonly along: Point
}

/** A band's name, to be set along a line near its outer seam wherever a sheet shows enough of it. */
export interface BandName {
  readonly text: string
  readonly along: BoxedLine
}

/** What is to be traced, at full size: mm in a frame of its own. */
export interface Tracing {
  readonly box: Box
  readonly lines: readonly BoxedLine[]
  readonly seams: readonly BoxedLine[]
  readonly arrows: readonly Arrow[]
  readonly tags: readonly Tag[]
  readonly names: readonly BandName[]
}

/** Chords of the printed line stray from it by at most this, mm: a third of a hairline. */
const FINENESS = 0.03

/** Length of line between arrows, mm. */
const ARROW_STEP = 60

/** The whole quilt, mapped by `onto` (a mirror, or nothing). */
export function quiltTracing(drawing: Drawing, onto: Affine): Tracing {
  const { quilt } = drawing
  const lines = drawing.lines.map((line) => threadPoints(line, onto))
  const map = (points: readonly Point[]) => points.map((p) => applyAffine(onto, p))
  const closed = (points: readonly Point[]) => boxedLine(map([...points, points[0]!]))
  const edge = map(quilt.edge)
  return {
    box: boundsOf(edge),
    lines: lines.filter((l) => l.length > 1).map(boxedLine),
    seams: [
      closed(quilt.edge),
      ...quilt.seams.map((s) => (s.kind === 'ring' ? closed(s.points) : boxedLine(map(s.points)))),
      ...(quilt.regions ?? []).map((region) => boxedLine(map(flattenStroke(outlineOf(region), FINENESS)))),
    ],
    arrows: lines.flatMap((points) => arrowsAlong(points, ARROW_STEP)),
    tags: [...areaTags(drawing, onto), ...endTags(lines, threadNames(drawing))],
    names: [...bandNames(drawing, onto), ...regionNames(drawing, onto)],
  }
}

function threadPoints(line: Drawing['lines'][number], onto: Affine): Point[] {
  const points: Point[] = []
  for (const piece of piecesOfLine(line)) {
    const slim = slimStroke(piece.stroke, onto, { deviation: FINENESS, arcs: 'flatten' })
    if (points.length === 0) points.push(slim.start)
    for (const { to } of slim.segments) points.push(to)
  }
  return points
}

/** How far from the outer seam a band's name is set, mm to the middle of its letters. */
const BESIDE_SEAM = 2.4

function bandNames({ quilt }: Drawing, onto: Affine): BandName[] {
  return quilt.bands.flatMap(({ name, sides }) =>
    sides.map(({ innerA, innerB, outerA, outerB }) => {
      const share = BESIDE_SEAM / Math.max(BESIDE_SEAM, distanceToLine(innerA, outerA, outerB))
      const ends = [lerp(outerA, innerA, share), lerp(outerB, innerB, share)]
      return { text: name, along: boxedLine(ends.map((p) => applyAffine(onto, p))) }
    }),
  )
}

/** Each region's name, across it. */
function regionNames({ quilt: { regions = [] } }: Drawing, onto: Affine): BandName[] {
  return regions.map((region) => {
    const { minX, maxX, minY, maxY } = boundsOf(flattenStroke(outlineOf(region), 1))
    const y = (minY + maxY) / 2
    const ends: Point[] = [
      [minX, y],
      [maxX, y],
    ]
    return { text: region.name, along: boxedLine(ends.map((p) => applyAffine(onto, p))) }
  })
}

/** An arrow every `step` mm of line, the first half a step in; never within 2 mm of a bend's own point. */
export function arrowsAlong(points: readonly Point[], step: number): Arrow[] {
  const arrows: Arrow[] = []
  let next = step / 2
  let done = 0
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!]
    const length = distance(a, b)
    while (length > 0 && done + length >= next) {
      arrows.push({ at: lerp(a, b, (next - done) / length), along: unit(subtract(b, a)) })
      next += step
    }
    done += length
  }
  return arrows
}

/** The number of each area where the line first enters it. */
function areaTags(drawing: Drawing, onto: Affine): Tag[] {
  const seen = new Set<number>()
  const tags: Tag[] = []
  for (const { parts } of drawing.lines)
    for (const { area, stroke } of parts) {
      if (seen.has(area) || stroke.segments.length === 0) continue
      seen.add(area)
      const [at, then] = flattenStroke(stroke, 0.5).map((p) => applyAffine(onto, p))
      tags.push({ at: at!, along: unit(subtract(then!, at!)), text: String(area + 1), look: 'number' })
    }
  return tags
}

/** A line that ends close to where it starts gets one flag for both, mm. */
const CLOSE = 15

/** For each line its thread, if there are several. */
const threadNames = (drawing: Drawing): string[] =>
  drawing.lines.map(({ thread }) => (hasThreads(drawing) ? `, ${thread}` : ''))

function endTags(lines: readonly (readonly Point[])[], threads: readonly string[]): Tag[] {
  const { sheets: say } = LABELS
  return lines.flatMap((points, i) => {
    if (points.length < 2) return []
    const which = lines.length > 1 ? ` ${i + 1}${threads[i]}` : ''
    const [first, second] = points as [Point, Point]
    const [before, last] = points.slice(-2) as [Point, Point]
    const flag = (at: Point, along: Point, text: string): Tag => ({
      at,
      along,
      text: `${text}${which}`,
      look: 'flag',
    })
    const out = unit(subtract(second, first))
    if (distance(first, last) < CLOSE) return [flag(first, out, say.startAndEnd)]
    return [flag(first, out, say.start), flag(last, unit(subtract(last, before)), say.end)]
  })
}

/** A strip, mapped by `onto`. */
export function stripTracing(strip: TraceStrip, onto: Affine): Tracing {
  const outline = [...strip.outline, strip.outline[0]!].map((p) => applyAffine(onto, p))
  const lines = strip.strokes.map((stroke) => {
    const slim = slimStroke(stroke, onto, { deviation: FINENESS, arcs: 'flatten' })
    return [slim.start, ...slim.segments.map((s) => s.to)]
  })
  return {
    box: boundsOf([...outline, ...lines.flat()]),
    lines: lines.filter((l) => l.length > 1).map(boxedLine),
    seams: [boxedLine(outline)],
    arrows: lines.flatMap((points) => arrowsAlong(points, ARROW_STEP)),
    tags: strip.marks.map((mark) => ({
      at: applyAffine(onto, mark.at),
      along: [1, 0],
      text: mark.name,
      look: 'tick',
    })),
    names: [],
  }
}
