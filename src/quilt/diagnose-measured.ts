import { distance, lerp } from '../geometry/point.ts'
import { tapeText } from '../length-text.ts'
import { type LengthUnit, MM_PER } from '../units.ts'
import { fitQuadrilateral, measureQuadrilateral } from './fit-quadrilateral.ts'
import { layOutQuilt, type QuiltSize } from './layout.ts'
import type { MeasuredBand } from './measured-layout.ts'
import type { Quilt } from './quilt.ts'

/** What was found on the measured quilt, in words and as a figure. */
export interface MeasuredFinding {
  readonly code:
    | 'quilt/out-of-square'
    | 'quilt/ripples'
    | 'quilt/pulls-in'
    | 'quilt/uneven-edges'
    | 'quilt/errors-add-up'
    | 'quilt/measures-disagree'
    | 'quilt/motifs-stretched'
  readonly message: string
  /** The band, or the centre. */
  readonly at: string
  /** By how much, mm; for stretched motifs a ratio. */
  readonly amount: number
}

/** Differences up to this are the tape's, mm: 1/8 in. Common practice, no source. */
const NOTICED = MM_PER.in / 8
/** No side should be further than this from the mean of its three places, mm: 1/4 in. @source quiltingboard.com/8000765-post5.html */
const SPREAD = MM_PER.in / 4
/** A side this much longer or shorter than planned stretches its motifs visibly. Common practice, no source. */
const STRETCHED = 0.02

/**
 * What the measures say about the quilt: where it is out of square, where a border is longer than the quilt through its
 * middle, how errors add up from band to band, and where motifs had to stretch.
 *
 * @param size      as planned
 * @param measured  as measured
 * @param told      what it is told of
 * @param told.quilt  as `layOutMeasured` laid it out
 * @param told.unit   of the messages
 */
export function diagnoseMeasured(
  size: QuiltSize,
  measured: readonly MeasuredBand[],
  { quilt, unit }: { quilt: Quilt; unit: LengthUnit },
): MeasuredFinding[] {
  const planned = layOutQuilt(size)
  const byBand = [...measured].sort((a, b) => a.band - b.band)
  const say: Say = { name: (band) => quilt.bands[band]?.name ?? 'centre', text: (mm) => tapeText(mm, unit) }
  return [
    ...byBand.flatMap((m) => [
      ...outOfSquare(m, say),
      ...ripples(m, say),
      ...unevenEdges(m, say),
      ...disagreeing(m, say),
    ]),
    ...addingUp(byBand, { planned, say }),
    ...stretchedMotifs(quilt, planned),
  ]
}

interface Say {
  readonly name: (band: number) => string
  readonly text: (mm: number) => string
}

function outOfSquare({ band, diagonals }: MeasuredBand, { name, text }: Say): MeasuredFinding[] {
  if (!diagonals) return []
  const amount = diagonals[0] - diagonals[1]
  if (Math.abs(amount) <= NOTICED) return []
  const longer = amount > 0 ? 'from top left to bottom right' : 'from top right to bottom left'
  const message = `${name(band)} is out of square: its diagonal ${longer} is ${text(Math.abs(amount))} longer than the other`
  return [{ code: 'quilt/out-of-square', at: name(band), amount: Math.abs(amount), message }]
}

/** Compares each edge with the quilt through its middle. */
function ripples({ band, across, down }: MeasuredBand, { name, text }: Say): MeasuredFinding[] {
  const edges = [
    ['top', across[0], across[1]],
    ['bottom', across[2], across[1]],
    ['left', down[0], down[1]],
    ['right', down[2], down[1]],
  ] as const
  return edges.flatMap(([edge, length, middle]): MeasuredFinding[] => {
    const more = length - middle
    if (Math.abs(more) <= NOTICED) return []
    const by = text(Math.abs(more))
    return more > 0
      ? [
          {
            code: 'quilt/ripples',
            at: name(band),
            amount: more,
            message: `the ${edge} of ${name(band)} is ${by} longer than the quilt through its middle: it will ripple`,
          },
        ]
      : [
          {
            code: 'quilt/pulls-in',
            at: name(band),
            amount: -more,
            message: `the ${edge} of ${name(band)} is ${by} shorter than the quilt through its middle: it will pull in`,
          },
        ]
  })
}

function unevenEdges({ band, across, down }: MeasuredBand, { name, text }: Say): MeasuredFinding[] {
  return [['across', across] as const, ['down', down] as const].flatMap(([way, three]): MeasuredFinding[] => {
    const mean = (three[0] + three[1] + three[2]) / 3
    const amount = Math.max(...three.map((x) => Math.abs(x - mean)))
    if (amount <= SPREAD) return []
    const message = `the three measures ${way} ${name(band)} lie up to ${text(amount)} from their mean of ${text(mean)}; more than ${text(SPREAD)} is too much to ease in`
    return [{ code: 'quilt/uneven-edges', at: name(band), amount, message }]
  })
}

/** A four-sided outline can't have just any eight measures: what is left over is an error of measuring, or a bowed edge. */
function disagreeing(measures: MeasuredBand, { name, text }: Say): MeasuredFinding[] {
  const fitted = measureQuadrilateral(fitQuadrilateral(measures))
  const misses = [
    ...measures.across.map((x, i) => Math.abs(x - fitted.across[i]!)),
    ...measures.down.map((x, i) => Math.abs(x - fitted.down[i]!)),
    ...(measures.diagonals ?? []).map((x, i) => Math.abs(x - fitted.diagonals[i]!)),
  ]
  const amount = Math.max(...misses)
  if (amount <= NOTICED) return []
  const message = `no outline with straight edges has all measures of ${name(measures.band)}: the closest is off by up to ${text(amount)}; an edge is bowed, or a measure is wrong`
  return [{ code: 'quilt/measures-disagree', at: name(measures.band), amount, message }]
}

/** How much each measured band adds to the error that came from inside it. */
function addingUp(
  measured: readonly MeasuredBand[],
  { planned, say }: { planned: Quilt; say: Say },
): MeasuredFinding[] {
  const findings: MeasuredFinding[] = []
  let before = { width: 0, height: 0 }
  for (const { band, across, down } of measured) {
    const plan = measureQuadrilateral(planned.rings[band + 1]!)
    const error = { width: across[1] - plan.across[1], height: down[1] - plan.down[1] }
    for (const way of ['width', 'height'] as const) {
      if (Math.abs(error[way]) <= NOTICED) continue
      findings.push({
        code: 'quilt/errors-add-up',
        at: say.name(band),
        amount: error[way],
        message: `the ${way} at ${say.name(band)} is ${signed(error[way], say)} off the plan: ${signed(error[way] - before[way], say)} from this band, ${signed(before[way], say)} from inside it`,
      })
    }
    before = error
  }
  return findings
}

const signed = (mm: number, { text }: Say): string => (mm < 0 ? text(mm) : `+${text(mm)}`)

const SIDE_NAMES = ['top', 'right', 'bottom', 'left']

/** Compares the length of each strip along its middle with the planned one: motifs stretch by that much. */
function stretchedMotifs(quilt: Quilt, planned: Quilt): MeasuredFinding[] {
  return quilt.bands.flatMap((band) =>
    band.sides.flatMap((side, s): MeasuredFinding[] => {
      const plan = planned.bands[band.index]!.sides[s]!
      const amount = middleLength(side) / middleLength(plan)
      if (Math.abs(amount - 1) <= STRETCHED) return []
      const percent = (100 * Math.abs(amount - 1)).toFixed(1)
      const message = `motifs on the ${SIDE_NAMES[s]} of ${band.name} are ${amount > 1 ? 'stretched' : 'squeezed'} by ${percent} percent to fit the measured length`
      return [{ code: 'quilt/motifs-stretched', at: band.name, amount, message }]
    }),
  )
}

const middleLength = (side: Quilt['bands'][number]['sides'][number]): number =>
  distance(lerp(side.innerA, side.outerA, 0.5), lerp(side.innerB, side.outerB, 0.5))
