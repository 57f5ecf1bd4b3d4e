import { distance } from '../../geometry/point.ts'
import { inches, type LengthUnit } from '../../units.ts'
import { type BandSize, layOutQuilt, type QuiltSize } from '../layout.ts'
import type { MeasuredBand } from '../measured-layout.ts'
import { outlineLength } from '../outline.ts'
import { countUnits, type Piecing, pieceBands, type SettingTriangles } from '../pieced-band.ts'
import { layOutPolygon, type PolygonBand, type PolygonSize } from '../polygon-layout.ts'
import type { Band, Quilt } from '../quilt.ts'
import { heightAt } from '../side-height.ts'
import { sideWords } from '../side-words.ts'
import { borderStrips, type CornerCut, cornerCuts, type StripCut, type StripRules } from './border-strips.ts'
import { alongSide } from './grain.ts'
import { cutKey, type PatchCut, patchCut, rowsLength } from './patch-cuts.ts'
import { kiteCuts, polygonStrips } from './polygon-strips.ts'
import { stripsFor, toMark, upToBolt, upToMark } from './tape.ts'

/** What the cutting list is made from. */
export interface CuttingJob {
  readonly size: QuiltSize | PolygonSize
  /** By the band's index; undefined for bands cut as strips. */
  readonly piecings?: readonly (Piecing | SettingTriangles | undefined)[]
  /** Indices of bands that are sewn already; nothing is cut for them. */
  readonly sewn?: readonly number[]
  /** What was measured on the quilt so far: strips follow the mean of the three places. */
  readonly measured?: readonly MeasuredBand[]
  /** The unit of the tape that is cut by. */
  readonly unit: LengthUnit
  /** Usable width of the fabric, mm. Default 40 in. */
  readonly fabricWidth?: number
  /** Seam allowance, mm. Default 1/4 in. */
  readonly seam?: number
  /** Width of the binding's strip as cut, mm. Default 2 1/2 in. @source villarosaquilts.com, Binding 101 */
  readonly bindingStrip?: number
  /** How much the backing and the batting stand out on every side, mm. Default 4 in. @source Quilts & More, Summer 2020, p. 100 */
  readonly margin?: number
}

/** Patches of one name and shape in one band. */
export interface UnitCut extends PatchCut {
  readonly band: string
  readonly patch: string
  readonly fabric: string
  /** Patches needed, and squares or rectangles to cut for them. */
  readonly patches: number
  readonly count: number
}

/** How many units a pieced band has and how large they finish, mm. */
export interface UnitsOf {
  readonly band: string
  readonly unit: string
  readonly count: number
  readonly sizes: readonly { readonly width: number; readonly height: number; readonly count: number }[]
}

export interface CuttingList {
  readonly strips: readonly StripCut[]
  readonly corners: readonly CornerCut[]
  readonly units: readonly UnitsOf[]
  readonly patches: readonly UnitCut[]
  readonly binding: { readonly width: number; readonly strips: number; readonly length: number }
  readonly backing: SheetCut & { readonly panels: number; readonly fabricLength: number }
  readonly batting: SheetCut
  /** Length of fabric to buy, mm, by fabric; binding and backing apart. */
  readonly fabrics: readonly { readonly fabric: string; readonly length: number }[]
  readonly bindingFabric: number
  readonly caution: string
}

interface SheetCut {
  readonly width: number
  readonly height: number
}

const CAUTION =
  'Measure your own quilt before you cut: its real width and height, at both edges and through the middle, decide the lengths.'

/** What is added to the binding's length for the corners and the last join, mm: 10 in. Common practice, no source. */
const BINDING_SPARE = inches(10)

/**
 * What to cut for the bands that are not sewn yet, for binding, backing and batting, and how much fabric that takes.
 *
 * All sizes are to cut, seam allowances included, on the marks of the tape: eighths of an inch, or millimetres.
 */
export function cuttingList(job: CuttingJob): CuttingList {
  const rules: StripRules = {
    unit: job.unit,
    seam: job.seam ?? inches(0.25),
    fabricWidth: job.fabricWidth ?? inches(40),
  }
  const quilt =
    'shape' in job.size.centre ? layOutPolygon(job.size as PolygonSize) : layOutQuilt(job.size as QuiltSize)
  const jobs = sewingJobs(job, { quilt, rules })
  const plain = jobs.filter(({ piecing }) => !piecing)
  const strips = plain.flatMap((j) => j.strips)
  const corners = plain.flatMap((j) => j.corners)
  const pieced = jobs.flatMap(({ piecing, index }) =>
    piecing ? [piecedCuts(quilt, { index, piecing, rules })] : [],
  )
  const patches = pieced.flatMap((p) => p.patches)
  const binding = bindingCut(job, { quilt, rules })
  return {
    strips,
    corners,
    units: pieced.flatMap((p) => p.units),
    patches,
    binding,
    ...sheets(job, { quilt, rules }),
    fabrics: fabricLengths({ strips, corners, patches }, rules),
    bindingFabric: upToBolt(binding.strips * binding.width, job.unit),
    caution: CAUTION,
  }
}

/** The layout, and what it is cut by. */
interface Cloth {
  readonly quilt: Quilt
  readonly rules: StripRules
}

/** A band to sew on. */
interface SewingJob {
  readonly index: number
  readonly piecing: Piecing | SettingTriangles | undefined
  readonly strips: readonly StripCut[]
  readonly corners: readonly CornerCut[]
}

/** The bands to sew on, in order, with the strips and corners that they would be cut as. */
function sewingJobs(job: CuttingJob, { quilt, rules }: Cloth): SewingJob[] {
  const { size, piecings, sewn } = job
  const sizes = isRegular(size) ? undefined : innerSizes(job)
  let order = 1
  return quilt.bands.flatMap((band, index) => {
    if (sewn?.includes(index)) return []
    const isLast = index === size.bands.length - 1
    const place = { outerAllowance: isLast ? size.binding : rules.seam, order }
    order += sizes || band.corners !== 'mitred' ? 2 : 1
    const cuts = sizes
      ? stripsOfFour(size.bands[index]!, { ...place, ...sizes[index]! }, { quilt, rules, index })
      : {
          strips: polygonStrips({ band, quilt, ...place }, rules),
          corners: kiteCuts({ band, quilt, ...place }, rules),
        }
    return [{ index, piecing: piecings?.[index], ...cuts }]
  })
}

const isRegular = ({ centre }: CuttingJob['size']): boolean =>
  'shape' in centre && centre.shape.kind === 'regular'

interface FourPlace {
  readonly width: number
  readonly height: number
  readonly outerAllowance: number
  readonly order: number
}

/** Strips and corners of a band with four sides, under the names of the sides as they lie on the quilt. */
function stripsOfFour(
  band: BandSize | PolygonBand,
  place: FourPlace,
  { quilt, rules, index }: Cloth & { index: number },
): Pick<SewingJob, 'strips' | 'corners'> {
  const w = band.width
  const width = typeof w === 'number' ? { top: w, right: w, bottom: w, left: w } : w
  const job = { ...place, band: { ...band, width } }
  const ring = quilt.rings[index]!
  const names = Object.fromEntries(SIDES.map((side, i) => [side as string, sideWords(ring, i)]))
  const strips = borderStrips(job, rules).map((cut) => ({
    ...cut,
    sides: cut.sides.map((side) => names[side]!),
  }))
  return { strips, corners: cornerCuts(job, rules) }
}

const SIDES = ['top', 'right', 'bottom', 'left'] as const

/**
 * What each band with four sides is sewn to: measured where it was, planned else, mm.
 *
 * @source an upright square round one on point is as wide as its diagonal; round a rectangle on point, (width + height) /
 *   root 2 (school formula)
 */
function innerSizes({ size, measured }: CuttingJob): { readonly width: number; readonly height: number }[] {
  let { width, height } = 'shape' in size.centre ? (size.centre.shape as OnPoint) : size.centre
  return size.bands.map((band: BandSize | PolygonBand, index) => {
    const real = measured?.find((m) => m.band === index - 1)
    if (real) [width, height] = [meanOf(real.across), meanOf(real.down)]
    const inside = { width, height }
    const w = band.width
    if (band.isSetting) width = height = (width + height) / Math.SQRT2
    else {
      width += typeof w === 'number' ? 2 * w : w.left + w.right
      height += typeof w === 'number' ? 2 * w : w.top + w.bottom
    }
    return inside
  })
}

type OnPoint = Extract<PolygonSize['centre']['shape'], { kind: 'on-point' }>

/** @source mean of edge, centre, edge: quiltersnichenews.wordpress.com, avoiding wavy borders */
const meanOf = (three: readonly [number, number, number]): number => (three[0] + three[1] + three[2]) / 3

function piecedCuts(
  quilt: Quilt,
  { index, piecing, rules }: { index: number; piecing: Piecing | SettingTriangles; rules: StripRules },
): { units: UnitsOf[]; patches: UnitCut[] } {
  const band = quilt.bands[index]!
  const only = quilt.bands.map((_, k) => (k === index ? piecing : undefined))
  const patches = new Map<string, UnitCut>()
  for (const { name, fabric, outline, side } of pieceBands(quilt, only).patches!) {
    // The legs of setting triangles lie on the grain as they are; any other patch has it along its side.
    const cut = patchCut('unit' in piecing ? alongSide(outline, band, side) : outline, rules)
    const key = `${name} ${cutKey(cut)}`
    const count = (patches.get(key)?.patches ?? 0) + 1
    patches.set(key, {
      ...cut,
      band: band.name,
      patch: name,
      fabric,
      patches: count,
      count: Math.ceil(count / cut.yields),
    })
  }
  return { units: 'unit' in piecing ? [unitsOf(band, piecing, rules)] : [], patches: [...patches.values()] }
}

function unitsOf(band: Band, piecing: Piecing, { unit }: StripRules): UnitsOf {
  const { rows, along } = countUnits(band, piecing)
  const sizes = new Map<string, { width: number; height: number; count: number }>()
  const add = (width: number, height: number, count: number) => {
    const key = [width, height].map((x) => toMark(x, unit).toFixed(3)).join()
    sizes.set(key, { width, height, count: (sizes.get(key)?.count ?? 0) + count })
  }
  band.sides.forEach((side, s) => {
    const deep = heightAt(side, 'outerA')
    add(distance(side.innerA, side.innerB) / along[s]!, deep / rows, along[s]! * rows)
    if (piecing.corners === 'unit')
      add(heightAt(band.sides.at(s - 1)!, 'outerB') / rows, deep / rows, rows ** 2)
  })
  const list = [...sizes.values()]
  const count = list.reduce((sum, place) => sum + place.count, 0)
  return { band: band.name, unit: piecing.unit.title, count, sizes: list }
}

/** The binding's strips, joined on the slant: each join takes the strip's width. */
function bindingCut({ unit, bindingStrip }: CuttingJob, { quilt, rules }: Cloth): CuttingList['binding'] {
  const width = toMark(bindingStrip ?? inches(2.5), unit)
  const length = upToMark(outlineLength(quilt.edge) + BINDING_SPARE, unit)
  return { width, length, strips: stripsFor(length, { usable: rules.fabricWidth, lost: width }) }
}

/** Backing and batting, larger than the quilt on all sides; the backing in panels whichever way takes less fabric. */
function sheets(
  { unit, margin }: CuttingJob,
  { quilt: { widthMm, heightMm }, rules: { fabricWidth, seam } }: Cloth,
): Pick<CuttingList, 'backing' | 'batting'> {
  const more = 2 * (margin ?? inches(4))
  const [width, height] = [upToMark(widthMm + more, unit), upToMark(heightMm + more, unit)]
  const panelsOver = (length: number) => stripsFor(length, { usable: fabricWidth, lost: 2 * seam })
  const ways = [
    { panels: panelsOver(width), fabricLength: upToBolt(panelsOver(width) * height, unit) },
    { panels: panelsOver(height), fabricLength: upToBolt(panelsOver(height) * width, unit) },
  ]
  const [upright, level] = ways as [(typeof ways)[0], (typeof ways)[0]]
  const way = level.fabricLength < upright.fabricLength ? level : upright
  return { backing: { width, height, ...way }, batting: { width, height } }
}

function fabricLengths(
  { strips, corners, patches }: Pick<CuttingList, 'strips' | 'corners' | 'patches'>,
  { unit, fabricWidth }: StripRules,
): CuttingList['fabrics'] {
  const lengths = new Map<string, number>()
  const add = (fabric: string, length: number) => lengths.set(fabric, (lengths.get(fabric) ?? 0) + length)
  for (const { fabric, width, acrossFabric } of strips) add(fabric, acrossFabric * width)
  for (const { fabric, count, ...cut } of corners) add(fabric, rowsLength(cut, count, fabricWidth))
  for (const { fabric, count, ...cut } of patches) add(fabric, rowsLength(cut, count, fabricWidth))
  return [...lengths].map(([fabric, length]) => ({ fabric, length: upToBolt(length, unit) }))
}
