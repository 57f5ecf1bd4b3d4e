import type { Point } from '../geometry/point.ts'
import type { Stroke } from '../geometry/stroke.ts'
import type { Quilt } from '../quilt/quilt.ts'
import type { Line } from '../stitch/line.ts'
import type { LengthUnit } from '../units.ts'

/** Where the needle goes through: one point a stitch. */
export interface NeedlePoint {
  readonly at: Point
  /** Index of the part of its line that it belongs to. */
  readonly part: number
}

/** A place named on a tracing strip: a side's middle, a mitre. */
export interface StripMark {
  readonly at: Point
  readonly name: string
}

/**
 * A piece of a band to be traced again and again: one straight run or one corner, at full size, in a frame of its own
 * (mm, x right, y down, anywhere).
 */
export interface TraceStrip {
  /** Index of the band. */
  readonly band: number
  readonly piece: 'run' | 'corner'
  /** The seams round the piece, closed. */
  readonly outline: readonly Point[]
  readonly strokes: readonly Stroke[]
  /** How often it is traced on the whole quilt, as it is. */
  readonly times: number
  /** How often it is traced turned over, besides. */
  readonly turned?: number
  /** Of a run: its place from the middle of the side, from 1. */
  readonly fromMiddle?: number
  /** The sides it lies on, if it does not lie on all; of a corner, those that it leads from. */
  readonly sides?: readonly number[]
  readonly marks: readonly StripMark[]
}

/** A largest place without stitching: a circle across or an upright square. */
export interface GapMark {
  /** A band's name; undefined for the whole quilt. */
  readonly band: string | undefined
  readonly shape: 'circle' | 'square'
  readonly at: Point
  /** Diameter, or side, mm. */
  readonly sizeMm: number
  /** It is larger than the batting allows. */
  readonly isTooLarge: boolean
}

/** A band's cloth under the line's thread. */
export interface Swatch {
  readonly band: string
  readonly fabrics: readonly { readonly colour: string; readonly share: number }[]
  /** How the thread looks on it, in words. */
  readonly look: string
}

/** Everything that an exporter may draw: the quilt, its finished line, and the figures that go with them. */
export interface Drawing {
  readonly title: string
  readonly quilt: Quilt
  /** One entry a thread start, in the order of work. */
  readonly lines: readonly Line[]
  readonly areaCount: number
  /** The unit of the plan; texts follow it. */
  readonly units: LengthUnit
  /** Stitches per minute. */
  readonly spm: number
  readonly stitchLengthMm: number
  /** What fills each band, in plain words ("loops"), by the band's index. */
  readonly fillers?: readonly string[]
  /** What fills the centre, in plain words. */
  readonly centreFiller?: string
  /** What goes over the whole quilt, in plain words, if one filler does. */
  readonly allOver?: string
  /** The needle points of each line, by the line's index. */
  readonly stitches?: readonly (readonly NeedlePoint[])[]
  /** The areas of each frame pass, top to bottom. None on a domestic machine. */
  readonly passes?: readonly (readonly number[])[]
  readonly strips?: readonly TraceStrip[]
  /** Where the bobbin is changed, in order. */
  readonly bobbinChanges?: readonly Point[]
  readonly gaps?: readonly GapMark[]
  readonly swatches?: readonly Swatch[]
}
