import { DENSITY } from './choose/weigh.ts'
import { centreFillOf, fillersOf, piecingOf, sizeOf } from './engine-input.ts'
import type { Problem } from './error.ts'
import { distance, type Point, TOLERANCE } from './geometry/point.ts'
import { strokeLength } from './geometry/stroke.ts'
import type { Filler } from './motif/draw-stretch.ts'
import { alongOn, type BandFiller, isByPatch } from './pieces/band-filler.ts'
import type { CentreFill } from './pieces/centre-piece.ts'
import { fillPatch, type PatchFill } from './pieces/patch-fillers/contract.ts'
import type { Catalog } from './plan/catalog.ts'
import { LIMITS } from './plan/limits.ts'
import type { Plan } from './plan/plan.ts'
import { defaultValues } from './plan/settle-filler.ts'
import { layOutQuilt } from './quilt/layout.ts'
import { countUnits, type Piecing } from './quilt/pieced-band.ts'
import type { Band } from './quilt/quilt.ts'
import { heightAt } from './quilt/side-height.ts'

/** What a part of a quilt takes, told before it is laid out. */
interface Estimate {
  /** The place in the plan that decides it. */
  readonly at: string
  /** Length of its line, mm. */
  readonly line: number
  readonly patches: number
}

/**
 * Refuses a plan whose line or patches would not fit into memory, before anything is drawn. Lengths are reckoned from
 * one repeat of each filler, which comes within a fifth of what is drawn later.
 */
export function refuseTooMuch(plan: Plan, catalog: Catalog): Problem[] {
  const bands = layOutQuilt(sizeOf(plan)).bands
  const counts = bands.map((band) => patchesIn(band, plan))
  const patched = counts.map((patches, i) => ({ at: `bands[${i}].pieced`, line: 0, patches }))
  const many = overLimit(patched, { most: LIMITS.allPatches, of: 'patches' })
  if (many) return [many]
  const fillers = fillersOf(plan, catalog)
  const lines = bands.map((band, i) => ({
    at: `bands[${i}].filler`,
    line: plan.bands[i]!.auto ? chosenLine(band, plan) : lineIn(band, { filler: fillers[i], plan }),
    patches: 0,
  }))
  const centre = plan.allOver
    ? { at: 'allOver', line: allOverLine(plan, catalog), patches: 0 }
    : { at: 'centre.filler', line: centreLine(plan, catalog), patches: 0 }
  const long = overLimit([centre, ...lines], { most: LIMITS.line, of: 'line' })
  return long ? [long] : []
}

/** The whole against what is allowed: the greatest part is named. */
function overLimit(
  parts: readonly Estimate[],
  { most, of }: { most: number; of: 'line' | 'patches' },
): Problem | undefined {
  const whole = parts.reduce((sum, part) => sum + part[of], 0)
  if (whole <= most) return undefined
  const worst = parts.reduce((a, b) => (b[of] > a[of] ? b : a))
  const say = (value: number) =>
    of === 'line' ? `${round(value / 1e6)} km of line` : `${round(value).toLocaleString('en')} patches`
  return {
    code: of === 'line' ? 'plan/too-much-line' : 'plan/too-many-patches',
    at: worst.at,
    message: `the quilt takes about ${say(whole)}, ${say(worst[of])} of it here; allowed: at most ${say(most)}`,
    hint: of === 'line' ? 'a larger spacing or repeat takes less' : 'larger units are fewer',
  }
}

/** Two figures: an estimate is no better. */
const round = (value: number): number => Number(value.toPrecision(2))

function patchesIn(band: Band, plan: Plan): number {
  const piecing = piecingOf(plan.bands[band.index]!, band.index)
  return piecing && 'unit' in piecing ? unitsIn(band, piecing) * piecing.unit.turns[0]!.length : 0
}

function unitsIn(band: Band, piecing: Piecing): number {
  const { rows, along } = countUnits(band, piecing)
  return rows * along.reduce((sum, count) => sum + count + rows, 0)
}

function lineIn(band: Band, { filler, plan }: { filler: BandFiller | undefined; plan: Plan }): number {
  const piecing = piecingOf(plan.bands[band.index]!, band.index)
  const reach = Math.min(...plan.machine.reach)
  if (isByPatch(filler))
    return piecing && 'unit' in piecing
      ? linePerUnit(band, piecing, filler.patches) * unitsIn(band, piecing)
      : 0
  const perMm = linesPerMm(reach)
  return band.sides.reduce((sum, side, s) => {
    const along = alongOn(filler, s)
    const length = (distance(side.innerA, side.innerB) + distance(side.outerA, side.outerB)) / 2
    return along ? sum + length * perMm(along, widthOf(band, s)) : sum
  }, 0)
}

/** Length of line for each mm along sides; those of a width and a filler share one repeat. */
function linesPerMm(reach: number): (filler: Filler, width: number) => number {
  const known: { filler: Filler; width: number; perMm: number }[] = []
  return (filler, width) => {
    const alike = known.find((k) => k.filler === filler && Math.abs(k.width - width) < TOLERANCE)
    if (alike) return alike.perMm
    const perMm = linePerMm(filler, { width, reach })
    known.push({ filler, width, perMm })
    return perMm
  }
}

/** Length of line in a band whose filler is chosen later: what the plan's density stands for. */
const chosenLine = ({ sides }: Band, { density }: Plan): number =>
  sides.reduce((sum, side, s) => {
    const length = (distance(side.innerA, side.innerB) + distance(side.outerA, side.outerB)) / 2
    return sum + DENSITY[density] * length * widthOf({ sides }, s)
  }, 0)

const widthOf = ({ sides }: Pick<Band, 'sides'>, s: number): number =>
  (heightAt(sides[s]!, 'outerA') + heightAt(sides[s]!, 'outerB')) / 2

/** A filler that ends freely is drawn at least once in each stretch, which is so long a part of the reach. */
const SHORTEST = 0.4

/** Length of line for each mm along a band: that of one repeat. */
function linePerMm({ motif, values }: Filler, { width, reach }: { width: number; reach: number }): number {
  const repeat = motif.repeat(width, values)
  const length = motif.ends === 'free' ? Math.min(repeat, SHORTEST * reach) : repeat
  const ends = { from: 'inner', to: 'inner', mirrorStart: false, mirrorEnd: false, seed: 0 } as const
  const { stroke } = motif.draw({ length, width, repeats: 1, ...ends }, values)
  return strokeLength(stroke) / length
}

/** Length of line in one unit of a pieced band, mm. */
function linePerUnit(
  band: Band,
  { unit, size }: Piecing,
  fills: Readonly<Record<string, PatchFill | undefined>>,
): number {
  const across = size ?? widthOf(band, 0)
  const lengths = unit.turns[0]!.map(({ name, outline }) => {
    const fill = fills[name]
    const corners = outline.map(([x, y]) => [x * unit.aspect * across, y * across] as const)
    return fill ? fillPatch(fill, corners).reduce((sum, stroke) => sum + strokeLength(stroke), 0) : 0
  })
  return lengths.reduce((sum, length) => sum + length, 0)
}

/** So large a part of the centre tells how dense its filler is, mm. */
const SAMPLE = 600

function centreLine(plan: Plan, catalog: Catalog): number {
  const fill = centreFillOf(plan, catalog)
  const { width, height } = plan.centre
  if (plan.centre.auto) return DENSITY[plan.density] * width * height
  return fill ? lineOver([width, height], fill) : 0
}

/** Length of line of the filler that goes over the whole quilt, mm. */
function allOverLine(plan: Plan, { centres }: Catalog): number {
  const filler = plan.allOver && centres?.[plan.allOver.name]
  if (!plan.allOver || !filler) return 0
  const { widthMm, heightMm } = layOutQuilt(sizeOf(plan))
  const usual = defaultValues(filler.params, Math.min(widthMm, heightMm))
  return lineOver([widthMm, heightMm], { filler, values: { ...usual, ...plan.allOver.values } })
}

function lineOver([width, height]: Point, { filler, values }: CentreFill): number {
  const part = { width: Math.min(width, SAMPLE), height: Math.min(height, SAMPLE) }
  const { stroke } = filler.fill({ ...part, seed: 0 }, values)
  return (strokeLength(stroke) * (width * height)) / (part.width * part.height)
}
