import { add, distance, dot, lerp, type Point, scale, subtract } from '../geometry/point.ts'
import { footOnOuter } from './layout.ts'
import { clockwise } from './outline.ts'
import type { Patch } from './patch.ts'
import { patchSeams } from './patch-seams.ts'
import type { PiecedUnit } from './pieced-unit.ts'
import type { Band, Quilt, Seam, Side } from './quilt.ts'

/** How a band is pieced. */
export interface Piecing {
  readonly unit: PiecedUnit
  /** Finished size of a unit across the band, mm; left out: the band's width. Several rows where the band is wider. */
  readonly size?: number
  /** A CSS colour for each patch name, and for `cornerstone`. What is not named has the band's own fabric. */
  readonly fabrics: Readonly<Record<string, string>>
  /** What lies in the corners: units, or one plain patch named `cornerstone`. */
  readonly corners: 'unit' | 'cornerstone'
}

/** A band in whole strips with a plain patch, named `cornerstone`, in each corner. */
export interface Cornerstones {
  /** A CSS colour; left out: the band's own fabric. */
  readonly cornerstoneFabric: string | undefined
}

/** Four triangles on the sides of an outline on point, named `triangle`. */
export interface SettingTriangles {
  /** A CSS colour; left out: the band's own fabric. */
  readonly triangleFabric: string | undefined
}

type AnyPiecing = Piecing | Cornerstones | SettingTriangles

/**
 * Cuts bands into the patches that they are pieced of. Seams between patches join the quilt's seams, in place of the
 * band's own corner seams.
 *
 * @param piecings  by the band's index; undefined leaves the band in whole strips
 */
export function pieceBands(quilt: Quilt, piecings: readonly (AnyPiecing | undefined)[]): Quilt {
  const patches: Patch[] = [...(quilt.patches ?? [])]
  const seams: Seam[] = []
  for (const band of quilt.bands) {
    const piecing = piecings[band.index]
    if (!piecing) continue
    const from = patches.length
    for (const patch of patchesIn(band, piecing)) patches.push(patch)
    const added = patches.slice(from)
    const numbered = added.map((patch, i) => ({ patch, number: from + i }))
    seams.push(...patchSeams(numbered, [quilt.rings[band.index]!, quilt.rings[band.index + 1]!]))
  }
  const kept = quilt.seams.filter((seam) => seam.kind !== 'corner' || !piecings[seam.index])
  return { ...quilt, patches, seams: [...kept, ...seams] }
}

function patchesIn(band: Band, piecing: AnyPiecing): Patch[] {
  if ('unit' in piecing) return patchesOf(band, piecing)
  return 'triangleFabric' in piecing ? trianglesOf(band, piecing) : cornerstonesOf(band, piecing)
}

/** How many units a pieced band has: rows across it, and along each side between its corners. */
export interface UnitCount {
  readonly rows: number
  readonly along: readonly number[]
}

/** The whole number of units that comes closest to the unit's size on each side of a band. */
export function countUnits(band: Band, { unit, size }: Piecing): UnitCount {
  const quads = band.sides.map(stripOf)
  const width = mean(quads.map(([a, b, c, d]) => (distance(a, d) + distance(b, c)) / 2))
  const rows = size === undefined ? 1 : Math.max(1, Math.round(width / size))
  const length = unit.aspect * (size ?? width)
  const along = quads.map(([a, b, c, d]) =>
    Math.max(1, Math.round((distance(a, b) + distance(d, c)) / 2 / length)),
  )
  return { rows, along }
}

const mean = (values: readonly number[]): number => values.reduce((sum, x) => sum + x, 0) / values.length

/** A four-sided place for units: along the inner seam, then back along the outer one. */
type Quad = readonly [Point, Point, Point, Point]

/** A side without its corners. */
const stripOf = (side: Side): Quad => [
  side.innerA,
  side.innerB,
  footOnOuter(side.innerB, side),
  footOnOuter(side.innerA, side),
]

/** The corner where a side begins. */
const cornerOf = (side: Side, before: Side): Quad => [
  side.innerA,
  footOnOuter(side.innerA, side),
  side.outerA,
  footOnOuter(side.innerA, before),
]

function patchesOf(band: Band, piecing: Piecing): Patch[] {
  const { rows, along } = countUnits(band, piecing)
  // Units take turns all the way round where there are units in the corners too.
  const isRunning = piecing.corners === 'unit'
  const afterCorner = piecing.unit.rotates ? 0 : 1
  let first = 0
  return band.sides.flatMap((side, s) => {
    const corner = cornerOf(side, band.sides.at(s - 1)!)
    const start = isRunning ? first : 0
    first += along[s]! + afterCorner
    const place: Place = { band, piecing, side: s }
    return [
      ...(piecing.corners === 'unit'
        ? setUnits(corner, { columns: rows, rows, first: start }, place)
        : [patchAt(corner, 'cornerstone', place)]),
      ...setUnits(stripOf(side), { columns: along[s]!, rows, first: start + afterCorner }, place),
    ]
  })
}

function cornerstonesOf(band: Band, { cornerstoneFabric }: Cornerstones): Patch[] {
  const fabrics = cornerstoneFabric === undefined ? {} : { cornerstone: cornerstoneFabric }
  return band.sides.map((side, s) =>
    patchAt(cornerOf(side, band.sides.at(s - 1)!), 'cornerstone', { band, piecing: { fabrics }, side: s }),
  )
}

/** A triangle lies at the corner where its side of the bands outside begins. */
function trianglesOf(band: Band, { triangleFabric }: SettingTriangles): Patch[] {
  const fabrics = triangleFabric === undefined ? {} : { triangle: triangleFabric }
  return band.sides.map(({ innerA, innerB, outerA, outerB }, side) => ({
    ...patchAt([innerA, lerp(outerA, outerB, 0.5), innerB], 'triangle', { band, piecing: { fabrics }, side }),
    alongOuter: -1,
  }))
}

interface Setting {
  readonly band: Band
  readonly piecing: Pick<Piecing, 'fabrics'>
  readonly side: number
}

interface Place extends Setting {
  readonly piecing: Piecing
}

/** Sets units in columns and rows; `first` is the count of units before this place, so that turns go on. */
function setUnits(
  quad: Quad,
  { columns, rows, first }: { columns: number; rows: number; first: number },
  place: Place,
): Patch[] {
  const { turns } = place.piecing.unit
  const patches: Patch[] = []
  for (let column = 0; column < columns; column++) {
    for (let row = 0; row < rows; row++) {
      const count = first + column + row
      for (const { name, outline } of turns[count % turns.length]!) {
        const points = outline.map(([x, y]) => pointIn(quad, [(column + x) / columns, (row + y) / rows]))
        patches.push(patchAt(points, name, place))
      }
    }
  }
  return patches
}

/** Where a place in the unit square lies in a four-sided one: evenly along and across. */
function pointIn([a, b, c, d]: Quad, [x, y]: Point): Point {
  return lerp(lerp(a, b, x), lerp(d, c, x), y)
}

function patchAt(points: readonly Point[], name: string, { band, piecing, side }: Setting): Patch {
  const fabric = piecing.fabrics[name] ?? band.fabric
  const along = placeAlong(points, band.sides[side]!)
  return { band: band.index, side, name, fabric, outline: clockwise(points), along }
}

function placeAlong(points: readonly Point[], { innerA, innerB }: Side): number {
  const middle = scale(
    points.reduce((sum: Point, p) => add(sum, p), [0, 0]),
    1 / points.length,
  )
  const along = subtract(innerB, innerA)
  return (2 * dot(subtract(middle, innerA), along)) / dot(along, along) - 1
}
