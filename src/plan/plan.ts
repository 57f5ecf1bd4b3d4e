import type { RepeatShape } from '../drawn/repeat-shape.ts'
import type { Point } from '../geometry/point.ts'
import type { Params, ValuesOf } from '../motif/contract.ts'
import type { AvoidedRegion } from '../quilt/avoided-region.ts'
import type { OutlineName } from '../quilt/outline-names.ts'
import type { Corners } from '../quilt/quilt.ts'
import type { TimeSettings } from '../stitch/time.ts'
import type { LengthUnit } from '../units.ts'

/** The sides of a band, clockwise from the top. */
export const SIDES = ['top', 'right', 'bottom', 'left'] as const
export type SideName = (typeof SIDES)[number]

/** One value for each side. */
export type Sides<T = number> = Readonly<Record<SideName, T>>

/** A filler with its values settled (lengths in mm), and which of them the plan gave itself. */
export interface FillerChoice {
  readonly name: string
  /**
   * Of a band's filler all values: what isn't given has the motif's default for the mean of the band's four widths (for
   * a side of its own, that side's width). Of a filler for the centre or for patches only the given ones: their
   * defaults depend on the patch.
   */
  readonly values: ValuesOf<Params>
  readonly given: readonly string[]
}

/** A colour (`#rrggbb`) and the share of the fabric that has it, 0..1. */
export interface FabricColour {
  readonly colour: string
  readonly share: number
}

/** A patch of a unit of one's own: a polygon in the unit square, x along the band, y from the inner seam outward. */
export interface OwnPatch {
  readonly name: string
  readonly points: readonly Point[]
}

/** How a band is pieced. */
export interface PiecedPlan {
  /** Name of a unit in the catalog, or of the one drawn by `polygons`. */
  readonly unit: string
  /** Finished size of a unit across the band, mm. Undefined: the band's width. */
  readonly size: number | undefined
  /** A colour (`#rrggbb`) for each patch name that has one; the others have the band's fabric. */
  readonly fabrics: Readonly<Record<string, string>>
  /** The patches of a unit of one's own. */
  readonly polygons: readonly OwnPatch[] | undefined
  /** A filler for each patch name that has one, if the band is filled patch by patch. */
  readonly fillers: Readonly<Record<string, FillerChoice>>
}

export interface BandPlan {
  readonly name: string
  /** Finished widths, mm; of setting triangles how deep they are. */
  readonly width: Sides
  /** The filler that runs along the band. Undefined: none, or chosen by the program, or given patch by patch. */
  readonly filler: FillerChoice | undefined
  /** The plan leaves the choice of the filler to the program. */
  readonly auto: boolean
  /** Sides with a filler of their own, or with none. */
  readonly sides: Partial<Sides<FillerChoice | 'none'>>
  readonly fabric: readonly FabricColour[]
  readonly corners: Corners
  /** The motif in the cornerstones. Undefined: none. */
  readonly cornerstone: string | undefined
  readonly pieced: PiecedPlan | undefined
  /** Colour (`#rrggbb`) of the thread of a line of its own. Undefined: the band is part of the quilt's line. */
  readonly thread: string | undefined
}

/** How the machine works. */
export interface MachinePlan extends Omit<TimeSettings, 'stitchesPerMinute'> {
  readonly kind: 'domestic' | 'frame'
  /** `walking`: only straight and gently curved lines can be stitched, forward only: the quilt is turned. */
  readonly foot: 'free-motion' | 'walking'
  /** How wide the directions spread that are comfortable without turning the quilt, degrees. */
  readonly sector: number
  /** Width and height of what is stitched without moving the quilt, mm. */
  readonly reach: readonly [width: number, height: number]
  /** Depth of the strip that is stitched before a framed quilt is rolled on, mm. Undefined: not on a frame. */
  readonly throat: number | undefined
  /** How far the strips of a framed quilt overlap, mm. Undefined: not on a frame. */
  readonly overlap: number | undefined
  /** Stitches per minute. */
  readonly speed: number
}

export interface StitchPlan {
  /** mm */
  readonly length: number
  /** How far a stitch may cut a curve, mm. */
  readonly chordTolerance: number
  readonly tieOff: {
    readonly count: number
    /** mm */
    readonly length: number
  }
}

export const BOBBIN_CLASSES = ['L', '15', 'M'] as const
export type BobbinClass = (typeof BOBBIN_CLASSES)[number]

export interface ThreadPlan {
  /** g per km */
  readonly tex: number
  /** `#rrggbb` */
  readonly colour: string
  /** Thread on one bobbin, m. */
  readonly bobbinM: number
  /** The class from which the bobbin's capacity was estimated. Undefined: the plan says how much it holds. */
  readonly bobbinClass: BobbinClass | undefined
  /** Whether the bobbin's capacity is an estimate from its class. */
  readonly isEstimate: boolean
  /** Thread on a spool, m. Undefined: not said. */
  readonly spoolM: number | undefined
  /** Thread left at either end of a line, to bury, mm. */
  readonly tail: number
  /** Share added for waste. */
  readonly waste: number
  /** Threads to choose between. */
  readonly candidates: readonly { readonly name: string; readonly colour: string }[]
}

export interface BattingPlan {
  readonly kind: string
  /** Greatest distance allowed between lines of quilting, mm. */
  readonly limit: number
  /** Thickness of the sandwich under a stitch, mm. */
  readonly thickness: number
  /** Share by which it may shrink in the wash. */
  readonly shrinkage: number
}

/**
 * Where a line begins or ends. Corners and sides are numbered clockwise from the top left and the top; on point from the left
 * and the upper left.
 */
export type Place =
  | { readonly kind: 'anywhere' }
  | { readonly kind: 'corner'; readonly corner: number }
  | { readonly kind: 'side'; readonly band: string; readonly side: number }

/** A seam to be stitched, as the quilt numbers them: a `ring` lies inside band `band`. */
export interface DitchSeam {
  readonly kind: 'ring' | 'corner' | 'patch'
  /** Index of the band, from 0. */
  readonly band: number
}

export interface RoutePlan {
  readonly start: Place
  readonly end: Place
  readonly order: 'any' | 'middle-out' | 'outside-in'
  /** Area by area, a lap of each band, or whichever costs less. */
  readonly work: 'any' | 'areas' | 'laps'
  readonly ditch: readonly DitchSeam[]
  /** When the seams are stitched in the ditch: before everything else, as part of the line, or whichever costs less. */
  readonly ditchOrder: 'any' | 'first' | 'along'
  /** What a full turn of the quilt weighs, in moves of the quilt. */
  readonly turning: number
}

/** How much of a region's edge is stitched. */
export const REGION_OUTLINES = ['whole', 'as-needed'] as const satisfies readonly AvoidedRegion['outline'][]

/** The outer size of a band (or of the centre) as measured on the real quilt, mm. */
export interface MeasuredPlan {
  /** Index of the band, from 0; -1 for the centre. */
  readonly band: number
  /** Left to right: along the top edge, through the middle, along the bottom edge. */
  readonly across: readonly [number, number, number]
  /** Top to bottom: along the left edge, through the middle, along the right edge. */
  readonly down: readonly [number, number, number]
  /** Top left to bottom right, top right to bottom left. */
  readonly diagonals?: readonly [number, number]
}

/** A motif that the plan draws itself: by a file beside it or by a path in it. */
export interface DrawnMotifPlan {
  readonly name: string
  /** The file's name. */
  readonly drawing?: string
  /** SVG path data. */
  readonly path?: string
  /** What was drawn. */
  readonly shape: RepeatShape
  /** Finished widths that it suits, mm. */
  readonly suits: { readonly min: number; readonly max: number }
}

/** A plan that has been read, checked and completed: lengths in mm. */
export interface Plan {
  readonly title: string
  /** The units that the plan is written in, and that its owner reads. */
  readonly units: LengthUnit
  readonly centre: {
    readonly shape: OutlineName
    /** Of any shape but a rectangle: finished size from flat to flat, mm. A square on point is as large as its side. */
    readonly across: number | undefined
    /** Finished size, mm; of any shape but a rectangle that of the box round it as it lies on the quilt. */
    readonly width: number
    readonly height: number
    readonly fabric: readonly FabricColour[]
    readonly filler: FillerChoice | undefined
    /** The plan leaves the choice of the filler to the program. */
    readonly auto: boolean
  }
  /** From the inside out. */
  readonly bands: readonly BandPlan[]
  /** One filler over the whole quilt, whatever its bands are. Undefined: the bands have fillers of their own. */
  readonly allOver: FillerChoice | undefined
  /** Motifs of its own. */
  readonly motifs: readonly DrawnMotifPlan[]
  /** What the binding covers on the front, mm: nothing is stitched there. */
  readonly binding: number
  /** `#rrggbb` */
  readonly bindingFabric: string
  readonly machine: MachinePlan
  readonly stitch: StitchPlan
  readonly thread: ThreadPlan
  readonly batting: BattingPlan
  /** `auto`: spacings that the plan doesn't give are chosen for even quilting; `own`: fillers keep their own. */
  readonly spacing: 'auto' | 'own'
  readonly density: 'light' | 'medium' | 'dense'
  readonly route: RoutePlan
  readonly avoid: readonly AvoidedRegion[]
  readonly measured: readonly MeasuredPlan[]
  readonly seed: number
}
