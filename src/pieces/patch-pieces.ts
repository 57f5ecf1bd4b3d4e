import { translation } from '../geometry/affine.ts'
import type { Point } from '../geometry/point.ts'
import { type Stroke, transformStroke } from '../geometry/stroke.ts'
import type { Patch } from '../quilt/patch.ts'
import { PointGrid } from '../quilt/point-grid.ts'
import type { Quilt } from '../quilt/quilt.ts'
import { type BandFiller, type PatchFillers, patchFillersOf } from './band-filler.ts'
import { fillPatch, type PatchFill } from './patch-fillers/contract.ts'

/** The fill of a patch, if it has one. */
export const fillOf = (patch: Patch, { patches }: PatchFillers): PatchFill | undefined => patches[patch.name]

/** By the number of the patch; undefined where nothing is stitched. */
export type PatchStrokes = readonly (readonly Stroke[] | undefined)[]

/** The strokes in all patches that are filled, drawn side after side round each band. */
export function patchStrokes(
  { patches = [], bands }: Quilt,
  fillers: readonly (BandFiller | undefined)[],
): PatchStrokes {
  const strokes: (readonly Stroke[] | undefined)[] = patches.map(() => undefined)
  const inTurn = [...patches.entries()].sort(([, a], [, b]) => a.side - b.side)
  const works = bands.map(() => new PatchWork())
  for (const [number, patch] of inTurn) {
    const own = patchFillersOf(fillers[patch.band])
    const fill = own && fillOf(patch, own)
    if (fill) strokes[number] = works[patch.band]!.strokesIn(patch, fill)
  }
  return strokes
}

/** Corners closer together than this are one, mm. */
const SAME_CORNER = 0.01
/** Side of the squares in which corners are kept, mm. */
const CELL = 20

/**
 * Fills the patches of a band one after the other. A filler that leads from corner to corner begins at the corner that
 * joins it best to what is filled already, so that patches are stitched in a row with little travel.
 */
class PatchWork {
  readonly #grid = new PointGrid(SAME_CORNER, CELL)
  /** How many strokes end at each corner. */
  readonly #ends: number[] = []
  readonly #leads = new Map<string, readonly number[]>()
  readonly #strokes = new Map<string, readonly Stroke[]>()

  strokesIn({ outline }: Patch, fill: PatchFill): readonly Stroke[] {
    const shape = shapeOf(outline, fill)
    const across = this.#across(shape, { outline, fill })
    const first = across ? this.#bestStart(outline, across) : 0
    const home = translation(...outline[first]!)
    const strokes = this.#drawn({ shape, first }, { outline, fill }).map((stroke) =>
      transformStroke(stroke, home),
    )
    for (const { start, segments } of strokes) {
      this.#count(start)
      this.#count(segments.at(-1)!.to)
    }
    return strokes
  }

  #across(shape: string, { outline, fill }: Filling): readonly number[] | undefined {
    if (!fill.filler.leadsTo) return undefined
    const known = this.#leads.get(shape) ?? fill.filler.leadsTo(outline)
    this.#leads.set(shape, known)
    return known
  }

  /** The strokes seen from the first corner: the same for all patches of one shape. */
  #drawn({ shape, first }: { shape: string; first: number }, { outline, fill }: Filling): readonly Stroke[] {
    const key = `${first} ${shape}`
    const [x, y] = outline[first]!
    const known =
      this.#strokes.get(key) ??
      fillPatch(
        fill,
        rotate(outline, first).map((p) => [p[0] - x, p[1] - y]),
      )
    this.#strokes.set(key, known)
    return known
  }

  #count(p: Point): void {
    const corner = this.#grid.numberAt(p)
    this.#ends[corner] = (this.#ends[corner] ?? 0) + 1
  }

  #bestStart(outline: readonly Point[], across: readonly number[]): number {
    const gain = outline.map((p) => this.#gainAt(p))
    const total = across.map((last, first) => gain[first]! + gain[last]!)
    return total.indexOf(Math.max(...total))
  }

  /** An open end is closed: best; a corner that is in use is joined: good. */
  #gainAt(p: Point): number {
    const corner = this.#grid.find(p)
    const ends = corner === undefined ? 0 : (this.#ends[corner] ?? 0)
    if (ends === 0) return 0
    return ends % 2 === 1 ? 3 : 1
  }
}

interface Filling {
  readonly outline: readonly Point[]
  readonly fill: PatchFill
}

/** The same for patches that differ by a shift only, to a thousandth of a mm, and are filled alike. */
function shapeOf(outline: readonly Point[], { name, values }: PatchFill): string {
  const [x, y] = outline[0]!
  const corners = outline.map((p) => `${Math.round((p[0] - x) * 1e3)} ${Math.round((p[1] - y) * 1e3)}`)
  return `${name} ${JSON.stringify(values)} ${corners.join()}`
}

const rotate = (outline: readonly Point[], by: number): Point[] => [
  ...outline.slice(by),
  ...outline.slice(0, by),
]
