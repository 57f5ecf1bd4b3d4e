import { distance, type Point } from '../geometry/point.ts'
import type { CentreFiller } from '../motif/centre-contract.ts'
import type { Filler } from '../motif/draw-stretch.ts'
import { PATCH_FILLERS } from '../pieces/patch-fillers/index.ts'
import { incircle } from '../pieces/patch-fillers/patch-shape.ts'
import type { Catalog } from '../plan/catalog.ts'
import { type BandPlan, type FillerChoice, type Plan, SIDES } from '../plan/plan.ts'
import { CENTRE_NAME } from '../plan/settle-ground.ts'
import { outlineArea } from '../quilt/outline.ts'
import type { Patch } from '../quilt/patch.ts'
import type { Quilt, Side } from '../quilt/quilt.ts'
import type { Steps } from './close-values.ts'
import { Measure, type Measured, type Sample, together } from './measure.ts'
import { optionsOf } from './options.ts'
import { sampleCentre, samplePatch, sampleStrip } from './sample-fills.ts'
import type { Ground, Option, Slot } from './slot.ts'

/** What the slots of a plan are listed from. */
export interface Survey {
  readonly plan: Plan
  readonly quilt: Quilt
  readonly catalog: Catalog
}

/** The centre, if it is stitched, and all bands from the inside out, each with its slots and every way to fill them. */
export const surveyGrounds = (survey: Survey): Ground[] =>
  survey.plan.allOver
    ? allOverGround(survey, survey.plan.allOver)
    : [...centreGround(survey), ...survey.plan.bands.map((band, index) => bandGround(survey, band, index))]

/** How finely the values of a filler are tried; not at all where fillers keep their own. */
const stepsFor = ({ spacing }: Plan, isAuto: boolean): Steps | undefined =>
  spacing === 'own' ? undefined : isAuto ? 'coarse' : 'fine'

/** What stands for the whole quilt where one filler goes over it. */
export const ALL_OVER = 'all over'

/** A filler of which nothing is given. */
const bare = (name: string): FillerChoice => ({ name, values: {}, given: [] })

/* One filler over all. */

function allOverGround(survey: Survey, filler: FillerChoice): Ground[] {
  const ring = survey.quilt.rings.at(-1)!
  const size: Point = [survey.quilt.widthMm, survey.quilt.heightMm]
  return [rectangleGround(survey, { at: ALL_OVER, ring, size, filler })]
}

/* The centre. */

function centreGround(survey: Survey): Ground[] {
  const { centre } = survey.plan
  if (!centre.auto && !centre.filler) return []
  const filler = centre.auto ? undefined : centre.filler
  // A square on point is filled as a square by its sides.
  const { across, shape } = centre
  const size: Point = across && shape === 'on-point' ? [across, across] : [centre.width, centre.height]
  return [rectangleGround(survey, { at: CENTRE_NAME, ring: survey.quilt.rings[0]!, size, filler })]
}

/** What a filler for the centre fills. */
interface Rectangle {
  readonly at: string
  readonly ring: readonly Point[]
  /** mm */
  readonly size: Point
  /** Undefined: to be chosen. */
  readonly filler: FillerChoice | undefined
}

function rectangleGround({ plan, catalog }: Survey, { at, ring, size, filler }: Rectangle): Ground {
  const { centres = {} } = catalog
  const areaMm2 = Math.abs(outlineArea(ring))
  const least = Math.min(...size)
  const able = Object.keys(centres).filter(
    (name) => centres[name]!.suitsFrom <= least && canFill(centres[name]!, ring),
  )
  const options = (filler ? [filler] : able.map(bare)).flatMap((chosen): Option[] => {
    const known = centres[chosen.name]
    if (!known) return []
    const measure = (values: FillerChoice['values']) =>
      measured(catalog, `centre ${chosen.name} ${JSON.stringify(values)} ${size.join(' ')}`, () =>
        sampleCentre({ filler: known, values }, size),
      )
    const { units, batting } = plan
    const steps = stepsFor(plan, !filler)
    return optionsOf({
      known,
      filler: chosen,
      width: least,
      units,
      limit: batting.limit,
      steps,
      measure,
    })
  })
  const slot: Slot = { kind: 'centre', part: '', areaMm2, widths: [least], isAuto: !filler, options }
  return { at, band: -1, areaMm2, slots: [slot] }
}

/** Whether a filler fills a centre of that outline: any fills four corners. */
const canFill = (filler: CentreFiller, { length }: readonly Point[]): boolean =>
  length === 4 || filler.fillOutline !== undefined

/* The bands. */

function bandGround(survey: Survey, band: BandPlan, index: number): Ground {
  const { rings, bands } = survey.quilt
  const areaMm2 = Math.abs(outlineArea(rings[index + 1]!)) - Math.abs(outlineArea(rings[index]!))
  const byPatch = band.pieced && (band.auto || Object.keys(band.pieced.fillers).length > 0)
  const slots = byPatch ? patchSlots(survey, band, index) : stripSlots(survey, band, bands[index]!.sides)
  return { at: band.name, band: index, areaMm2, slots }
}

/** A slot for the band's own filler, and one for each side that has another. */
function stripSlots(survey: Survey, band: BandPlan, sides: readonly Side[]): Slot[] {
  const mean = SIDES.reduce((sum, side) => sum + band.width[side], 0) / SIDES.length
  // Round any other outline than a rectangle all sides are alike.
  const alike = sides.length === SIDES.length ? 1 : sides.length / SIDES.length
  const strips = SIDES.map((side, i) => ({
    side,
    width: band.width[side],
    areaMm2: alike * sideArea(sides[i % sides.length]!),
  }))
  const main = strips.filter(({ side }) => band.sides[side] === undefined)
  const own = strips.flatMap((strip) => {
    const filler = band.sides[strip.side]
    return filler === undefined || filler === 'none' ? [] : [{ ...strip, filler }]
  })
  return [
    ...(main.length > 0 && (band.filler || band.auto)
      ? [stripSlot(survey, { strips: main, filler: band.filler, mean, part: '' })]
      : []),
    ...own.map((strip) =>
      stripSlot(survey, { strips: [strip], filler: strip.filler, mean: strip.width, part: strip.side }),
    ),
  ]
}

const sideArea = ({ innerA, innerB, outerA, outerB }: Side): number =>
  Math.abs(outlineArea([innerA, outerA, outerB, innerB]))

interface Strips {
  readonly strips: readonly { readonly width: number; readonly areaMm2: number }[]
  /** Undefined: to be chosen. */
  readonly filler: FillerChoice | undefined
  /** The width that decides defaults, mm. */
  readonly mean: number
  readonly part: string
}

function stripSlot({ plan, catalog }: Survey, { strips, filler, mean, part }: Strips): Slot {
  const { motifs } = catalog
  const widths = [...new Set(strips.map(({ width }) => width))]
  const fillers = filler ? [filler] : suiting(catalog, Math.min(...widths)).map(bare)
  const options = fillers.flatMap((chosen): Option[] => {
    const motif = motifs[chosen.name]!
    const measure = (values: FillerChoice['values']) =>
      together(
        strips.map(({ width, areaMm2 }) => ({
          areaMm2,
          measure: measured(catalog, `${chosen.name} ${JSON.stringify(values)} ${width}`, () =>
            stripWithSqueezed({ name: chosen.name, motif, values }, width),
          ),
        })),
      )
    const steps = stepsFor(plan, !filler)
    return optionsOf({
      known: motif,
      filler: chosen,
      width: mean,
      units: plan.units,
      limit: plan.batting.limit,
      steps,
      measure,
    })
  })
  return {
    kind: part === '' ? 'band' : 'side',
    part,
    areaMm2: strips.reduce((sum, strip) => sum + strip.areaMm2, 0),
    widths,
    isAuto: !filler,
    options,
  }
}

/** The length of a repeat, over its nominal one, in a stretch that squeezes it. */
const SQUEEZED = 0.8

const stripWithSqueezed = (filler: Filler, width: number): Sample => ({
  ...sampleStrip(filler, width),
  squeezed: () => sampleStrip(filler, width, SQUEEZED).strokes,
})

/** Widths this close to a limit are within it, mm. */
const SLACK = 1e-6

/** The motifs that a strip so wide is not too narrow for. @param narrowest  mm */
const suiting = ({ motifs }: Catalog, narrowest: number): string[] =>
  Object.keys(motifs).filter((name) => motifs[name]!.suits.min <= narrowest + SLACK)

/* Patches. */

/** A slot for the patches of each name that is filled, or is to be. */
function patchSlots(survey: Survey, band: BandPlan, index: number): Slot[] {
  const patches = (survey.quilt.patches ?? []).filter((patch) => patch.band === index)
  const names = [...new Set(patches.map(({ name }) => name))]
  return names.flatMap((name) => {
    const filler = band.pieced?.fillers[name]
    if (!filler && !band.auto) return []
    return [patchSlot(survey, { name, filler, patches: patches.filter((patch) => patch.name === name) })]
  })
}

interface Patches {
  readonly name: string
  /** Undefined: to be chosen. */
  readonly filler: FillerChoice | undefined
  readonly patches: readonly Patch[]
}

function patchSlot({ plan, catalog }: Survey, { name, filler, patches }: Patches): Slot {
  const outlines = typicalOutlines(patches)
  const width = 2 * Math.max(...outlines.map((outline) => incircle(outline).radius))
  const options = (filler ? [filler] : CHOSEN_PATCH_FILLERS.map(bare)).flatMap((chosen): Option[] => {
    const known = PATCH_FILLERS[chosen.name]!
    const fill = { name: chosen.name, filler: known }
    const measure = (values: FillerChoice['values']) =>
      together(
        outlines.map((outline) => ({
          areaMm2: Math.abs(outlineArea(outline)),
          measure: measured(catalog, `patch ${chosen.name} ${JSON.stringify(values)} ${outline.join()}`, () =>
            samplePatch({ ...fill, values }, outline),
          ),
        })),
      )
    return optionsOf({
      known,
      filler: chosen,
      width,
      units: plan.units,
      limit: plan.batting.limit,
      steps: stepsFor(plan, !filler),
      measure,
    })
  })
  const areaMm2 = patches.reduce((sum, { outline }) => sum + Math.abs(outlineArea(outline)), 0)
  return { kind: 'patch', part: name, areaMm2, widths: [width], isAuto: !filler, options }
}

/** The fillers that may be chosen for patches: the ditch alone is left to those who ask for it. */
const CHOSEN_PATCH_FILLERS = Object.keys(PATCH_FILLERS).filter((name) => !PATCH_FILLERS[name]!.ditch)

/** The outline that most patches share, and that of the largest, each about the origin. */
function typicalOutlines(patches: readonly Patch[]): (readonly Point[])[] {
  const shapes = new Map<string, { readonly outline: readonly Point[]; count: number }>()
  for (const { outline } of patches) {
    const [x, y] = outline[0]!
    const moved = outline.map((p): Point => [round(p[0] - x), round(p[1] - y)])
    const key = sidesOf(moved).join()
    const known = shapes.get(key)
    if (known) known.count++
    else shapes.set(key, { outline: moved, count: 1 })
  }
  const all = [...shapes.values()]
  const most = all.reduce((best, next) => (next.count > best.count ? next : best))
  const areaOf = ({ outline }: { outline: readonly Point[] }) => Math.abs(outlineArea(outline))
  const largest = all.reduce((best, next) => (areaOf(next) > 1.01 * areaOf(best) ? next : best))
  return [...new Set([most, largest])].map(({ outline }) => outline)
}

const round = (mm: number): number => Math.round(mm * 1e3) / 1e3
const sidesOf = (outline: readonly Point[]): string[] =>
  outline.map((p, i) => distance(p, outline[(i + 1) % outline.length]!).toFixed(1))

/* Measures that were taken before are kept with the catalog: the same filler in the same width comes again and again. */

const KEPT = 20_000
const measures = new WeakMap<Catalog, Map<string, Measured>>()

function measured(catalog: Catalog, key: string, sample: () => Sample): Measured {
  const known = measures.get(catalog) ?? new Map<string, Measured>()
  measures.set(catalog, known)
  const measure = known.get(key) ?? new Measure(sample())
  if (known.size > KEPT) known.clear()
  known.set(key, measure)
  return measure
}
