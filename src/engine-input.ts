import type { Problem } from './error.ts'
import type { CentreFiller } from './motif/centre-contract.ts'
import type { Motif } from './motif/contract.ts'
import type { CornerMotif } from './motif/corner-contract.ts'
import type { Filler } from './motif/draw-stretch.ts'
import type { AllOver, AllOverWork } from './pieces/all-over.ts'
import type { BandFiller } from './pieces/band-filler.ts'
import type { CentreFill } from './pieces/centre-piece.ts'
import { asPatchFiller } from './pieces/patch-fillers/cornerstone.ts'
import { PATCH_FILLERS } from './pieces/patch-fillers/index.ts'
import type { Reach } from './pieces/pieces.ts'
import type { WantedPlace } from './pieces/place-vertex.ts'
import type { Wishes } from './pieces/plan-line.ts'
import type { Catalog } from './plan/catalog.ts'
import { withDrawnMotifs } from './plan/drawn-catalog.ts'
import {
  type BandPlan,
  type FabricColour,
  type FillerChoice,
  type Place,
  type Plan,
  SIDES,
} from './plan/plan.ts'
import { isSetting, outlineInside, SETTING_PATCH, SETTING_UNIT } from './plan/setting-bands.ts'
import { defaultValues } from './plan/settle-filler.ts'
import { diagnoseMeasured } from './quilt/diagnose-measured.ts'
import { layOutQuilt, type QuiltSize } from './quilt/layout.ts'
import { layOutMeasured } from './quilt/measured-layout.ts'
import { type Cornerstones, type Piecing, pieceBands, type SettingTriangles } from './quilt/pieced-band.ts'
import { drawnUnit, PIECED_UNITS, type PiecedUnit, patchNames } from './quilt/pieced-unit.ts'
import { type CentreShape, layOutPolygon, type PolygonSize } from './quilt/polygon-layout.ts'
import type { Quilt } from './quilt/quilt.ts'

/** What a plan says, as the engine takes it: names become motifs, units and fabrics. */

const UNITS: Readonly<Record<string, PiecedUnit>> = PIECED_UNITS

/** All that fills cloth, by name. */
interface Library {
  readonly motifs: Readonly<Record<string, Motif>>
  readonly centres: Readonly<Record<string, CentreFiller>>
  readonly corners: Readonly<Record<string, CornerMotif>>
}

/** All that a plan may name, for the fillers there are. */
export const catalogOf = ({ motifs, centres, corners }: Library): Catalog => ({
  motifs,
  centres,
  corners,
  centreFillers: centres,
  cornerMotifs: Object.keys(corners),
  patchFillers: PATCH_FILLERS,
  units: {
    ...Object.fromEntries(Object.entries(UNITS).map(([name, unit]) => [name, patchNames(unit)])),
    [SETTING_UNIT]: [SETTING_PATCH],
  },
})

/** The quilt laid out as planned, or as measured where the plan says what was measured; its pieced bands cut into patches. */
export function layOutPlan(plan: Plan): { readonly quilt: Quilt; readonly findings: readonly Problem[] } {
  const { quilt: whole, findings } = layOutStrips(plan)
  const piecings = plan.bands.map(piecingOf)
  const quilt = piecings.some((p) => p) ? pieceBands(whole, piecings) : whole
  return { quilt: plan.avoid.length > 0 ? { ...quilt, regions: plan.avoid } : quilt, findings }
}

/** The quilt before anything in its bands is pieced. */
function layOutStrips(plan: Plan): { readonly quilt: Quilt; readonly findings: readonly Problem[] } {
  const shape = shapeOf(plan)
  if (shape) return { quilt: layOutPolygon(polygonSizeOf(plan, shape)), findings: [] }
  const size = sizeOf(plan)
  if (plan.measured.length === 0) return { quilt: layOutQuilt(size), findings: [] }
  const quilt = layOutMeasured(size, plan.measured)
  return { quilt, findings: diagnoseMeasured(size, plan.measured, { quilt, unit: plan.units }) }
}

/** What the centre is if it is no upright rectangle. */
export function shapeOf({ centre: { shape, across = 0 } }: Plan): CentreShape | undefined {
  switch (shape) {
    case 'rectangle':
      return undefined
    case 'hexagon':
      return { kind: 'regular', sides: 6, across }
    case 'octagon':
      return { kind: 'regular', sides: 8, across }
    case 'on-point':
      return { kind: 'on-point', width: across, height: across }
  }
}

/** Sizes and fabrics of a quilt whose centre is no upright rectangle. */
export const polygonSizeOf = (plan: Plan, shape: CentreShape): PolygonSize => ({
  centre: { shape, fabric: mainColour(plan.centre.fabric) },
  bands: plan.bands.map((band, k) => ({
    ...band,
    // Round any other outline than a rectangle all sides are alike.
    width: outlineInside(plan, k) === 'rectangle' ? band.width : band.width.top,
    fabric: mainColour(band.fabric),
    isSetting: isSetting(band),
  })),
  binding: plan.binding,
})

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
export function piecingOf(
  band: BandPlan,
  index: number,
): Piecing | Cornerstones | SettingTriangles | undefined {
  const { pieced, corners } = band
  if (isSetting(band)) return { triangleFabric: pieced?.fabrics[SETTING_PATCH] }
  if (!pieced)
    return hasOwnStrips(band) && corners === 'cornerstone' ? { cornerstoneFabric: undefined } : undefined
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

/** Whether a band's strips and cornerstones are filled each by itself. */
const hasOwnStrips = ({ sides, cornerstone }: BandPlan): boolean =>
  Object.keys(sides).length > 0 || cornerstone !== undefined

/** What fills each band: a motif along it, fillers by strip or by patch, or nothing. */
export function fillersOf(plan: Plan, known: Catalog): (BandFiller | undefined)[] {
  const catalog = withDrawnMotifs(known, plan.motifs)
  return plan.bands.map((band) => {
    const byPatch = Object.entries(band.pieced?.fillers ?? {})
    if (byPatch.length > 0) {
      const fill = ({ name, values }: FillerChoice) => ({ name, filler: PATCH_FILLERS[name]!, values })
      return { patches: Object.fromEntries(byPatch.map(([patch, choice]) => [patch, fill(choice)])) }
    }
    if (hasOwnStrips(band) && !band.pieced) return stripFillers(band, catalog)
    return band.filler && asFiller(band.filler, catalog)
  })
}

const asFiller = ({ name, values }: FillerChoice, { motifs }: Catalog): Filler => ({
  name,
  motif: motifs[name]!,
  values,
})

/** A filler for each strip, clockwise from the top, and the motif in the cornerstones. */
function stripFillers(band: BandPlan, catalog: Catalog): BandFiller {
  const strips = SIDES.map((side) => {
    const own = band.sides[side] ?? band.filler
    return own === undefined || own === 'none' ? undefined : asFiller(own, catalog)
  })
  const motif = band.cornerstone === undefined ? undefined : catalog.corners?.[band.cornerstone]
  if (!motif) return { strips }
  return { strips, cornerstone: { name: band.cornerstone!, filler: asPatchFiller(motif), values: {} } }
}

/** What fills the centre, if anything does. */
export function centreFillOf({ centre }: Plan, { centres }: Catalog): CentreFill | undefined {
  const filler = centre.filler && centres?.[centre.filler.name]
  if (!centre.filler || !filler) return undefined
  const usual = defaultValues(filler.params, centre.across ?? Math.min(centre.width, centre.height))
  return { filler, values: { ...usual, ...centre.filler.values } }
}

/** The filler that goes over the whole quilt, if one does: what it has in the centre, and of a strip's values the rest. */
export function allOverOf({ allOver, centre }: Plan, { motifs, centres }: Catalog): AllOver | undefined {
  const motif = allOver && motifs[allOver.name]
  if (!allOver || !motif) return undefined
  const least = Math.min(centre.width, centre.height)
  const usual = {
    ...defaultValues(motif.params, least),
    ...defaultValues(centres?.[allOver.name]?.params ?? {}, least),
  }
  const values = { ...usual, ...allOver.values }
  const apart = motif.closeness === undefined ? undefined : values[motif.closeness]
  // What is round and irregular may sway, so that no rows show; lines and shells stay straight.
  const isRound = centres?.[allOver.name]?.joints === 'smooth'
  const sway = isRound && typeof apart === 'number' ? apart : undefined
  return { name: allOver.name, motif, values, sway }
}

/** How an all-over is divided: within reach, or on a frame into strips that the throat takes. */
export function allOverWorkOf({ machine, route, seed }: Plan): AllOverWork {
  const { throat, overlap = 0, reach } = machine
  const part: Reach = throat === undefined ? reach : [Number.POSITIVE_INFINITY, throat - overlap]
  return { part, corner: route.start.kind === 'corner' ? route.start.corner : 0, seed }
}

/**
 * What is stitched without moving the quilt, mm. On a frame the carriage goes as far as it likes along a strip; stretches
 * down the quilt are at most half the throat long, so that strips need not overlap much.
 */
export const reachOf = ({ machine }: Plan): Reach =>
  machine.throat === undefined ? machine.reach : [machine.throat, machine.throat / 2]

/** The colours of the threads that bands have of their own, if they are not the quilt's. */
export const bandThreads = ({ bands, thread: { colour } }: Plan): (string | undefined)[] =>
  bands.map(({ thread }) => (thread === colour ? undefined : thread))

/** How wide the comfortable directions of the line spread, radians. */
export const sectorOf = ({ machine }: Plan): number => (machine.sector * Math.PI) / 180

/** What the plan asks of the line's way. */
export function wishesOf(plan: Plan): Wishes {
  const { start, end, order, work, ditch, ditchOrder, turning } = plan.route
  const { throat, overlap } = plan.machine
  const frame = throat !== undefined && overlap !== undefined ? { throat, overlap } : undefined
  return {
    start: wantedPlace(start, plan),
    end: wantedPlace(end, plan),
    order,
    work,
    ditch,
    ditchOrder,
    ...(turning > 0 && { turning: { sector: sectorOf(plan), weight: turning } }),
    ...(frame && { frame }),
  }
}

const wantedPlace = (place: Place, { bands }: Plan): WantedPlace =>
  place.kind === 'side' ? { ...place, band: bands.findIndex(({ name }) => name === place.band) } : place
