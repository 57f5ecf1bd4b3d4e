import {
  acceptPlan,
  gapTaskOf,
  type PlannedQuilt,
  reckonQuilt,
  tellQuilt,
  withPlaces,
} from '../../pipeline.ts'
import type { Catalog } from '../../plan/catalog.ts'
import { withDrawnMotifs } from '../../plan/drawn-catalog.ts'
import { type Plan, SIDES } from '../../plan/plan.ts'
import { replannerOf } from '../../replan.ts'
import { findGaps } from '../../report/find-gaps.ts'
import { figuresOf } from '../../report/report-page.ts'
import type { Answer, Chain, Figured, Laid, StepTimes } from './messages.ts'
import { entriesOf } from './page-catalog.ts'
import { piecedSwatch } from './pieced-swatch.ts'
import { closeUpOf, previewOf, sceneOf } from './scene.ts'
import { swatchOf } from './swatch.ts'

/** A plan to be carried through, and what it is asked by. */
export interface Round {
  readonly id: number
  readonly text: string
}

type Say = (answer: Answer, transfer?: ArrayBufferLike[]) => void

/** Resolves when whatever else has come to the worker meanwhile has been heard. */
function otherNews(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel()
    port1.onmessage = () => {
      port1.close()
      resolve()
    }
    port2.postMessage(undefined)
  })
}

/**
 * Plans round after round, each in stages: sizes and fillers, the picture, the picture seen closely, the figures. A newer
 * plan takes the place of the one in work between two steps. Only a picture that follows one left off is finished in any
 * case: so that under a slider that never rests pictures still come.
 */
export class PlanRounds {
  readonly #replanner
  #next: Round | undefined
  #isAtWork = false
  #wasLeftOff = false

  constructor(
    readonly catalog: Catalog,
    readonly say: Say,
    readonly fail: (error: unknown, id: number) => void,
  ) {
    this.#replanner = replannerOf(catalog)
  }

  /** Takes a plan on; it comes next. */
  async take(round: Round): Promise<void> {
    this.#next = round
    if (this.#isAtWork) return
    this.#isAtWork = true
    while (this.#next) {
      const now: Round = this.#next
      this.#next = undefined
      try {
        await this.#plan(now)
      } catch (error) {
        this.fail(error, now.id)
      }
    }
    this.#isAtWork = false
  }

  async #plan({ id, text }: Round): Promise<void> {
    const took = stopwatch()
    const { plan, warnings, locate } = acceptPlan(text, this.catalog)
    const sayLaid = (settled: Plan) =>
      this.say({ say: 'laid', id, laid: laidOut(settled, withDrawnMotifs(this.catalog, plan.motifs)) })
    sayLaid(plan)
    const read = took()
    const filled = withPlaces(locate, () => this.#replanner.fill(plan))
    // What the plan leaves open has been chosen by now.
    if (filled.choices) sayLaid(filled.plan)
    const fill = took()
    const preview = previewOf(filled)
    this.say({ say: 'preview', id, preview }, buffersOf(preview.lines))
    if (await this.#leavesPicture()) return
    took()
    const threaded = withPlaces(locate, () => this.#replanner.thread(filled))
    const thread = took()
    if (await this.#leavesPicture()) return
    took()
    const scene = sceneOf(threaded)
    const times: StepTimes = { read, fill, thread, draw: took() }
    this.say({ say: 'scene', id, scene, took: times }, buffersOf(scene.lines))
    this.#wasLeftOff = false
    if (await this.#hasNews()) return
    const chains = closeUpOf(threaded.drawing.lines, scene)
    this.say({ say: 'close-up', id, chains }, buffersOf(chains))
    if (await this.#hasNews()) return
    const gapTask = gapTaskOf(threaded)
    const reckoned = reckonQuilt(threaded, gapTask)
    if (await this.#hasNews()) return
    const gaps = findGaps(gapTask)
    if (await this.#hasNews()) return
    const figured = figuredOf(tellQuilt(reckoned, { gaps, warnings }))
    this.say({ say: 'figured', id, figured }, [figured.needles.buffer])
  }

  async #hasNews(): Promise<boolean> {
    await otherNews()
    return this.#next !== undefined
  }

  async #leavesPicture(): Promise<boolean> {
    if (!(await this.#hasNews()) || this.#wasLeftOff) return false
    this.#wasLeftOff = true
    return true
  }
}

/** Tells how long it is since it was last asked, ms. */
function stopwatch(): () => number {
  let last = performance.now()
  return () => {
    const now = performance.now()
    const took = now - last
    last = now
    return took
  }
}

const buffersOf = (chains: readonly Chain[]): ArrayBufferLike[] =>
  chains.flatMap(({ xy, along }) => [xy.buffer, along.buffer])

/** The filler, or the piecing, of each band in a strip of the band's own width. */
function laidOut(plan: Plan, { motifs }: Catalog): Laid {
  const swatches = plan.bands.map((band, index) => {
    const mean = SIDES.reduce((sum, side) => sum + band.width[side], 0) / SIDES.length
    if (band.pieced) return piecedSwatch(band, index, mean)
    const motif = band.filler && motifs[band.filler.name]
    return motif && swatchOf({ motif, ...band.filler! }, mean)
  })
  const own = plan.motifs.map(({ name }) => [name, motifs[name]!] as const)
  return { plan, swatches, own: entriesOf(Object.fromEntries(own)) }
}

/** Every figure, and where each needle point lies along the work. */
export function figuredOf({ report, reckoning }: PlannedQuilt): Figured {
  const needles = new Float32Array(reckoning.stitches.reduce((sum, { along }) => sum + along.length, 0))
  let [count, begun] = [0, 0]
  for (const stitches of reckoning.stitches) {
    for (const along of stitches.along) needles[count++] = begun + along
    begun += stitches.lineMm
  }
  return { report, figures: figuresOf(report), needles }
}
