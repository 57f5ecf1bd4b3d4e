import { add, type Point, scale } from '../../geometry/point.ts'
import { strokeThrough } from '../../geometry/stroke.ts'
import { meetingPoint } from '../../quilt/outline.ts'
import { definePatchFiller } from './contract.ts'
import { ARM_SPACING, cornersAcross, spiralAcross } from './double-spiral.ts'
import { edgesOf, insetPatch, type PatchEdge } from './patch-shape.ts'
import { distinctPoints } from './smooth-stroke.ts'

export default definePatchFiller({
  title: 'Echo',
  source: 'lines at a constant distance from the patch’s seams; common practice',
  params: { spacing: ARM_SPACING },
  closeness: 'spacing',
  ditch: false,
  leadsTo: cornersAcross,
  draw(corners, { spacing }) {
    const { places, view, radius, last } = spiralAcross(corners, spacing)
    if (keepsItsEdges(corners, radius))
      return [strokeThrough(distinctPoints(angular(corners, { last, radius, spacing })))]
    const points = places.map(({ angle, depth }) => view.at(angle, depth))
    return [strokeThrough(distinctPoints([corners[0]!, ...points, corners[last]!]))]
  },
})

/** Whether every edge is still there when the patch has been moved inward nearly to its middle. */
const keepsItsEdges = (corners: readonly Point[], radius: number): boolean =>
  distinctPoints(insetPatch(corners, radius * 0.95)).length === corners.length

/**
 * Two arms of lines parallel to the edges. At the first corner and at the one across from it each arm steps inward by
 * one line, where the other arm comes round outside it.
 */
function angular(
  corners: readonly Point[],
  { last, radius, spacing }: { last: number; radius: number; spacing: number },
): Point[] {
  const lines = Math.max(1, Math.round(radius / spacing))
  const step = radius / lines
  const edges = edgesOf(corners)
  const arm = (first: number): Point[] => {
    const runs = Array.from({ length: lines }, (_, run) => ({
      edges: between(
        run % 2 === 0 ? first : last - first,
        run % 2 === 0 ? last - first : first,
        edges.length,
      ),
      depth: step * (run + 0.5),
    }))
    const path = runs.flatMap((run) => run.edges.map((edge) => ({ edge: edges[edge]!, depth: run.depth })))
    const before = { edge: edges.at(path[0] ? edges.indexOf(path[0].edge) - 1 : 0)!, depth: step / 2 }
    const end = { edge: edges[(edges.indexOf(path.at(-1)!.edge) + 1) % edges.length]!, depth: radius }
    const all = [before, ...path, end]
    return all.slice(1).map((line, i) => meet(all[i]!, line))
  }
  return [corners[0]!, ...arm(0), ...arm(last).reverse(), corners[last]!]
}

/** The edges from one corner to another, clockwise. */
function between(from: number, to: number, count: number): number[] {
  const list: number[] = []
  for (let i = from; i !== to; i = (i + 1) % count) list.push(i)
  return list
}

interface InsetLine {
  readonly edge: PatchEdge
  readonly depth: number
}

const meet = (a: InsetLine, b: InsetLine): Point => meetingPoint(rayOf(a), rayOf(b))

const rayOf = ({ edge, depth }: InsetLine) => ({
  at: add(edge.from, scale(edge.inward, depth)),
  along: edge.along,
})
