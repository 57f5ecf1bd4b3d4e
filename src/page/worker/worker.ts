import * as z from 'zod'
import { MOTIFS } from '../../../motifs/index.ts'
import { LIBRARY } from '../../../motifs/library.ts'
import { catalogOf } from '../../engine-input.ts'
import { PlanError } from '../../error.ts'
import { EXPORTERS } from '../../export/index.ts'
import {
  acceptPlan,
  fillQuilt,
  type PlannedQuilt,
  planFromText,
  type ThreadedQuilt,
  threadQuilt,
} from '../../pipeline.ts'
import { BATTINGS } from '../../plan/materials.ts'
import { figuresOf } from '../../report/report-page.ts'
import type { Answer, Figured, Laid, PageCatalog, Question, Scene } from './messages.ts'
import { sceneOf } from './scene.ts'
import { drawAllSwatches, drawSwatch } from './swatch.ts'
import { writeFiles } from './write-files.ts'

// The page allows no code made from text.
z.config({ jitless: true })

const CATALOG = catalogOf(LIBRARY)

declare const self: {
  onmessage: (event: { data: Question }) => void
  postMessage(answer: Answer, transfer?: ArrayBufferLike[]): void
}

self.onmessage = async ({ data: question }) => {
  const { id } = question
  try {
    await answer(question)
  } catch (error) {
    if (error instanceof PlanError) self.postMessage({ say: 'refused', id, problems: error.problems })
    else
      self.postMessage({ say: 'fault', id, message: error instanceof Error ? error.message : String(error) })
  }
}

async function answer(question: Question): Promise<void> {
  const { id } = question
  switch (question.ask) {
    case 'catalog':
      self.postMessage({ say: 'catalog', id, catalog: pageCatalog() })
      return
    case 'sketch':
      sketch(id, question.text)
      return
    case 'figure':
      self.postMessage({ say: 'figured', id, figured: figure(planned(question.text)) })
      return
    case 'swatches':
      self.postMessage({ say: 'swatches', id, swatches: drawAllSwatches(question.width) })
      return
    case 'write': {
      const files = await writeFiles(planned(question.text), question.wish)
      self.postMessage({ say: 'files', id, files })
    }
  }
}

/** The picture as fast as it can be had: sizes and fillers first, then the line. */
function sketch(id: number, text: string): void {
  const began = performance.now()
  const { plan } = acceptPlan(text, CATALOG)
  const filled = fillQuilt(plan, CATALOG)
  self.postMessage({ say: 'laid', id, laid: laidOut(filled.plan) })
  sendScene(id, { threaded: threadQuilt(filled, CATALOG), began })
}

function sendScene(id: number, { threaded, began }: { threaded: ThreadedQuilt; began: number }): void {
  const scene = sceneOf(threaded)
  self.postMessage({ say: 'scene', id, scene, tookMs: performance.now() - began }, buffersOf(scene))
}

const buffersOf = (scene: Scene): ArrayBufferLike[] =>
  scene.lines.flatMap((line) => [
    line.fine.buffer,
    line.coarse.buffer,
    line.fineAlong.buffer,
    line.coarseAlong.buffer,
  ])

function laidOut(plan: Laid['plan']): Laid {
  const swatches = plan.bands.map(({ filler, width }) => {
    const mean = (width.top + width.right + width.bottom + width.left) / 4
    return filler && drawSwatch(filler.name, mean, filler.values)
  })
  return { plan, swatches }
}

/** The last plan that was carried through: figures and files are made from the same one. */
let last: { readonly text: string; readonly planned: PlannedQuilt } | undefined

function planned(text: string): PlannedQuilt {
  if (last?.text !== text) last = { text, planned: planFromText(text, CATALOG) }
  return last.planned
}

function figure({ report, reckoning }: PlannedQuilt): Figured {
  const needles: number[] = []
  let begun = 0
  for (const stitches of reckoning.stitches) {
    for (const along of stitches.along) needles.push(begun + along)
    begun += stitches.lineMm
  }
  return { report, figures: figuresOf(report), needles: Float32Array.from(needles) }
}

function pageCatalog(): PageCatalog {
  return {
    fillers: Object.entries(MOTIFS).map(([id, { title, params, suits }]) => ({ id, title, params, suits })),
    formats: Object.entries(EXPORTERS).map(([id, { title, purpose, extension, options }]) => ({
      id,
      title,
      purpose,
      extension,
      options,
    })),
    battings: Object.keys(BATTINGS),
  }
}
