import type { Params, ValuesOf } from '../motif/contract.ts'
import type { Sides } from '../quilt/layout.ts'
import type { Corners } from '../quilt/quilt.ts'
import type { LengthUnit } from '../units.ts'

/** A filler with every value settled (lengths in mm), and which of them the plan gave itself. */
export interface FillerChoice {
  readonly name: string
  readonly values: ValuesOf<Params>
  readonly given: readonly string[]
}

/** A colour and the share of the fabric that has it, 0..1. */
export interface FabricColour {
  readonly colour: string
  readonly share: number
}

export interface BandPlan {
  readonly name: string
  /** Finished widths, mm. */
  readonly width: Sides
  /** Undefined leaves the band unquilted. */
  readonly filler: FillerChoice | undefined
  readonly fabric: readonly FabricColour[]
  readonly corners: Corners
}

/** How the machine works. */
export interface MachinePlan {
  readonly kind: 'domestic' | 'frame'
  /** Width and height of what is stitched without moving the quilt, mm. */
  readonly reach: readonly [number, number]
  /** Stitches per minute. */
  readonly speed: number
}

export interface StitchPlan {
  /** mm */
  readonly length: number
  readonly tieOffs: number
}

export interface ThreadPlan {
  readonly tex: number
  readonly colour: string
  /** Thread on one bobbin, m. */
  readonly bobbinM: number
  /** The bobbin's capacity is an estimate from its class. */
  readonly isEstimate: boolean
  /** Share added for waste. */
  readonly waste: number
  /** Left at either end of a thread, mm. */
  readonly tail: number
  /** Thread on one spool, m. */
  readonly spoolM: number
  /** The plan does not say what a spool holds. */
  readonly spoolIsAssumed: boolean
  /** Threads to choose between. */
  readonly candidates: readonly { readonly name: string; readonly colour: string }[]
}

export interface BattingPlan {
  readonly kind: string
  /** Greatest distance allowed between lines of quilting, mm. */
  readonly limit: number
  /** Thickness of the sandwich under a stitch, mm. */
  readonly thickness: number
}

/** How long things take: seconds, mm, and a share of the speed. */
export interface TimePlan {
  readonly tightCurveSpeed: number
  readonly tightRadius: number
  readonly reposition: number
  readonly bobbin: number
  readonly start: number
  readonly advance: number
}

/** Where a line begins or ends. */
export type Place =
  | { readonly kind: 'anywhere' }
  | { readonly kind: 'corner'; readonly corner: number }
  | { readonly kind: 'side'; readonly band: string; readonly side: number }

export interface RoutePlan {
  readonly start: Place
  readonly end: Place
  readonly order: 'any' | 'middle-out' | 'outside-in'
  readonly work: 'areas' | 'laps'
}

/** A plan that has been read, checked and completed: lengths in mm. */
export interface Plan {
  readonly title: string
  readonly units: LengthUnit
  readonly centre: {
    readonly width: number
    readonly height: number
    readonly fabric: readonly FabricColour[]
    readonly filler: FillerChoice | undefined
  }
  /** From the inside out. */
  readonly bands: readonly BandPlan[]
  /** What the binding covers, mm. */
  readonly binding: number
  readonly bindingFabric: string
  readonly machine: MachinePlan
  readonly stitch: StitchPlan
  readonly thread: ThreadPlan
  readonly batting: BattingPlan
  readonly time: TimePlan
  readonly route: RoutePlan
  readonly seed: number
}
