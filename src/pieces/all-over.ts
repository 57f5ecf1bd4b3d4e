import { type Affine, compose } from '../geometry/affine.ts'
import { distance, type Point } from '../geometry/point.ts'
import { type Quad, strokeOntoQuad } from '../geometry/quad.ts'
import { type Stroke, transformStroke } from '../geometry/stroke.ts'
import { warpStroke } from '../geometry/warp.ts'
import type { Edge, Motif, Params, ValuesOf } from '../motif/contract.ts'
import type { Quilt } from '../quilt/quilt.ts'
import type { Piece, Pieces, Reach } from './pieces.ts'
import { mostSway, swayIn } from './sway.ts'

/** One filler over the whole quilt, as the motif that fills a strip of it. */
export interface AllOver {
  readonly name: string
  readonly motif: Motif
  readonly values: ValuesOf<Params>
  /** The distance between lines by which its rows sway, mm; undefined: they stay straight. */
  readonly sway: number | undefined
}

/** How the work is divided. */
export interface AllOverWork {
  /** Width and height of a part, at most, mm. On a frame the width is without end. */
  readonly part: Reach
  /** The corner in which the line starts, clockwise from the top left. */
  readonly corner: number
  readonly seed: number
}

/**
 * Covers the quilt with one filler in one line, whatever its bands are. It is worked part by part, each within reach: rows
 * of parts there and back, so that the line leaves every part where the next one begins and the quilt is moved once a
 * part.
 *
 * Precondition: the quilt has four corners; the motif begins and ends freely.
 */
export function allOverPieces(quilt: Quilt, fill: AllOver, work: AllOverWork): Pieces {
  const ring = quilt.rings.at(-1)! as readonly [Point, Point, Point, Point]
  const [a, b, c, d] = ring
  const size: Point = [(distance(a, b) + distance(d, c)) / 2, (distance(a, d) + distance(b, c)) / 2]
  const grid = bestGrid(size, fill, work.part)
  const swayed = swayer(size, fill)
  const place = placer(ring, size)
  const toCorner = flip(size, work.corner)
  const pieces = partsOf(grid, { isOnGrid: fill.sway === undefined }).map((part, sector): Piece => {
    const drawn = swayed(
      transformStroke(drawPart(part, { ...fill, grid, seed: work.seed + sector }), toCorner),
    )
    return { band: -1, sector, stroke: place(drawn), startRing: undefined, endRing: undefined }
  })
  return {
    groups: [{ first: 0, count: 0, pieced: [] }],
    sectors: pieces.map(() => ({ group: 0, side: 0 })),
    pieces,
    stretches: [],
    ditched: [],
    fits: [],
  }
}

/** Rows of parts. Rows lie one below the other, or side by side if `isUpright`. */
interface PartGrid {
  readonly rows: number
  readonly columns: number
  readonly isUpright: boolean
  /** Length and width of a part as a strip, mm. */
  readonly length: number
  readonly width: number
  /** Repeats in a part. */
  readonly repeats: number
}

/** So many more rows or columns than are needed are tried, for parts that the motif fits better. */
const MORE = 2
/** How much a part more is worth in stretching, as a logarithm. */
const STRETCH = 0.3
/** Rows of an even number of parts join less well: what that is worth, as a share of the parts. */
const EVEN = 0.2
/** Rows are no wider, mm: a motif that fills a strip has so many turns at most. */
const WIDEST = 400

function bestGrid(size: Point, fill: AllOver, part: Reach): PartGrid {
  const spare = SPARE + (fill.sway === undefined ? 0 : 2 * mostSway(fill.sway))
  const ways = Number.isFinite(part[0]) ? [false, true] : [false]
  const grids = ways.flatMap((isUpright) => {
    const [along, across] = isUpright ? [size[1], size[0]] : size
    const [longest, widest] = (isUpright ? [part[1], part[0]] : part).map((side) => side - spare) as [
      number,
      number,
    ]
    const [columns, rows] = [fewest(along, longest), fewest(across, Math.min(widest, WIDEST))]
    return upTo(MORE).flatMap((more) =>
      upTo(MORE).map((wider) => {
        const grid = { rows: rows + more, columns: columns + wider, isUpright }
        const [length, width] = [along / grid.columns, across / grid.rows]
        return { ...grid, length, width, repeats: repeatsIn(length, width, fill) }
      }),
    )
  })
  const least = Math.min(...grids.map(({ rows, columns }) => rows * columns))
  const costs = grids.map((grid) => {
    const { rows, columns, length, width, repeats } = grid
    const stretch = Math.abs(Math.log(length / (repeats * fill.motif.repeat(width, fill.values))))
    return (
      (rows * columns) / least + stretch / STRETCH + (fill.sway === undefined && columns % 2 === 0 ? EVEN : 0)
    )
  })
  return grids[costs.indexOf(Math.min(...costs))]!
}

const upTo = (most: number): number[] => Array.from({ length: most + 1 }, (_, i) => i)

/** A part fits its reach with this to spare, mm. */
const SPARE = 0.5
/** Parts are no smaller, however little is within reach, mm. */
const LEAST = 50

const fewest = (length: number, longest: number): number =>
  Number.isFinite(longest) ? Math.max(1, Math.ceil(length / Math.max(longest, LEAST))) : 1

const repeatsIn = (length: number, width: number, { motif, values }: AllOver): number =>
  Math.max(1, Math.round(length / motif.repeat(width, values)))

/** A part's place in its grid, and the edges of its strip on which the line enters and leaves it. */
interface Part {
  readonly row: number
  readonly column: number
  readonly isBack: boolean
  readonly from: Edge
  readonly to: Edge
}

/**
 * The parts in the order of work: there and back, each row begun beside the end of the one before. What is laid out on a
 * grid leads across every part from one edge to the other, so that all parts are alike and join without a seam; in a row of
 * an even number the last part alone leads back. What sways keeps to one edge and crosses at the end of a row.
 */
function partsOf({ rows, columns }: PartGrid, { isOnGrid }: { isOnGrid: boolean }): Part[] {
  return Array.from({ length: rows * columns }, (_, i) => {
    const row = Math.floor(i / columns)
    const isBack = row % 2 === 1
    const place = i % columns
    return {
      row,
      column: isBack ? columns - 1 - place : place,
      isBack,
      from: isOnGrid && place % 2 === 1 ? 'outer' : 'inner',
      to: place === columns - 1 || (isOnGrid && place % 2 === 0) ? 'outer' : 'inner',
    }
  })
}

function drawPart(
  { row, column, isBack, from, to }: Part,
  { motif, values, grid, seed }: AllOver & { grid: PartGrid; seed: number },
): Stroke {
  const { length, width, repeats, isUpright } = grid
  const strip = {
    length,
    width,
    repeats,
    from,
    to,
    mirrorStart: false,
    mirrorEnd: false,
    seed,
  } as const
  const { stroke } = motif.draw(strip, values)
  const along: Affine = isBack
    ? { a: -1, b: 0, c: 0, d: 1, e: (column + 1) * length, f: row * width }
    : { a: 1, b: 0, c: 0, d: 1, e: column * length, f: row * width }
  return transformStroke(stroke, isUpright ? compose(along, SWAP) : along)
}

/** Rows become columns. */
const SWAP: Affine = { a: 0, b: 1, c: 1, d: 0, e: 0, f: 0 }

/** Mirrors the rectangle so that its top left corner comes to another one, clockwise. */
function flip([width, height]: Point, corner: number): Affine {
  const [isRight, isLow] = [corner === 1 || corner === 2, corner >= 2]
  return { a: isRight ? -1 : 1, b: 0, c: 0, d: isLow ? -1 : 1, e: isRight ? width : 0, f: isLow ? height : 0 }
}

/** Lets strokes sway, if the filler does. */
function swayer(size: Point, { sway }: AllOver): (stroke: Stroke) => Stroke {
  if (sway === undefined) return (stroke) => stroke
  const warp = swayIn(size, sway)
  return (stroke) => warpStroke(stroke, warp).stroke
}

/** Lays the rectangle on the quilt. */
const placer =
  (quad: Quad, [width, height]: Point) =>
  (stroke: Stroke): Stroke =>
    strokeOntoQuad(stroke, { quad, width, height })
