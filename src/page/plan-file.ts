import type { SideName } from '../plan/plan.ts'
import type { LengthUnit } from '../units.ts'

/** A size as a plan file says it. */
export type Written = string | number

/** A filler as a plan file says it: a name, a name with values, or one for each patch of a pieced band. */
type WrittenFiller = string | Readonly<Record<string, unknown>>

/** How a band is pieced, as a plan file says it. */
interface PiecedFile {
  readonly unit?: string
  readonly size?: Written
  readonly fabrics?: Readonly<Record<string, string>>
  readonly polygons?: readonly { readonly name: string }[]
}

export interface BandFile {
  readonly name?: string
  readonly width?: Written | Readonly<Record<SideName, Written>>
  readonly cut?: Written | Readonly<Record<SideName, Written>>
  readonly filler?: WrittenFiller
  readonly sides?: Partial<Readonly<Record<SideName, WrittenFiller>>>
  readonly corners?: string | { readonly butted: string }
  readonly cornerstone?: string
  readonly pieced?: PiecedFile
}

/**
 * The parts of a plan file that the page reads itself, as they are written; all other keys have fields from the file's
 * format. Whether any of it is right is for the planner to say.
 */
export interface PlanFile {
  readonly title?: string
  readonly units?: LengthUnit
  readonly centre: {
    readonly shape?: string
    readonly width?: Written
    readonly height?: Written
    readonly across?: Written
  }
  readonly bands: readonly BandFile[]
  readonly binding?: Written
}
