import { circleInField } from '../check/largest-gap.ts'
import { polylineOf } from '../check/polyline.ts'
import { layField } from '../check/stitch-field.ts'
import { checkWalkingFoot } from '../check/walking-foot.ts'
import { type Point, scale } from '../geometry/point.ts'
import { boundsOf, flattenStroke, polylineLength, type Stroke } from '../geometry/stroke.ts'
import { outlineArea } from '../quilt/outline.ts'

/** A piece of cloth with a filler in it, large enough to stand for the rest. */
export interface Sample {
  readonly strokes: readonly Stroke[]
  /** mm */
  readonly outline: readonly Point[]
  /** The same filler squeezed as it may come to be in a quilt, for curves that must not be tight. */
  readonly squeezed?: () => readonly Stroke[]
}

/** How far a chord may leave the curve, mm; of a sample brought to the size below. */
const CHORD = 0.1
/** The size, across, to which a sample is brought before its gap is sought: few cells, and exact enough, mm. */
const SEARCHED = 30
/** How exactly a gap of that size is sought, mm. */
const WITHIN = 0.8
/** Pivots are counted over this much line, mm: fewer than one on a short sample say nothing. */
const FOOT_LENGTH = 3000

/** What a filler comes to in a sample of cloth. What takes long is measured when it is asked for. */
export class Measure {
  readonly #sample: Sample
  readonly #polylines: readonly (readonly Point[])[]
  readonly #areaMm2: number
  #gap: number | undefined
  #foot: boolean | undefined

  constructor(sample: Sample) {
    this.#sample = sample
    this.#polylines = sample.strokes.map((stroke) => flattenStroke(stroke, CHORD))
    this.#areaMm2 = Math.abs(outlineArea(sample.outline))
  }

  /** Length of line over area, mm per mm². */
  get perArea(): number {
    return this.#polylines.reduce((sum, points) => sum + polylineLength(points), 0) / this.#areaMm2
  }

  /** Diameter of the largest circle in the cloth that no stitching enters, mm. */
  get gapMm(): number {
    this.#gap ??= this.#findGap()
    return this.#gap
  }

  /** Whether a walking foot can stitch it. */
  get suitsWalkingFoot(): boolean {
    this.#foot ??= this.#checkFoot()
    return this.#foot
  }

  #findGap(): number {
    const { minX, minY, maxX, maxY } = boundsOf(this.#sample.outline)
    const k = Math.min(1, SEARCHED / Math.min(maxX - minX, maxY - minY))
    const shrunk = (points: readonly Point[]) => points.map((p) => scale(p, k))
    const outline = shrunk(this.#sample.outline)
    const field = layField(
      this.#polylines.map((points) => polylineOf(shrunk(points))),
      boundsOf(outline),
    )
    return circleInField(field, { rings: [outline] }, { within: WITHIN }).sizeMm / k
  }

  #checkFoot(): boolean {
    const length = this.#polylines.reduce((sum, points) => sum + polylineLength(points), 0)
    if (length === 0) return true
    const { squeezed, strokes } = this.#sample
    const parts = (squeezed?.() ?? strokes).map(
      (stroke) => ({ kind: 'fill', band: 0, area: 0, stroke }) as const,
    )
    const lines = parts.map((part) => ({ parts: [part], thread: '' }))
    const often = Array.from({ length: Math.ceil(FOOT_LENGTH / length) }, () => lines).flat()
    return checkWalkingFoot(often).every(({ verdict }) => verdict !== 'cannot')
  }
}

/** What is measured of a filler, however it is found. */
export type Measured = Pick<Measure, 'perArea' | 'gapMm' | 'suitsWalkingFoot'>

/** Several samples of one filler as one: each stands for a part of the area. */
export const together = (
  parts: readonly { readonly measure: Measured; readonly areaMm2: number }[],
): Measured => {
  const whole = parts.reduce((sum, { areaMm2 }) => sum + areaMm2, 0)
  return {
    get perArea() {
      return parts.reduce((sum, { measure, areaMm2 }) => sum + measure.perArea * areaMm2, 0) / whole
    },
    get gapMm() {
      return Math.max(...parts.map(({ measure }) => measure.gapMm))
    },
    get suitsWalkingFoot() {
      return parts.every(({ measure }) => measure.suitsWalkingFoot)
    },
  }
}
