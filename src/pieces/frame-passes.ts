import { PlanError } from '../error.ts'
import { type Box, boundsOf, flattenStroke } from '../geometry/stroke.ts'
import type { Area } from '../route/index.ts'
import { NO_BOX, unionOf } from './box.ts'
import { type Net, seamCourse } from './net.ts'
import type { Pieces } from './pieces.ts'

/** A frame's strip, mm. */
export interface Frame {
  /** Usable depth. */
  readonly throat: number
  /** How far a strip reaches back over the one before, at least. */
  readonly overlap: number
}

/** One pass of a frame over the quilt: what lies wholly in its strip and was not stitched before. */
export interface FramePass {
  /** The strip's place down the quilt, mm. */
  readonly top: number
  readonly bottom: number
  /** What is stitched in it, and the seams in the strip that can be travelled. */
  readonly area: Required<Area>
}

/** How far a chord may leave the curve where only boxes are wanted, mm. */
const CHORD = 0.5
/** Rounding allowed before a piece counts as outside its strip, mm. */
const SLACK = 1e-6

/** A way to divide the work into passes. */
export interface PassCut {
  /**
   * `sectors`: sectors that fit the throat are not divided, so that less is stitched over and strips reach farther back;
   * `pieces`: strips hold as much as they can.
   */
  readonly by: 'sectors' | 'pieces'
  /** Pieces are taken from this part of the strip; over the rest of it the line may still travel. */
  readonly depth: number
  /** Strips below the middle lie as high as their pieces allow, so that strips of a symmetrical quilt mirror each other. */
  readonly mirrored?: true
}

/** The ways that are tried: where strips begin decides what can be joined in them. */
export const PASS_CUTS: readonly PassCut[] = [
  { by: 'sectors', depth: 1 },
  { by: 'sectors', depth: 0.92 },
  { by: 'sectors', depth: 0.85 },
  { by: 'sectors', depth: 0.85, mirrored: true },
  { by: 'pieces', depth: 1 },
]

/**
 * Divides the work into passes from top to bottom. A strip takes all that lies wholly in it, or in a part of it; the next
 * one begins where the first piece that is left begins, and no lower than the overlap asks.
 *
 * @throws PlanError `route/throat` if a piece is deeper than the throat
 */
export function framePasses(
  { pieces, net }: { pieces: Pieces; net: Net },
  frame: Frame,
  { by, depth, mirrored }: PassCut,
): FramePass[] {
  const boxes = edgeBoxes(pieces, net)
  const isRequired = (edge: number) =>
    edge < net.fills.length || net.seams[edge - net.fills.length]!.ditch !== undefined
  const edges = boxes.map((_, edge) => edge)
  const required = edges.filter(isRequired)
  refuseTooDeep(required, boxes, { pieces, frame })
  const unitBoxes =
    by === 'pieces' ? boxes : sectorWiseBoxes(boxes, { pieces, net, throat: depth * frame.throat })
  const deepest = Math.max(...required.map((edge) => boxes[edge]!.maxY - boxes[edge]!.minY))
  const throat = Math.max(depth * frame.throat, deepest)
  const used = { throat, overlap: Math.max(0, frame.overlap - (frame.throat - throat)) }
  const strips = stripsDown(required, unitBoxes, used)
  return (mirrored ? raiseLower(strips, boxes, frame) : strips).map(({ top, required }) => {
    const bottom = top + frame.throat
    const travel = edges.filter((edge) => !isRequired(edge) && isWithin(boxes[edge]!, top, bottom))
    return { top, bottom, area: { required, travel } }
  })
}

const isWithin = ({ minY, maxY }: Box, top: number, bottom: number): boolean =>
  minY >= top - SLACK && maxY <= bottom + SLACK

interface Strip {
  readonly top: number
  readonly required: readonly number[]
}

/** The strips, those below the middle as high as their pieces, the strip above and the overlap with the one below allow. */
function raiseLower(strips: readonly Strip[], boxes: readonly Box[], { throat, overlap }: Frame): Strip[] {
  const ends = strips.map(({ required }) => ({
    first: Math.min(...required.map((edge) => boxes[edge]!.minY)),
    last: Math.max(...required.map((edge) => boxes[edge]!.maxY)),
  }))
  const middle = (ends[0]!.first + Math.max(...ends.map(({ last }) => last))) / 2
  const raised = [...strips]
  for (let i = strips.length - 1; i > 0; i--) {
    const { first, last } = ends[i]!
    if ((first + last) / 2 <= middle) continue
    const below = raised[i + 1]?.top ?? Number.NEGATIVE_INFINITY
    const top = Math.max(last - throat, below + overlap - throat, strips[i - 1]!.top)
    raised[i] = { ...strips[i]!, top: Math.min(top, strips[i]!.top) }
  }
  return raised
}

function stripsDown(required: readonly number[], boxes: readonly Box[], { throat, overlap }: Frame): Strip[] {
  const strips: Strip[] = []
  let left = required
  let top = Math.min(...left.map((edge) => boxes[edge]!.minY))
  while (left.length > 0) {
    const isInside = (edge: number) => isWithin(boxes[edge]!, top, top + throat)
    const inside = left.filter(isInside)
    left = left.filter((edge) => !isInside(edge))
    if (inside.length > 0) strips.push({ top, required: inside })
    top = Math.min(top + throat - overlap, ...left.map((edge) => boxes[edge]!.minY))
  }
  return strips
}

/** The box of the whole sector for each required edge, where the sector fits the throat. */
function sectorWiseBoxes(
  boxes: readonly Box[],
  { pieces, net, throat }: { pieces: Pieces; net: Net; throat: number },
): Box[] {
  const sectorOf = [...pieces.pieces.map(({ sector }) => sector), ...net.seams.map(({ ditch }) => ditch)]
  const whole = pieces.sectors.map(() => NO_BOX)
  sectorOf.forEach((sector, edge) => {
    if (sector !== undefined) whole[sector] = unionOf(whole[sector]!, boxes[edge]!)
  })
  return boxes.map((box, edge) => {
    const sector = whole[sectorOf[edge] ?? -1]
    return sector && sector.maxY - sector.minY <= throat ? sector : box
  })
}

function edgeBoxes(pieces: Pieces, { seams, positions }: Net): Box[] {
  return [
    ...pieces.pieces.map(({ stroke }) => boundsOf(flattenStroke(stroke, CHORD))),
    ...seams.map((seam) => boundsOf(flattenStroke(seamCourse(seam, positions), CHORD))),
  ]
}

function refuseTooDeep(
  required: readonly number[],
  boxes: readonly Box[],
  { pieces, frame }: { pieces: Pieces; frame: Frame },
): void {
  const depthOf = (edge: number) => boxes[edge]!.maxY - boxes[edge]!.minY
  const deepest = required.reduce((worst, edge) => (depthOf(edge) > depthOf(worst) ? edge : worst), 0)
  if (required.length === 0 || depthOf(deepest) <= frame.throat) return
  const band = pieces.pieces[deepest]?.band
  throw new PlanError({
    code: 'route/throat',
    at: band === undefined ? 'machine.throat' : band < 0 ? 'centre' : `bands[${band}]`,
    message: `a piece of its line is ${Math.ceil(depthOf(deepest))} mm deep; the throat takes ${Math.floor(frame.throat)} mm`,
    hint: 'choose a filler with shorter repeats, or a deeper throat',
  })
}

/**
 * The fewest starts that any work by these passes needs: within a pass, what its own pieces and seams don't join needs a
 * start of its own; a pass can go on only from where the one before it ended.
 */
export function passStartsBound(passes: readonly FramePass[], net: Net): number {
  const parts = passes.map(({ area }) => partsOf([...area.required, ...area.travel], area.required, net))
  const starts = parts.reduce((sum, list) => sum + list.length, 0)
  const goesOn = parts.filter((list, i) => i > 0 && list.some((part) => meets(part, parts[i - 1]!)))
  return starts - goesOn.length
}

const meets = (part: ReadonlySet<number>, others: readonly ReadonlySet<number>[]): boolean =>
  others.some((other) => [...part].some((vertex) => other.has(vertex)))

/** The vertices of each connected part that holds required edges. */
function partsOf(edges: readonly number[], required: readonly number[], net: Net): Set<number>[] {
  const beside = new Map<number, number[]>()
  const endsOf = (edge: number) => net.fills[edge] ?? net.seams[edge - net.fills.length]!
  const join = (a: number, b: number) => beside.set(a, [...(beside.get(a) ?? []), b])
  for (const edge of edges) {
    const { u, v } = endsOf(edge)
    join(u, v)
    join(v, u)
  }
  const parts: Set<number>[] = []
  for (const edge of required) {
    const { u } = endsOf(edge)
    if (parts.some((part) => part.has(u))) continue
    const part = new Set([u])
    const open = [u]
    for (let x = open.pop(); x !== undefined; x = open.pop())
      for (const y of beside.get(x) ?? [])
        if (!part.has(y)) {
          part.add(y)
          open.push(y)
        }
    parts.push(part)
  }
  return parts
}
