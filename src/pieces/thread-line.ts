import type { Point } from '../geometry/point.ts'
import { reverseStroke, type Stroke } from '../geometry/stroke.ts'
import type { Line, LinePart } from '../stitch/line.ts'
import { type Net, seamCourse } from './net.ts'
import type { Pieces } from './pieces.ts'

/** One pass over an edge of the net: pieces first, then seams, as `routeEdges` numbers them. */
export interface Pass {
  readonly edge: number
  readonly forward: boolean
  readonly area: number
}

/** A walk over the net as the line that the needle follows. */
export function threadLine(
  walk: readonly Pass[],
  { pieces, net, thread }: { pieces: Pieces; net: Net; thread: string },
): Line {
  const parts: LinePart[] = []
  const ditched = new Set<string>()
  let band: number | undefined
  for (const pass of walk) {
    const piece = pieces.pieces[pass.edge]
    if (!piece) {
      const { ditch, edge } = net.seams[pass.edge - pieces.pieces.length]!
      const isAsked = ditch !== undefined || edge?.isAsked
      const key = edge ? `edge ${edge.stretch}` : `seam ${pass.edge}`
      const kind = isAsked && !ditched.has(key) ? 'ditch' : 'travel'
      ditched.add(key)
      pushInSeam(parts, {
        kind,
        area: pass.area,
        ...(edge && { region: edge.region }),
        stroke: seamStroke(net, pass, pieces.pieces.length),
      })
      continue
    }
    const stroke = pass.forward ? piece.stroke : reverseStroke(piece.stroke)
    if (band !== undefined && band !== piece.band) parts.push(crossing(stroke.start, pass.area))
    band = piece.band
    parts.push({ kind: 'fill', band, area: pass.area, stroke })
  }
  return { parts: mergeFills(parts), thread }
}

function seamStroke(net: Net, pass: Pass, fills: number): Stroke {
  const seam = net.seams[pass.edge - fills]!
  const course = seamCourse(seam, net.positions)
  return pass.forward ? course : reverseStroke(course)
}

const crossing = (at: Point, area: number): LinePart => ({
  kind: 'crossing',
  area,
  stroke: { start: at, segments: [] },
})

/** Goes on with the travel, or the ditch stitching, of the last part, or begins a new one. */
function pushInSeam(parts: LinePart[], part: LinePart): void {
  const last = parts.at(-1)
  const goesOn = last?.kind === part.kind && last.area === part.area && last.region === part.region
  if (goesOn) parts[parts.length - 1] = joined(last, part.stroke)
  else parts.push(part)
}

/** One part for each run of fill in the same band and area. */
function mergeFills(parts: readonly LinePart[]): LinePart[] {
  const merged: LinePart[] = []
  let run: { part: LinePart; segments: Stroke['segments'][number][] } | undefined
  const close = () => {
    if (run) merged.push({ ...run.part, stroke: { start: run.part.stroke.start, segments: run.segments } })
    run = undefined
  }
  for (const part of parts) {
    if (part.kind === 'fill' && run && run.part.band === part.band && run.part.area === part.area) {
      for (const segment of part.stroke.segments) run.segments.push(segment)
      continue
    }
    close()
    if (part.kind === 'fill') run = { part, segments: [...part.stroke.segments] }
    else merged.push(part)
  }
  close()
  return merged
}

const joined = (part: LinePart, stroke: Stroke): LinePart => ({
  ...part,
  stroke: { start: part.stroke.start, segments: [...part.stroke.segments, ...stroke.segments] },
})
