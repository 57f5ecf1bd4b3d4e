import type { FabricColour, Plan } from '../plan/plan.ts'
import { outlineArea } from '../quilt/outline.ts'
import type { Quilt } from '../quilt/quilt.ts'
import {
  type BandFabrics,
  labOf,
  rankThreads,
  type ThreadColour,
  type ThreadContrast,
  VISIBILITY_SCALE,
} from '../stitch/thread-colour.ts'
import { bandArea } from './band-area.ts'
import { isQuilted } from './is-quilted.ts'
import { PLAIN_THREADS } from './plain-threads.ts'

/** How threads look on a quilt's fabrics: the form of `ditchline thread --json`. */
export interface ThreadChoice {
  readonly title: string
  /** From blending to showing; the last step has no end. */
  readonly scale: readonly {
    readonly below: number | null
    readonly visibility: string
    readonly meaning: string
  }[]
  /** What the threads are compared with. `share` is the band's share of all the quilted cloth. */
  readonly bands: readonly {
    readonly name: string
    readonly fabrics: readonly FabricColour[]
    readonly share: number
  }[]
  /** Whether the threads are the plan's own candidates, or a list of plain colours. */
  readonly candidates: 'from the plan' | 'plain colours'
  /** The thread that the plan is drawn with. */
  readonly planned: ThreadVerdict
  /** Every candidate, the best to blend first. */
  readonly blending: readonly ThreadVerdict[]
  /** Names, the best to show first. */
  readonly showing: readonly string[]
}

export type ThreadVerdict = ThreadContrast & { readonly colour: string }

/** The name that the plan's own thread goes by in a comparison. */
const PLANNED = "the plan's thread"

/**
 * Compares threads with the fabrics of the bands and the centre where they are quilted (of all bands, if nothing is): the plan's candidates, or
 * plain colours if it has none.
 *
 * @throws PlanError for a colour that is none
 */
export function chooseThread(plan: Plan, quilt: Quilt): ThreadChoice {
  const own = plan.thread.candidates
  const threads = own.length > 0 ? own : PLAIN_THREADS
  const bands = comparedBands(plan, quilt)
  const total = bands.reduce((sum, { areaMm2 }) => sum + areaMm2, 0)
  const fabrics = bands.map(asFabrics)
  const { blending, showing } = rankThreads(threads.map(asThread), fabrics)
  const planned = rankThreads([asThread({ name: PLANNED, colour: plan.thread.colour })], fabrics).blending[0]!
  const colourOf = new Map(threads.map(({ name, colour }) => [name, colour]))
  return {
    title: plan.title,
    scale: VISIBILITY_SCALE.map((step) => ({
      ...step,
      below: Number.isFinite(step.below) ? step.below : null,
    })),
    bands: bands.map(({ name, fabric, areaMm2 }) => ({ name, fabrics: fabric, share: areaMm2 / total })),
    candidates: own.length > 0 ? 'from the plan' : 'plain colours',
    planned: { ...planned, colour: plan.thread.colour },
    blending: blending.map((contrast) => ({ ...contrast, colour: colourOf.get(contrast.name)! })),
    showing: showing.map(({ name }) => name),
  }
}

interface ComparedBand {
  readonly name: string
  readonly fabric: readonly FabricColour[]
  readonly areaMm2: number
}

function comparedBands(plan: Plan, quilt: Quilt): ComparedBand[] {
  const all = plan.bands.map((band, index) => ({
    name: band.name,
    fabric: patchFabrics(quilt, index) ?? band.fabric,
    isQuilted: plan.allOver !== undefined || isQuilted(band),
    areaMm2: bandArea(quilt, index),
  }))
  const centre = {
    name: 'centre',
    fabric: plan.centre.fabric,
    isQuilted: (plan.allOver ?? plan.centre.filler) !== undefined,
    areaMm2: Math.abs(outlineArea(quilt.rings[0]!)),
  }
  const quilted = [centre, ...all].filter((part) => part.isQuilted)
  return quilted.length > 0 ? quilted : all
}

/** The colours of a pieced band's patches by their area; undefined for a band that isn't pieced. */
function patchFabrics(quilt: Quilt, band: number): FabricColour[] | undefined {
  const patches = (quilt.patches ?? []).filter((patch) => patch.band === band)
  if (patches.length === 0) return undefined
  const areas = new Map<string, number>()
  for (const { fabric, outline } of patches)
    areas.set(fabric, (areas.get(fabric) ?? 0) + Math.abs(outlineArea(outline)))
  const total = [...areas.values()].reduce((sum, area) => sum + area, 0)
  return [...areas].map(([colour, area]) => ({ colour, share: area / total }))
}

const asThread = ({ name, colour }: { readonly name: string; readonly colour: string }): ThreadColour => ({
  name,
  colour: labOf(colour),
})

/** A colour without a share takes no part. */
const asFabrics = ({ name, fabric, areaMm2 }: ComparedBand): BandFabrics => ({
  name,
  weight: areaMm2,
  fabrics: fabric
    .filter(({ share }) => share > 0)
    .map(({ colour, share }) => ({ colour: labOf(colour), share })),
})
