import { PlanError } from '../../error.ts'
import { type Affine, applyAffine, compose, scaling } from '../../geometry/affine.ts'
import type { Point } from '../../geometry/point.ts'
import { type Box, boundsOf, flattenStroke, type Stroke, strokeThrough } from '../../geometry/stroke.ts'
import type { PartKind } from '../../stitch/line.ts'
import { type LengthUnit, MM_PER } from '../../units.ts'
import type { Drawing } from '../drawing.ts'
import { type PieceOfLine, piecesOfLine, piecesOfStitches } from './line-pieces.ts'
import type { TableValues } from './path-options.ts'
import { cornersOf, placement } from './placement.ts'
import { type Arcs, slimStroke } from './slim-stroke.ts'

/** A stretch of a thread's path in one band and one area. Lines and arcs only, in the file's unit and axes. */
export interface PathRun {
  readonly kind: PartKind | 'bounds'
  readonly band: number | undefined
  readonly area: number
  readonly stroke: Stroke
}

/** What a machine is to follow, in the file's unit and axes. */
export interface MachinePath {
  readonly units: 'mm' | 'in'
  /** One entry a thread start; each run starts where the one before it ended. */
  readonly threads: readonly (readonly PathRun[])[]
  /** The CSS colour of each thread. */
  readonly colours: readonly string[]
  /** The box round all of it, in the file's unit. */
  readonly box: Box
  /** False for the run round the bounds with the needle up. */
  readonly needleDown: boolean
}

/** The unit of a file's coordinates. */
export const pathUnits = (choice: TableValues['units'], plan: LengthUnit): 'mm' | 'in' =>
  choice !== 'plan' ? choice : plan === 'in' ? 'in' : 'mm'

/**
 * The drawing's line as a machine is to follow it: placed, in the file's unit, with as few points as the deviation
 * allows. The points of the file, rounded as they are, stray from the line by at most `deviation`.
 *
 * @throws PlanError `export/no-line`, `export/no-stitches`, `export/deviation-below-rounding`, `export/too-many-points`
 */
export function machinePath(drawing: Drawing, values: TableValues, arcs: Arcs): MachinePath {
  const units = pathUnits(values.units, drawing.units)
  const budget = deviationLeft(values, units)
  const fine = drawing.lines.flatMap((l) => l.parts.flatMap((p) => flattenStroke(p.stroke, 0.01)))
  if (fine.length < 2)
    throw new PlanError({ code: 'export/no-line', at: '', message: 'there is no line to export' })
  const onTable = compose(
    placement(values.box === 'quilt' ? drawing.quilt.edge : fine, values),
    scaling(1 / MM_PER[units]),
  )
  const box = boundsOf(fine.map((p) => applyAffine(onTable, p)))
  if (values.run === 'bounds')
    return { units, box, threads: [[boundsRun(box)]], colours: ['#888888'], needleDown: false }
  const sewn = sewnThreads(drawing, values)
  const needs = { budget, arcs, points: values.points }
  const threads = sewn.map(({ pieces }) => pieces.map((piece) => place(piece, onTable, needs)))
  refuseTooMany(threads, values, drawing)
  return { units, box, threads, colours: sewn.map((s) => s.colour), needleDown: true }
}

interface SewnThread {
  readonly colour: string
  readonly pieces: readonly PieceOfLine[]
}

/** The threads that have any length. */
function sewnThreads(drawing: Drawing, values: TableValues): SewnThread[] {
  const { lines, stitches } = drawing
  const byStitch = values.points === 'stitches'
  if (byStitch && stitches?.length !== lines.length)
    throw new PlanError({
      code: 'export/no-stitches',
      at: 'points',
      message: 'points are to be stitches, but this drawing has no stitches',
    })
  return lines
    .map((line, i) => ({
      colour: line.thread,
      pieces: byStitch ? piecesOfStitches(line, stitches![i]!) : piecesOfLine(line),
    }))
    .filter(({ pieces }) => pieces.length > 0)
}

interface PlaceNeeds {
  readonly budget: number
  readonly arcs: Arcs
  readonly points: TableValues['points']
}

function place(piece: PieceOfLine, onTable: Affine, needs: PlaceNeeds): PathRun {
  const deviation = needs.points === 'stitches' ? 0 : needs.budget
  return { ...piece, stroke: slimStroke(piece.stroke, onTable, { deviation, arcs: needs.arcs }) }
}

/** Round the box, back to where it began. */
function boundsRun(box: Box): PathRun {
  const corners = cornersOf(box)
  return {
    kind: 'bounds',
    band: undefined,
    area: 0,
    stroke: strokeThrough([...corners, corners[0] as Point]),
  }
}

/** What rounding leaves of the deviation asked for, mm. */
function deviationLeft(values: TableValues, units: 'mm' | 'in'): number {
  const rounding = Math.SQRT1_2 * 10 ** -values.decimals * MM_PER[units]
  const left = values.deviation - rounding
  if (left >= values.deviation / 4) return left
  throw new PlanError({
    code: 'export/deviation-below-rounding',
    at: 'deviation',
    message: `a deviation of ${values.deviation} mm can't be kept with ${values.decimals} decimals in ${units}`,
    hint: 'give more decimals or a larger deviation',
  })
}

/** How many points a file of these threads has. */
const pointCount = (threads: MachinePath['threads']): number =>
  threads.reduce((sum, runs) => sum + 1 + runs.reduce((n, run) => n + run.stroke.segments.length, 0), 0)

function refuseTooMany(threads: MachinePath['threads'], values: TableValues, drawing: Drawing): void {
  const count = pointCount(threads)
  if (values.maxPoints === 0 || count <= values.maxPoints) return
  const split = drawing.passes && drawing.passes.length > 1 ? ', or write one file a frame pass' : ''
  throw new PlanError({
    code: 'export/too-many-points',
    at: 'maxPoints',
    message: `the path needs ${count} points at a deviation of ${values.deviation} mm; allowed: ${values.maxPoints}`,
    hint: `allow a larger deviation or more points${split}`,
  })
}
