import { lerp, type Point } from '../geometry/point.ts'
import { type Box, boundsOf, flattenStroke } from '../geometry/stroke.ts'
import type { Area } from '../route/index.ts'
import { fitsWithin, NO_BOX, unionOf } from './box.ts'
import { type Net, seamCourse } from './net.ts'
import { MOVES_CHORD, pieceChords } from './piece-chords.ts'
import type { Pieces, Reach } from './pieces.ts'

/**
 * Areas in the order of work, each a list of the route's required edges: pieces, and seams stitched in the ditch. Where
 * bands are pieced, also the seams that can be travelled meanwhile.
 */
export type AreaOrder = readonly (readonly number[] | Area)[]

/** The full form of an area. */
export const asArea = (area: AreaOrder[number]): Area => ('required' in area ? area : { required: area })

type Chains = readonly (readonly Point[])[]

/** With more sectors than this, work begins at corners only, then at one of them: where exactly then hardly matters. */
const MANY = 48
const VERY_MANY = 200
/** So it does with many pieces, as where patches are filled; with more of them only one direction is tried. */
const MANY_PIECES = 3000
const VERY_MANY_PIECES = 5000

/** Which bands come first: whichever is cheaper, the inner ones, or the outer ones. */
export type Direction = 'any' | 'middle-out' | 'outside-in'

/**
 * Orders of work worth trying: group after group from the middle outward or from the outside in, each once round the
 * quilt, beginning at a corner or at the middle of a side. An area is a sector, or several within reach of each other.
 *
 * @param pieces      what is stitched
 * @param net         where it meets
 * @param work        how it may be worked
 * @param work.reach   mm; if left out, every sector is an area
 * @param work.chords  the pieces' chords, if they are at hand
 */
export function areaOrders(
  pieces: Pieces,
  net: Net,
  { direction = 'any', reach, chords }: { direction?: Direction; reach?: Reach; chords?: Chains } = {},
): AreaOrder[] {
  const bySector = edgesBySector(pieces, net)
  const rings = sectorsByGroup(pieces).map((ring) => ring.filter((sector) => bySector[sector]!.length > 0))
  const begins = beginnings(pieces, rings)
  const areaOf = areaMaker(bySector, net)
  const boxes = reach ? sectorBoxes(pieces, net, chords ?? pieceChords(pieces)) : []
  const joined = (ring: readonly number[]) =>
    reach ? joinWithin(ring, boxes, reach) : ring.map((sector) => [sector])
  const oneWay = pieces.pieces.length > VERY_MANY_PIECES && direction === 'any' ? 'middle-out' : direction
  const ways = waysThrough(
    rings.map((_, group) => group),
    oneWay,
  )
  const step = stepThrough(pieces, begins.length)
  const tried = begins.filter((_, i) => i % step === 0)
  return ways.flatMap((groups) =>
    tried.map((begin) => groups.flatMap((g) => joined(rotate(rings[g]!, begin[g]!)).map(areaOf))),
  )
}

/** Of so many beginnings one is tried. */
function stepThrough({ sectors, pieces }: Pieces, beginnings: number): number {
  if (sectors.length > VERY_MANY || pieces.length > MANY_PIECES) return beginnings
  return sectors.length > MANY ? 2 : 1
}

/** Makes areas of sectors; the same sectors give the same area. */
function areaMaker(bySector: readonly (readonly number[])[], net: Net) {
  const made = new Map<string, readonly number[] | Area>()
  const withTravel = travelAdder(net)
  return (sectors: readonly number[]) => {
    const key = sectors.join()
    const area = made.get(key) ?? withTravel(sectors.flatMap((sector) => bySector[sector]!))
    made.set(key, area)
    return area
  }
}

/** Neighbouring sectors joined, also round a corner, while all that is stitched in them lies within reach. */
function joinWithin(sectors: readonly number[], boxes: readonly Box[], reach: Reach): number[][] {
  const areas: { sectors: number[]; box: Box }[] = []
  for (const sector of sectors) {
    const last = areas.at(-1)
    const box = last ? unionOf(last.box, boxes[sector]!) : boxes[sector]!
    if (last && fitsWithin(box, reach)) {
      last.sectors.push(sector)
      last.box = box
    } else areas.push({ sectors: [sector], box })
  }
  return areas.map((area) => area.sectors)
}

/** The box of all that is stitched in each sector. */
function sectorBoxes(pieces: Pieces, net: Net, chords: Chains): Box[] {
  const boxes = pieces.sectors.map(() => NO_BOX)
  pieces.pieces.forEach(({ sector }, i) => {
    boxes[sector] = unionOf(boxes[sector]!, boundsOf(chords[i]!))
  })
  for (const seam of net.seams)
    if (seam.ditch !== undefined)
      boxes[seam.ditch] = unionOf(
        boxes[seam.ditch]!,
        boundsOf(flattenStroke(seamCourse(seam, net.positions), MOVES_CHORD)),
      )
  return boxes
}

/** Numbers from the inside out in the orders that a direction allows. */
export function waysThrough(outward: readonly number[], direction: Direction): number[][] {
  const inward = [...outward].reverse()
  if (direction === 'middle-out') return [[...outward]]
  if (direction === 'outside-in') return [inward]
  return outward.length > 1 ? [[...outward], inward] : [[...outward]]
}

function edgesBySector(pieces: Pieces, { fills, seams }: Net): number[][] {
  const lists: number[][] = pieces.sectors.map(() => [])
  pieces.pieces.forEach((piece, index) => {
    lists[piece.sector]!.push(index)
  })
  seams.forEach(({ ditch }, index) => {
    if (ditch !== undefined) lists[ditch]!.push(fills.length + index)
  })
  return lists
}

/** How far beyond an area's own stitching the seams of patches may be travelled, mm. */
const BEYOND = 60

/**
 * Adds to each area the seams that can be travelled: those round and across the bands, and of the many between patches
 * the ones near the area. Without patches all seams can be travelled.
 */
function travelAdder(net: Net): (required: readonly number[]) => readonly number[] | Area {
  const { always, inner } = seamsForTravel(net)
  return (required) => {
    const box = inner.length > 0 ? boxOf(required, net) : undefined
    if (!box) return required
    const own = new Set(required)
    const near = inner.filter(({ middle }) => isNear(middle, box)).map(({ edge }) => edge)
    return { required, travel: [...always, ...near].filter((edge) => !own.has(edge)) }
  }
}

/** The seams round and across the bands, and those between patches with their middles. */
function seamsForTravel({ fills, seams, positions }: Net) {
  const always: number[] = []
  const inner: { edge: number; middle: Point }[] = []
  seams.forEach(({ u, v, patch, corner }, i) => {
    const edge = fills.length + i
    if (patch === undefined || corner !== undefined) always.push(edge)
    else inner.push({ edge, middle: lerp(positions[u]!, positions[v]!, 0.5) })
  })
  return { always, inner }
}

function boxOf(required: readonly number[], { fills, seams, positions }: Net): Box | undefined {
  if (required.length === 0) return undefined
  return boundsOf(
    required.flatMap((e) => {
      const { u, v } = fills[e] ?? seams[e - fills.length]!
      return [positions[u]!, positions[v]!]
    }),
  )
}

function isNear([x, y]: Point, box: Box): boolean {
  const [across, down] = [Math.max(box.minX - x, x - box.maxX), Math.max(box.minY - y, y - box.maxY)]
  return across < BEYOND && down < BEYOND
}

function sectorsByGroup(pieces: Pieces): number[][] {
  const rings: number[][] = pieces.groups.map(() => [])
  pieces.sectors.forEach((sector, index) => rings[sector.group]!.push(index))
  return rings
}

/** For each corner and each side's middle: how far round each group's ring it lies, in sectors. */
function beginnings(pieces: Pieces, rings: readonly (readonly number[])[]): number[][] {
  const sides = [...new Set(pieces.sectors.map((s) => s.side))]
  const corner = (ring: readonly number[], side: number) =>
    ring.findIndex((s) => pieces.sectors[s]!.side === side)
  const middle = (ring: readonly number[], side: number) =>
    corner(ring, side) + ring.filter((s) => pieces.sectors[s]!.side === side).length / 2
  const { setting = Number.POSITIVE_INFINITY } = pieces
  const isOuter = (group: number) => pieces.groups[group]!.first > setting
  // An outline on point stands with its corners on the middles of the sides of the upright one round it.
  const turned = (side: number) => [
    rings.map((ring, group) => (isOuter(group) ? middle(ring, (side + 3) % 4) : corner(ring, side))),
  ]
  return sides.flatMap((side) => [
    rings.map((ring) => corner(ring, side)),
    rings.map((ring) => middle(ring, side)),
    ...(pieces.setting === undefined ? [] : turned(side)),
  ])
}

const rotate = <T>(list: readonly T[], by: number): T[] => [...list.slice(by), ...list.slice(0, by)]
