import * as z from 'zod'
import { MOTIFS } from '../../../motifs/index.ts'
import { LIBRARY } from '../../../motifs/library.ts'
import { catalogOf } from '../../engine-input.ts'
import { PlanError } from '../../error.ts'
import { EXPORTERS } from '../../export/index.ts'
import { type PlannedQuilt, planFromText } from '../../pipeline.ts'
import { BATTINGS } from '../../plan/materials.ts'
import type { Answer, PageCatalog, Question } from './messages.ts'
import { PlanRounds } from './plan-rounds.ts'
import { drawAllSwatches } from './swatch.ts'
import { writeFiles } from './write-files.ts'

// The page allows no code made from text.
z.config({ jitless: true })

const CATALOG = catalogOf(LIBRARY)

declare const self: {
  onmessage: (event: { data: Question }) => void
  postMessage(answer: Answer, transfer?: ArrayBufferLike[]): void
}

const rounds = new PlanRounds(CATALOG, (answer, transfer) => self.postMessage(answer, transfer), sayFailed)

self.onmessage = async ({ data: question }) => {
  try {
    await answer(question)
  } catch (error) {
    sayFailed(error, question.id)
  }
}

function sayFailed(error: unknown, id: number): void {
  if (error instanceof PlanError) self.postMessage({ say: 'refused', id, problems: error.problems })
  else self.postMessage({ say: 'fault', id, message: error instanceof Error ? error.message : String(error) })
}

async function answer(question: Question): Promise<void> {
  const { id } = question
  switch (question.ask) {
    case 'catalog':
      self.postMessage({ say: 'catalog', id, catalog: pageCatalog() })
      return
    case 'plan':
      await rounds.take(question)
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

/** The last plan that was carried through: all its files are made from the same one. */
let last: { readonly text: string; readonly planned: PlannedQuilt } | undefined

function planned(text: string): PlannedQuilt {
  if (last?.text !== text) last = { text, planned: planFromText(text, CATALOG) }
  return last.planned
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
