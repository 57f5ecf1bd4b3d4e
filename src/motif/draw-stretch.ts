import { translation } from '../geometry/affine.ts'
import { transformStroke } from '../geometry/stroke.ts'
import { bend, cornerWarp, fanLength, fanWarp, type Stretch } from './bend.ts'
import type { Drawn, Edge, Motif, Strip, ValuesOf } from './contract.ts'

/** A motif with its values: what fills a band. */
export interface Filler {
  readonly name: string
  readonly motif: Motif
  readonly values: ValuesOf<Motif['params']>
}

/** How a filler runs through a stretch of a half side. */
export interface Run {
  readonly stretch: Stretch
  readonly from: Edge
  readonly to: Edge
  readonly halfRepeats: number
  /** The stretch begins at the side's middle. */
  readonly atMiddle: boolean
  /** The stretch ends at the corner. */
  readonly atCorner: boolean
  /** The stretch ends square, against another strip: nothing goes on beyond. */
  readonly atStripEnd?: boolean
  readonly seed: number
}

/** A drawn run and the length along the band that each of its repeats got, mm. */
export interface DrawnRun extends Drawn {
  readonly repeatMm: number
}

/** Draws a filler in a stretch, in the half side's frame, bent onto the mitre where the stretch ends at a corner. */
export function drawStretch({ motif, values }: Filler, run: Run): DrawnRun {
  const { stretch } = run
  const strip = (length: number): Strip => ({
    length,
    width: stretch.width,
    from: run.from,
    to: run.to,
    repeats: run.halfRepeats / 2,
    mirrorStart: run.atMiddle,
    mirrorEnd: run.atCorner || (run.atStripEnd ?? false),
    seed: run.seed,
  })
  const begin = stretch.start[run.from]
  if (run.atCorner && motif.drawToMitre) {
    const length = stretch.end.inner - begin
    const skew = (stretch.end.outer - stretch.end.inner) / stretch.width
    const drawn = motif.drawToMitre({ ...strip(length), skew }, values)
    return measured(shift(drawn, begin), length + (skew * stretch.width) / 2, run)
  }
  if (motif.bend === 'fan') {
    const length = fanLength(stretch)
    return measured(bend(motif.draw(strip(length), values), fanWarp(stretch)), length, run)
  }
  if (run.atCorner) {
    const length = (stretch.end.inner + stretch.end.outer) / 2 - begin
    return measured(bend(motif.draw(strip(length), values), cornerWarp(stretch, length)), length, run)
  }
  const length = stretch.end[run.to] - begin
  return measured(shift(motif.draw(strip(length), values), begin), length, run)
}

const measured = (drawn: Drawn, length: number, run: Run): DrawnRun => ({
  ...drawn,
  repeatMm: length / (drawn.repeats ?? run.halfRepeats / 2),
})

const shift = (drawn: Drawn, along: number): Drawn => ({
  ...drawn,
  stroke: transformStroke(drawn.stroke, translation(along, 0)),
})
