import { PlanError, type Problem } from '../error.ts'
import { cross, type Point, subtract, unit } from '../geometry/point.ts'
import { boundsOf } from '../geometry/stroke.ts'
import { fitQuadrilateral, type Measures, placeOnto } from './fit-quadrilateral.ts'
import { assembleQuilt, layOutQuilt, type QuiltSize, type Sides } from './layout.ts'
import { offsetOutline, shiftOutline } from './outline.ts'
import type { Quilt } from './quilt.ts'

/** The outer size of one band as measured on the quilt: from seam to seam, for the last band to the binding's seam. */
export interface MeasuredBand extends Measures {
  /** Index of the band from the inside, from 0; -1 for the centre. */
  readonly band: number
}

/** A measure this close to the plan is the plan, mm. */
const SAME = 1e-6
/** A band may be measured down to this part of its planned width; less cannot be a border. */
const NARROWEST = 0.25

/**
 * Lays the quilt out as it was measured: each measured ring is the four-sided outline that fits its measures best, put
 * where the band inside it comes closest to its planned widths. Rings without measures keep their planned widths. A quilt
 * measured exactly as planned gives exactly the planned layout.
 *
 * @throws PlanError `quilt/measured-unknown-band`, `quilt/measured-too-narrow`: every band that is wrong
 */
export function layOutMeasured(size: QuiltSize, measured: readonly MeasuredBand[]): Quilt {
  const planned = layOutQuilt(size)
  checkBands(size, measured)
  const rings: Point[][] = []
  planned.rings.forEach((plan, k) => {
    const inner = rings[k - 1]
    const isPlanned = !inner || isSame(inner, planned.rings[k - 1]!)
    const expected = isPlanned ? [...plan] : offsetOutline(inner, sidesOf(size.bands[k - 1]!.width))
    const measures = measured.find((m) => m.band === k - 1)
    rings.push(measures ? measuredRing(measures, { plan, expected }) : expected)
  })
  const last = rings.at(-1)!
  const edge = isSame(last, planned.rings.at(-1)!) ? [...planned.edge] : offsetOutline(last, size.binding)
  const { minX, minY } = boundsOf(edge)
  const home = (points: readonly Point[]) => shiftOutline(points, [-minX, -minY])
  const quilt = assembleQuilt(rings.map(home), home(edge), {
    centreFabric: size.centre.fabric,
    bands: size.bands,
  })
  checkWidths(quilt, size)
  return quilt
}

const sidesOf = ({ top, right, bottom, left }: Sides): number[] => [top, right, bottom, left]

const isSame = (a: readonly Point[], b: readonly Point[]): boolean =>
  a.every((p, i) => p[0] === b[i]![0] && p[1] === b[i]![1])

function measuredRing(
  measures: Measures,
  { plan, expected }: { plan: readonly Point[]; expected: Point[] },
): Point[] {
  const [width, height] = [plan[1]![0] - plan[0]![0], plan[3]![1] - plan[0]![1]]
  const off = [
    ...measures.across.map((x) => x - width),
    ...measures.down.map((y) => y - height),
    ...(measures.diagonals ?? []).map((d) => d - Math.hypot(width, height)),
  ]
  if (off.every((miss) => Math.abs(miss) < SAME) && isSame(plan, expected)) return expected
  return placeOnto(fitQuadrilateral(measures), expected)
}

function checkBands(size: QuiltSize, measured: readonly MeasuredBand[]): void {
  const problems = measured.flatMap(({ band }, i): Problem[] =>
    Number.isInteger(band) && band >= -1 && band < size.bands.length
      ? []
      : [
          {
            code: 'quilt/measured-unknown-band',
            at: `measured[${i}]`,
            message: `band ${band}; must be a whole number from -1 (the centre) to ${size.bands.length - 1}`,
          },
        ],
  )
  if (problems.length > 0) throw new PlanError(problems)
}

const SIDE_NAMES = ['top', 'right', 'bottom', 'left'] as const

function checkWidths(quilt: Quilt, size: QuiltSize): void {
  const problems = quilt.bands.flatMap((band) =>
    band.sides.flatMap((side, s): Problem[] => {
      const along = unit(subtract(side.innerB, side.innerA))
      const least = Math.min(
        ...[side.outerA, side.outerB].map((p) => -cross(along, subtract(p, side.innerA))),
      )
      const planned = size.bands[band.index]!.width[SIDE_NAMES[s]!]
      if (least >= planned * NARROWEST) return []
      return [
        {
          code: 'quilt/measured-too-narrow',
          at: `bands[${band.index}]`,
          message: `the measured sizes leave ${band.name} only ${least.toFixed(1)} mm wide on its ${SIDE_NAMES[s]}; planned ${planned.toFixed(1)} mm`,
          hint: 'measure this band and the one inside it again',
        },
      ]
    }),
  )
  if (problems.length > 0) throw new PlanError(problems)
}
