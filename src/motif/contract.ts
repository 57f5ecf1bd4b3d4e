import type { Stroke } from '../geometry/stroke.ts'

/** The two edges of a strip: `inner` lies at v = 0, `outer` at v = width. */
export type Edge = 'inner' | 'outer'

/** A value that a motif can be given, described as data: command options, page controls and laws read this. */
export type Param =
  | {
      readonly kind: 'length'
      readonly label: string
      /** mm, or a multiple of the strip's width. */
      readonly default: number | { readonly widths: number }
      /** mm */
      readonly min: number
      /** mm */
      readonly max: number
    }
  | {
      readonly kind: 'ratio'
      readonly label: string
      readonly default: number
      readonly min: number
      readonly max: number
    }
  | {
      readonly kind: 'count'
      readonly label: string
      readonly default: number
      readonly min: number
      readonly max: number
    }
  | {
      readonly kind: 'choice'
      readonly label: string
      readonly default: string
      readonly of: readonly string[]
    }

export type Params = Readonly<Record<string, Param>>

/** The values for a description: strings for choices, numbers (mm for lengths) for the rest. */
export type ValuesOf<P extends Params> = {
  readonly [K in keyof P]: P[K] extends { kind: 'choice'; of: readonly (infer C)[] } ? C : number
}

/**
 * The straight strip that a motif fills, in its own frame: u from 0 to `length`, v from 0 (inner edge) to `width`
 * (outer edge), mm. Written as points [u, v].
 */
export interface Strip {
  /** mm */
  readonly length: number
  /** mm */
  readonly width: number
  /** The edge on which the stroke starts, at u = 0. */
  readonly from: Edge
  /** The edge on which the stroke ends, at u = length. */
  readonly to: Edge
  /**
   * How many repeats to draw, a multiple of 1/2. A motif that alternates between the edges draws half repeats from
   * edge to edge: `repeats` is whole when `from` and `to` are the same edge, and a half more otherwise. A motif with
   * `ends: 'free'` gets a whole number, at least 1.
   */
  readonly repeats: number
  /** True at an end about which the band is mirrored (a side's middle, a mitre); false where it runs on. */
  readonly mirrorStart: boolean
  readonly mirrorEnd: boolean
  /** Changes what is irregular; the same seed gives the same stroke. */
  readonly seed: number
}

/** A place where the stroke meets an edge of its strip. */
export interface Touch {
  readonly edge: Edge
  /** How many segments of the stroke lie before it: 0 is the start. */
  readonly after: number
}

/** What a motif draws: the stroke, and where it touches. The first touch is the start, the last the end. */
export interface Drawn {
  readonly stroke: Stroke
  readonly touches: readonly Touch[]
  /** How many repeats it holds, if the motif reckoned for itself how many fit best; otherwise as many as were asked for. */
  readonly repeats?: number
}

/**
 * A strip whose far end is a mitre: the end line runs from [length, 0] to [length + skew x width, width].
 */
export interface MitreStrip extends Strip {
  /** How far the outer corner lies beyond the inner one, in widths. 1 for a 45 degree mitre. */
  readonly skew: number
}

/** A filler for a strip, as data and a pure function. */
export interface Motif<P extends Params = Params> {
  readonly title: string
  /** Where the shape comes from. */
  readonly source: string
  readonly params: P
  /** Name of the value (a length) that sets how closely it is stitched: a smaller one is denser. Left out: none does. */
  readonly closeness?: string
  /** Finished widths that it suits, mm. */
  readonly suits: { readonly min: number; readonly max: number }
  /**
   * `alternate`: half repeats from edge to edge, a touch at each; `free`: starts and ends on either edge by itself.
   */
  readonly ends: 'alternate' | 'free'
  /**
   * How the band's last stretch is brought onto the mitre: `corner` shears gradually near the corner only, `fan` spreads
   * the lean over the whole half side (for motifs made of lines across the strip).
   */
  readonly bend: 'corner' | 'fan'
  /** Whether the stroke is smooth at every joint but its declared cusps: `smooth`, or has corners: `cusped`. */
  readonly joints: 'smooth' | 'cusped'
  /** One repeat fills a stretch of any length, and does not look stretched. */
  readonly elastic?: boolean
  /** The nominal length of one repeat, mm, for a strip of `width` mm. */
  repeat(width: number, values: ValuesOf<P>): number
  /** Draws the strip. Every point lies inside it; scaling strip and lengths scales the stroke. */
  draw(strip: Strip, values: ValuesOf<P>): Drawn
  /**
   * Draws a last stretch up to the mitre itself, where bending `draw` looks poor. Ends at [length, 0] for `inner`, at
   * [length + skew x width, width] for `outer`; stays on the near side of the mitre line.
   */
  drawToMitre?(strip: MitreStrip, values: ValuesOf<P>): Drawn
}

/** Declares a motif: infers the types of its values from `params`. */
export const defineMotif = <const P extends Params>(motif: Motif<P>): Motif<P> => motif
