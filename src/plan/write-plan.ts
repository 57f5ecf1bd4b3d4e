import { Document, isMap, type Node, visit, type YAMLMap, type YAMLSeq } from 'yaml'
import type { AvoidedRegion } from '../quilt/avoided-region.ts'
import { type LengthUnit, toUnit } from '../units.ts'
import { type Catalog, type Known, paramsOf } from './catalog.ts'
import { withDrawnMotifs } from './drawn-catalog.ts'
import { parseLength, roundLength } from './length.ts'
import { type BandPlan, type FabricColour, type FillerChoice, type Place, type Plan, SIDES } from './plan.ts'
import { isSetting } from './setting-bands.ts'
import { CENTRE_NAME } from './settle-ground.ts'
import { cornerNames, sideNames } from './settle-route.ts'

/** Writes lengths of one plan. */
interface Pen {
  readonly plan: Plan
  readonly catalog: Catalog
  length(mm: number): number | string
}

/**
 * Writes a plan as a plan file: every key, lengths in the plan's own units. Reading it gives the same plan.
 *
 * @param catalog  the one that the plan was read with: it tells which of a filler's values are lengths
 */
export function writePlan(plan: Plan, catalog: Catalog): string {
  const known = withDrawnMotifs(catalog, plan.motifs)
  const pen: Pen = { plan, catalog: known, length: (mm) => shortLength(mm, plan.units) }
  const document = new Document(fileOf(pen), { aliasDuplicateObjects: false })
  setFlow(document)
  return document.toString({ lineWidth: 110, flowCollectionPadding: true })
}

/** The shortest way to write a length: a number of the plan's unit, or in mm where that is shorter. */
function shortLength(mm: number, unit: LengthUnit): number | string {
  const number = shortNumber(mm, unit)
  const inMm = `${shortNumber(mm, 'mm')} mm`
  return String(number).length > Math.max(5, inMm.length) ? inMm : number
}

/** The shortest number of a unit that is read as this length. */
function shortNumber(mm: number, unit: LengthUnit): number {
  const exact = toUnit(mm, unit)
  const wanted = roundLength(mm)
  for (let figures = 1; figures < 17; figures++) {
    const short = Number(exact.toPrecision(figures))
    if (parseLength(short, unit) === wanted) return short
  }
  return exact
}

/** Keys of the plan stand one a line; a group or a band that is short enough stands in one line. */
function setFlow(document: Document): void {
  visit(document, {
    Map: (_, node, { length }) => (length > 1 ? flowIfShort(node) : undefined),
    Seq: (_, node) => flowIfShort(node),
  })
  if (!isMap(document.contents)) return
  const bands = document.contents.items.find((item) => String(item.key) === 'bands')
  if (bands) (bands.key as Node).spaceBefore = true
}

/** Characters of a group that still stands in one line. */
const ONE_LINE = 84

function flowIfShort(node: YAMLMap | YAMLSeq): symbol | undefined {
  if (JSON.stringify(node).length > ONE_LINE) return undefined
  node.flow = true
  return visit.SKIP
}

type Written = Readonly<Record<string, unknown>>

/** Without the keys that have nothing to say. */
const present = (group: Written): Written =>
  Object.fromEntries(Object.entries(group).filter(([, value]) => value !== undefined && !isEmpty(value)))

const isEmpty = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && Object.keys(value).length === 0

function fileOf(pen: Pen): Written {
  const { plan, length } = pen
  return present({
    title: plan.title,
    units: plan.units,
    centre: {
      ...centreSizeOf(pen),
      filler: centreFillerOf(pen),
      fabric: fabricOf(plan.centre.fabric),
    },
    bands: plan.bands.map((band) => bandOf(band, pen)),
    allOver: plan.allOver && fillerOf(plan.allOver, pen.catalog.centreFillers, pen),
    motifs: motifsOf(pen),
    binding: length(plan.binding),
    bindingFabric: plan.bindingFabric,
    machine: machineOf(pen),
    stitch: stitchOf(pen),
    thread: threadOf(pen),
    batting: battingOf(pen),
    spacing: plan.spacing,
    density: plan.density,
    route: routeOf(pen),
    avoid: plan.avoid.map((region) => regionOf(region, pen)),
    measured: measuredOf(pen),
    seed: plan.seed,
  })
}

const centreSizeOf = ({ plan: { centre }, length }: Pen): Written =>
  centre.across === undefined
    ? { width: length(centre.width), height: length(centre.height) }
    : { shape: centre.shape, across: length(centre.across) }

function fillerOf({ name, values, given }: FillerChoice, known: Known | undefined, { length }: Pen): unknown {
  if (given.length === 0) return name
  const params = paramsOf(known, name)
  const written = given.map((key) => {
    const value: number | string = values[key] ?? 0
    return [key, typeof value === 'number' && params[key]?.kind === 'length' ? length(value) : value]
  })
  return { [name]: Object.fromEntries(written) }
}

function centreFillerOf(pen: Pen): unknown {
  const { filler, auto } = pen.plan.centre
  if (auto) return 'auto'
  return filler ? fillerOf(filler, pen.catalog.centreFillers, pen) : 'none'
}

const motifsOf = ({ plan, length }: Pen): Written =>
  Object.fromEntries(
    plan.motifs.map(({ name, drawing, path, suits }) => [
      name,
      present({ drawing, path, suits: [length(suits.min), length(suits.max)] }),
    ]),
  )

const fabricOf = (fabric: readonly FabricColour[]): unknown =>
  fabric.length === 1 && fabric[0]?.share === 1 ? fabric[0].colour : fabric

const CORNERS = {
  mitred: 'mitred',
  cornerstone: 'cornerstone',
  'butted-rows': { butted: 'rows-first' },
  'butted-columns': { butted: 'columns-first' },
} as const

function bandOf(band: BandPlan, pen: Pen): Written {
  const { top, right, bottom, left } = band.width
  const isEven = top === right && top === bottom && top === left
  const width = Object.fromEntries(SIDES.map((side) => [side, pen.length(band.width[side])]))
  const motifs = pen.catalog.motifs as Known
  const sides = SIDES.flatMap((side) => {
    const own = band.sides[side]
    return own === undefined ? [] : [[side, own === 'none' ? own : fillerOf(own, motifs, pen)] as const]
  })
  return present({
    name: band.name,
    width: isSetting(band) ? undefined : isEven ? pen.length(top) : width,
    filler: bandFillerOf(band, pen),
    sides: Object.fromEntries(sides),
    fabric: fabricOf(band.fabric),
    corners: isSetting(band) ? undefined : CORNERS[band.corners],
    cornerstone: band.cornerstone,
    pieced: piecedOf(band, pen),
    thread: band.thread,
  })
}

function bandFillerOf({ filler, auto, pieced }: BandPlan, pen: Pen): unknown {
  if (auto) return 'auto'
  if (filler) return fillerOf(filler, pen.catalog.motifs as Known, pen)
  const byPatch = Object.entries(pieced?.fillers ?? {}).map(([patch, choice]) => [
    patch,
    fillerOf(choice, pen.catalog.patchFillers, pen),
  ])
  return byPatch.length > 0 ? Object.fromEntries(byPatch) : 'none'
}

const piecedOf = ({ pieced }: BandPlan, { length }: Pen): Written | undefined =>
  pieced &&
  present({
    unit: pieced.unit,
    size: pieced.size === undefined ? undefined : length(pieced.size),
    fabrics: pieced.fabrics,
    polygons: pieced.polygons,
  })

function machineOf({ plan: { machine }, length }: Pen): Written {
  const { kind, reach, throat, overlap, tightRadius, ...rates } = machine
  return present({
    kind,
    reach: reach.map(length),
    throat: throat === undefined ? undefined : length(throat),
    overlap: overlap === undefined ? undefined : length(overlap),
    ...rates,
    tightRadius: length(tightRadius),
  })
}

const stitchOf = ({ plan: { stitch }, length }: Pen): Written => ({
  length: length(stitch.length),
  chordTolerance: length(stitch.chordTolerance),
  tieOff: { count: stitch.tieOff.count, length: length(stitch.tieOff.length) },
})

const threadOf = ({ plan: { thread }, length }: Pen): Written =>
  present({
    tex: thread.tex,
    colour: thread.colour,
    bobbin: thread.bobbinClass ? { class: thread.bobbinClass } : `${thread.bobbinM} m`,
    spool: thread.spoolM === undefined ? undefined : `${thread.spoolM} m`,
    tail: length(thread.tail),
    waste: thread.waste,
    candidates: thread.candidates,
  })

const battingOf = ({ plan: { batting }, length }: Pen): Written => ({
  kind: batting.kind,
  limit: length(batting.limit),
  thickness: length(batting.thickness),
  shrinkage: batting.shrinkage,
})

const SEAM_WORDS = { ring: 'inside', corner: 'corners', patch: 'patches' } as const

function routeOf({ plan }: Pen): Written {
  const { route, bands } = plan
  const ditch = route.ditch.map(({ kind, band }) => ({ [SEAM_WORDS[kind]]: bands[band]?.name }))
  return {
    start: placeOf(route.start, plan),
    end: placeOf(route.end, plan),
    order: route.order,
    work: route.work,
    ditchOrder: route.ditchOrder,
    turning: route.turning,
    ditch: ditch.length > 0 ? ditch : 'none',
  }
}

function placeOf(place: Place, plan: Plan): unknown {
  if (place.kind === 'anywhere') return 'any'
  if (place.kind === 'corner') return cornerNames(plan)[place.corner]
  const band = plan.bands.findIndex(({ name }) => name === place.band)
  return { band: place.band, side: sideNames(plan, band)[place.side] }
}

const regionOf = (region: AvoidedRegion, { length }: Pen): Written => ({
  name: region.name,
  ...(region.kind === 'circle'
    ? { circle: { at: region.centre.map(length), radius: length(region.radius) } }
    : { polygon: region.points.map((point) => point.map(length)) }),
  outline: region.outline,
})

const measuredOf = ({ plan: { measured, bands }, length }: Pen): Written[] =>
  measured.map(({ band, across, down, diagonals }) =>
    present({
      band: band < 0 ? CENTRE_NAME : bands[band]?.name,
      across: across.map(length),
      down: down.map(length),
      diagonals: diagonals?.map(length),
    }),
  )
