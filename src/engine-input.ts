import type { Problem } from './error.ts'
import type { Motif } from './motif/contract.ts'
import type { Filler } from './motif/draw-stretch.ts'
import type { BandFiller } from './pieces/band-filler.ts'
import { PATCH_FILLERS } from './pieces/patch-fillers/index.ts'
import type { Reach } from './pieces/pieces.ts'
import type { WantedPlace } from './pieces/place-vertex.ts'
import type { Wishes } from './pieces/plan-line.ts'
import type { Catalog } from './plan/catalog.ts'
import type { BandPlan, FabricColour, FillerChoice, Place, Plan } from './plan/plan.ts'
import { diagnoseMeasured } from './quilt/diagnose-measured.ts'
import { layOutQuilt, type QuiltSize } from './quilt/layout.ts'
import { layOutMeasured } from './quilt/measured-layout.ts'
import { type Piecing, pieceBands } from './quilt/pieced-band.ts'
import { drawnUnit, PIECED_UNITS, type PiecedUnit, patchNames } from './quilt/pieced-unit.ts'
import type { Quilt } from './quilt/quilt.ts'

/** What a plan says, as the engine takes it: names become motifs, units and fabrics. */

const UNITS: Readonly<Record<string, PiecedUnit>> = PIECED_UNITS

/** All that a plan may name, for the motifs there are. */
export const catalogOf = (motifs: Readonly<Record<string, Motif>>): Catalog => ({
  motifs,
  patchFillers: PATCH_FILLERS,
  units: Object.fromEntries(Object.entries(UNITS).map(([name, unit]) => [name, patchNames(unit)])),
})

/** The quilt laid out as planned, or as measured where the plan says what was measured; its pieced bands cut into patches. */
export function layOutPlan(plan: Plan): { readonly quilt: Quilt; readonly findings: readonly Problem[] } {
  const size = sizeOf(plan)
  const whole = plan.measured.length > 0 ? layOutMeasured(size, plan.measured) : layOutQuilt(size)
  const findings =
    plan.measured.length > 0 ? diagnoseMeasured(size, plan.measured, { quilt: whole, unit: plan.units }) : []
  const piecings = plan.bands.map(piecingOf)
  return { quilt: piecings.some((p) => p) ? pieceBands(whole, piecings) : whole, findings }
}

/** Sizes and fabrics alone. */
export const sizeOf = (plan: Plan): QuiltSize => ({
  centre: { width: plan.centre.width, height: plan.centre.height, fabric: mainColour(plan.centre.fabric) },
  bands: plan.bands.map((band) => ({ ...band, fabric: mainColour(band.fabric) })),
  binding: plan.binding,
})

/** The colour that has the greatest share. */
const mainColour = (fabric: readonly FabricColour[]): string =>
  fabric.reduce((most, colour) => (colour.share > most.share ? colour : most)).colour

/** How a band is pieced, if it is. */
export function piecingOf({ pieced, corners }: BandPlan, index: number): Piecing | undefined {
  if (!pieced) return undefined
  const unit = pieced.polygons
    ? drawnUnit(
        pieced.polygons.map(({ name, points }) => ({ name, outline: points })),
        `bands[${index}].pieced.polygons`,
      )
    : UNITS[pieced.unit]!
  return {
    unit,
    ...(pieced.size !== undefined && { size: pieced.size }),
    fabrics: pieced.fabrics,
    corners: corners === 'cornerstone' ? 'cornerstone' : 'unit',
  }
}

/** What fills each band: a motif along it, fillers by patch, or nothing. */
export function fillersOf(plan: Plan, motifs: Readonly<Record<string, Motif>>): (BandFiller | undefined)[] {
  const along = ({ name, values }: FillerChoice): Filler => ({ name, motif: motifs[name]!, values })
  return plan.bands.map(({ filler, pieced }) => {
    const byPatch = Object.entries(pieced?.fillers ?? {})
    if (byPatch.length === 0) return filler && along(filler)
    return {
      patches: Object.fromEntries(
        byPatch.map(([patch, { name, values }]) => [patch, { name, filler: PATCH_FILLERS[name]!, values }]),
      ),
    }
  })
}

/**
 * What is stitched without moving the quilt, mm. On a frame the carriage goes as far as it likes along a strip; stretches
 * down the quilt are at most half the throat long, so that strips need not overlap much.
 */
export const reachOf = ({ machine }: Plan): Reach =>
  machine.throat === undefined ? machine.reach : [machine.throat, machine.throat / 2]

/** What the plan asks of the line's way. */
export function wishesOf(plan: Plan): Wishes {
  const { start, end, order, work, ditch } = plan.route
  const { throat, overlap } = plan.machine
  const frame = throat !== undefined && overlap !== undefined ? { throat, overlap } : undefined
  return {
    start: wantedPlace(start, plan),
    end: wantedPlace(end, plan),
    order,
    work,
    ditch,
    ...(frame && { frame }),
  }
}

const wantedPlace = (place: Place, { bands }: Plan): WantedPlace =>
  place.kind === 'side' ? { ...place, band: bands.findIndex(({ name }) => name === place.band) } : place
