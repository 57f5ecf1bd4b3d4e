import * as z from 'zod'
import { LIBRARY } from '../../../motifs/library.ts'
import { compareStrategies } from '../../compare.ts'
import { catalogOf } from '../../engine-input.ts'
import { PlanError } from '../../error.ts'
import { acceptPlan, type PlannedQuilt, planFromText } from '../../pipeline.ts'
import type { Answer, Question } from './messages.ts'
import { pageCatalog } from './page-catalog.ts'
import { PlanRounds } from './plan-rounds.ts'
import { drawSwatches } from './swatch.ts'
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
      self.postMessage({ say: 'catalog', id, catalog: pageCatalog(CATALOG) })
      return
    case 'plan':
      await rounds.take(question)
      return
    case 'compare': {
      let done = 0
      const { plan } = acceptPlan(question.text, CATALOG)
      const comparison = compareStrategies(plan, CATALOG, () =>
        self.postMessage({ say: 'way', id, done: done++ }),
      )
      self.postMessage({ say: 'compared', id, comparison })
      return
    }
    case 'swatches':
      self.postMessage({ say: 'swatches', id, wish: question.wish, swatches: drawSwatches(question.wish) })
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
