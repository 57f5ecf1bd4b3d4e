import type { Point } from '../geometry/point.ts'
import type { Stroke } from '../geometry/stroke.ts'
import type { Params, ValuesOf } from './contract.ts'

/** A rectangle to be filled: u from 0 to `width`, v from 0 (the side with the ports) to `height`, mm. */
export interface Rectangle {
  /** mm */
  readonly width: number
  /** mm */
  readonly height: number
  /** Changes what is irregular; the same seed gives the same stroke. */
  readonly seed: number
}

/** A regular outline to be filled, with an even number of sides, turned as it may be; mm. */
export interface OutlineArea {
  /** Corners clockwise on the screen. */
  readonly outline: readonly Point[]
  readonly seed: number
}

/** What a filler draws: the stroke, and after how many segments it touches the outline (0 is the start). */
export interface CentreFill {
  readonly stroke: Stroke
  readonly touches: readonly number[]
}

/**
 * Where a filler starts and ends. `middle`: both at [width / 2, 0]; `corners`: from [0, 0] to [width, 0]. To bring the
 * ports to another side, turn or mirror the rectangle.
 */
type Ports = 'middle' | 'corners'

/** A filler for a rectangle of any proportion, as data and a pure function. */
export interface CentreFiller<P extends Params = Params> {
  readonly title: string
  /** Where the shape comes from. */
  readonly source: string
  readonly params: P
  /** Name of the value (a length) that sets how closely it is stitched: a smaller one is denser. Left out: none does. */
  readonly closeness?: string
  /** The smaller side from which it suits, mm. */
  readonly suitsFrom: number
  readonly ports: Ports
  readonly joints: 'smooth' | 'cusped'
  /** Fills the rectangle with one stroke that stays inside; scaling rectangle and lengths scales the stroke. */
  fill(area: Rectangle, values: ValuesOf<P>): CentreFill
  /**
   * Fills a hexagon, an octagon, a square on point and the like with strokes that begin and end on the outline and stay inside; undefined for a
   * filler that fills rectangles only.
   */
  fillOutline?(area: OutlineArea, values: ValuesOf<P>): readonly Stroke[]
}

/** Declares a filler: infers the types of its values from `params`. */
export const defineCentre = <const P extends Params>(filler: CentreFiller<P>): CentreFiller<P> => filler
