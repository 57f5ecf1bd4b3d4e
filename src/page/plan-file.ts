import type { SideName } from '../plan/plan.ts'
import type { LengthUnit } from '../units.ts'

/** A size as a plan file says it. */
export type Written = string | number

/** A filler as a plan file says it: a name, a name with values, or one for each patch of a pieced band. */
export type WrittenFiller = string | Readonly<Record<string, unknown>>

export interface BandFile {
  readonly name?: string
  readonly width?: Written | Readonly<Record<SideName, Written>>
  readonly cut?: Written | Readonly<Record<SideName, Written>>
  readonly filler?: WrittenFiller
  readonly corners?: string | { readonly butted: string }
  readonly pieced?: unknown
}

/**
 * The parts of a plan file that the page has controls for, as they are written. What the file says besides stays in its
 * text untouched, and whether any of it is right is for the planner to say.
 */
export interface PlanFile {
  readonly title?: string
  readonly units?: LengthUnit
  readonly centre: { readonly width: Written; readonly height: Written; readonly filler?: WrittenFiller }
  readonly bands: readonly BandFile[]
  readonly binding?: Written
  readonly machine?: { readonly reach?: readonly [Written, Written] }
  readonly stitch?: { readonly length?: Written }
  readonly thread?: { readonly bobbin?: Written | object }
  readonly batting?: { readonly limit?: Written }
  readonly route?: {
    readonly start?: string | { readonly band: string; readonly side: string }
    readonly order?: string
    readonly work?: string
    readonly ditch?: string | readonly unknown[]
  }
}
