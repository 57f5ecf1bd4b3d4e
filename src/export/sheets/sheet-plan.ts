import { PlanError } from '../../error.ts'
import { isLineIn } from './cut-line.ts'
import { fewestSheets, type LineSamples, sampleLine } from './fewest-sheets.ts'
import { LONGEST_PAGE, landscape, type Paper } from './paper.ts'
import {
  movedTilings,
  ownOf,
  type Place,
  placesOf,
  sheetName,
  type Tiling,
  tilingFor,
  windowOf,
} from './tiling.ts'
import type { Tracing } from './tracing.ts'

/** How the sheets lie over a tracing, and which of them have something on them. */
export interface SheetPlan {
  readonly tiling: Tiling
  /** The sheets to print, row by row. */
  readonly places: readonly Place[]
}

/** What is asked of the sheets. */
export interface SheetWishes {
  /** A roll's height is its length: as long as the drawing needs. */
  readonly paper: Paper | { readonly roll: number }
  readonly orientation: 'fewest' | 'portrait' | 'landscape'
  readonly margin: number
  readonly overlap: number
}

/**
 * Cuts a tracing into sheets; those without a line on their own part are left out, and the grid is moved about over the
 * drawing where that leaves out more. `fewest` takes the orientation that
 * needs fewer sheets, portrait if both need the same.
 *
 * @throws PlanError `export/sheet-too-small` if margins and overlap leave no room
 */
export function planSheets(tracing: Tracing, wishes: SheetWishes): SheetPlan {
  const sheets = sheetChoices(tracing, wishes)
  const samples = sampleLine(tracing.lines)
  const plans = sheets.map((sheet) => planOn(tracing, samples, { ...wishes, sheet }))
  return plans.reduce(fewer)
}

/** Sheets of one size are compared by number, rolls by paper used. */
const areaOf = ({ places, tiling }: SheetPlan): number =>
  Math.round(places.length * tiling.sheet.width * tiling.sheet.height)

function sheetChoices(tracing: Tracing, { paper, orientation, margin }: SheetWishes): Paper[] {
  const { box } = tracing
  const length = (needed: number) => Math.min(LONGEST_PAGE, needed + 2 * margin)
  const upright: Paper = 'roll' in paper ? { width: paper.roll, height: length(box.maxY - box.minY) } : paper
  const level: Paper =
    'roll' in paper ? { width: length(box.maxX - box.minX), height: paper.roll } : landscape(paper)
  if (orientation === 'portrait') return [upright]
  if (orientation === 'landscape') return [level]
  return [upright, level]
}

function planOn(
  tracing: Tracing,
  samples: LineSamples,
  layout: Pick<Tiling, 'sheet' | 'margin' | 'overlap'>,
): SheetPlan {
  const window = windowOf(layout)
  if (Math.min(window.width, window.height) < layout.overlap * 2 + 20)
    throw new PlanError({
      code: 'export/sheet-too-small',
      at: 'margin',
      message: `a margin of ${layout.margin} mm and an overlap of ${layout.overlap} mm leave no room on a sheet of ${layout.sheet.width} x ${layout.sheet.height} mm`,
    })
  const centred = tilingFor(tracing.box, layout)
  const moved = fewestSheets(samples, movedTilings(centred, tracing.box))
  return [centred, moved].map((tiling) => planWith(tracing, tiling)).reduce(fewer)
}

const fewer = (a: SheetPlan, b: SheetPlan): SheetPlan => (areaOf(b) < areaOf(a) ? b : a)

function planWith(tracing: Tracing, tiling: Tiling): SheetPlan {
  const places = placesOf(tiling).filter((place) => {
    const own = ownOf(tiling, place)
    return tracing.lines.some((line) => isLineIn(line, own))
  })
  return { tiling, places }
}

/** The names of the sheets to print. */
export const sheetNames = (plan: SheetPlan): Set<string> => new Set(plan.places.map(sheetName))
