import { type Affine, applyAffine } from '../../geometry/affine.ts'
import { distance, isSamePoint, type Point } from '../../geometry/point.ts'
import { line, type Segment, transformSegment } from '../../geometry/segment.ts'
import { eachSegment, type Stroke } from '../../geometry/stroke.ts'
import { cuspedPoints } from './cusped-points.ts'
import { simplifyPoints } from './simplify.ts'

/** Whether circular arcs stay arcs. */
export type Arcs = 'keep' | 'flatten'

/** How a stroke is thinned out. */
export interface Slimming {
  /** Greatest distance from the line, mm; 0 keeps every end of a segment. */
  readonly deviation: number
  readonly arcs: Arcs
}

/** Part of the deviation spent on flattening curves; the rest is spent on leaving out points. */
const FLATTENING = 0.1

/** Flattening when nothing may be left out, mm. */
const FINEST = 0.01

/**
 * The stroke as lines (and arcs, if they stay) with few points, then mapped.
 *
 * @param onto  a similarity
 */
export function slimStroke(stroke: Stroke, onto: Affine, slimming: Slimming): Stroke {
  const segments: Segment[] = []
  for (const chunk of chunksOf(stroke, slimming)) {
    if (chunk.isArc) segments.push(...transformSegment(chunk.start, chunk.segments[0]!, onto))
    else for (const p of slimChunk(chunk, slimming)) segments.push(line(applyAffine(onto, p)))
  }
  return { start: applyAffine(onto, stroke.start), segments }
}

function slimChunk(chunk: Stroke, { deviation }: Slimming): Point[] {
  const { points, cusps } = cuspedPoints(chunk, deviation > 0 ? deviation * FLATTENING : FINEST)
  const slim = simplifyPoints(points, deviation * (1 - FLATTENING), cusps)
  return slim.slice(1).filter((p, i) => !isSamePoint(p, slim[i]!))
}

interface Chunk extends Stroke {
  readonly isArc: boolean
  readonly segments: Segment[]
}

/** Arcs worth keeping by themselves, and all that lies between them together. */
function chunksOf(stroke: Stroke, slimming: Slimming): Chunk[] {
  const chunks: Chunk[] = []
  eachSegment(stroke, (from, segment) => {
    const isArc = slimming.arcs === 'keep' && isWorthAnArc(from, segment, slimming.deviation)
    const last = chunks.at(-1)
    if (last && !isArc && !last.isArc) last.segments.push(segment)
    else chunks.push({ start: from, segments: [segment], isArc })
  })
  return chunks
}

/** A nearly straight or tiny arc is safer as a line: rounded, its ends could coincide and mean a whole circle. */
function isWorthAnArc(from: Point, segment: Segment, deviation: number): boolean {
  if (segment.kind !== 'arc' || distance(from, segment.to) < 0.05) return false
  const radius = distance(from, segment.centre)
  const rise = radius * (1 - Math.cos(Math.min(Math.abs(segment.sweep) / 2, Math.PI)))
  return rise > Math.max(deviation / 2, 0.01) && Math.abs(segment.sweep) < 2 * Math.PI
}
