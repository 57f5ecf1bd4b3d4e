import type { Comparison } from '../../compare.ts'
import type { Problem } from '../../error.ts'
import type { ExportParams } from '../../export/exporter.ts'
import type { Params } from '../../motif/contract.ts'
import type { Option } from '../../plan/options.ts'
import type { Plan } from '../../plan/plan.ts'
import type { Quilt } from '../../quilt/quilt.ts'
import type { Report } from '../../report/report.ts'
import type { PartKind } from '../../stitch/line.ts'

/** A chain of chords: x, y, x, y ... in mm. */
export type Chords = Float32Array

/** A thread start as a chain of chords, and how far along the whole work each point lies, mm. */
export interface Chain {
  readonly xy: Chords
  readonly along: Float32Array
}

/** What a part of the line is, and where it lies in the line's chain (indices of points) and along the work (mm). */
export interface ScenePart {
  readonly kind: PartKind
  readonly band: number | undefined
  readonly area: number
  readonly reason: string | undefined
  readonly thread: number
  /** First and last point. */
  readonly points: readonly [number, number]
  /** Where it begins and ends along the whole work, mm. */
  readonly along: readonly [number, number]
}

/** One thread start, fine enough to look at from afar. */
export interface SceneLine extends Chain {
  readonly colour: string
}

/** What the picture shows. */
export interface Scene {
  readonly quilt: Quilt
  readonly bindingFabric: string
  readonly lines: readonly SceneLine[]
  readonly parts: readonly ScenePart[]
  readonly areaCount: number
  readonly lengthMm: number
}

/** How long the steps to a picture took in the worker, ms. */
export interface StepTimes {
  readonly read: number
  readonly fill: number
  readonly thread: number
  readonly draw: number
}

/** A filler drawn in a straight strip, or in a patch: SVG path data in the cloth's frame, mm. */
export interface Swatch {
  readonly data: string
  readonly width: number
  readonly length: number
  /** The patches of pieced cloth. */
  readonly patches?: readonly { readonly data: string; readonly fabric: string }[]
}

/** A filler as the page's menus need it. */
export interface FillerEntry {
  readonly id: string
  readonly title: string
  readonly params: Params
  /** The widths that it suits, mm. */
  readonly suits: { readonly min: number; readonly max: number }
}

/** An output format as the page's menus need it. */
export interface FormatEntry {
  readonly id: string
  readonly title: string
  readonly purpose: string
  readonly extension: string
  readonly options: ExportParams
}

/** What can be filled: a band's length, the centre, a cornerstone, a patch of a pieced band. */
export type Family = 'bands' | 'centre' | 'corners' | 'patches'

/** What the worker knows from the start. */
export interface PageCatalog {
  readonly fillers: Readonly<Record<Family, readonly FillerEntry[]>>
  readonly formats: readonly FormatEntry[]
  /** The names of the patches of each pieced unit. */
  readonly units: Readonly<Record<string, readonly string[]>>
  /** Every key that a plan file may have. */
  readonly options: Readonly<Record<string, Option>>
}

/** Fillers of one family to be drawn at one width, mm. */
export interface SwatchWish {
  readonly family: Family
  readonly width: number
}

/** What the worker made of the plan file before it looked for a way. */
export interface Laid {
  readonly plan: Plan
  /** The filler of each band in a strip of the band's width; undefined for a band without one. */
  readonly swatches: readonly (Swatch | undefined)[]
  /** The motifs that the plan draws itself. */
  readonly own: readonly FillerEntry[]
}

/** Every figure, and where each needle point lies along the work, mm. */
export interface Figured {
  readonly report: Report
  readonly figures: readonly { readonly label: string; readonly value: string }[]
  readonly needles: Float32Array
}

export interface MadeFile {
  readonly name: string
  readonly mediaType: string
  readonly content: string | Uint8Array
}

export type WriteWish =
  | { readonly what: 'picture' | 'report' | 'report-page' | 'line' | 'order-pdf' | 'order-svg' }
  | { readonly what: 'sheets'; readonly options: Readonly<Record<string, unknown>> }
  | {
      readonly what: 'path'
      readonly format: string
      readonly options: Readonly<Record<string, unknown>>
    }

/** What the page asks of a worker. Answers carry the same id. A `plan` takes the place of one that came before it. */
export type Question =
  | { readonly ask: 'catalog'; readonly id: number }
  | { readonly ask: 'plan'; readonly id: number; readonly text: string }
  | { readonly ask: 'compare'; readonly id: number; readonly text: string }
  | { readonly ask: 'swatches'; readonly id: number; readonly wish: SwatchWish }
  | { readonly ask: 'write'; readonly id: number; readonly text: string; readonly wish: WriteWish }

/**
 * A plan is answered in stages: laid, preview (the fillers before the way through them is found: a scene without parts, in
 * which strokes end where a place is not a number), scene, close-up, figured; or
 * refused.
 */
export type Answer =
  | { readonly say: 'catalog'; readonly id: number; readonly catalog: PageCatalog }
  | { readonly say: 'laid'; readonly id: number; readonly laid: Laid }
  | { readonly say: 'preview'; readonly id: number; readonly preview: Scene }
  | { readonly say: 'scene'; readonly id: number; readonly scene: Scene; readonly took: StepTimes }
  | { readonly say: 'close-up'; readonly id: number; readonly chains: readonly Chain[] }
  | { readonly say: 'figured'; readonly id: number; readonly figured: Figured }
  | {
      readonly say: 'swatches'
      readonly id: number
      readonly wish: SwatchWish
      readonly swatches: Readonly<Record<string, Swatch>>
    }
  | { readonly say: 'way'; readonly id: number; readonly done: number }
  | { readonly say: 'compared'; readonly id: number; readonly comparison: Comparison }
  | { readonly say: 'files'; readonly id: number; readonly files: readonly MadeFile[] }
  | { readonly say: 'refused'; readonly id: number; readonly problems: readonly Problem[] }
  | { readonly say: 'fault'; readonly id: number; readonly message: string }
