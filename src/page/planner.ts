import workerText from 'virtual:worker-text'
import type { Answer, MadeFile, Question, WriteWish } from './worker/messages.ts'

type Ask = Question extends infer Q ? (Q extends Question ? Omit<Q, 'id'> : never) : never

/** A worker that is asked one thing after another, and tells its answers to whoever listens. */
export class Planner {
  #worker: Worker | undefined
  #asked = 0
  #answered = 0
  #heard = 0

  constructor(
    readonly parts: readonly string[],
    readonly listen: (answer: Answer) => void,
  ) {}

  /** Asks; the number returned is the id of the answers. */
  ask(question: Ask): number {
    const id = ++this.#asked
    if (!this.isBusy) this.#heard = performance.now()
    this.#started().postMessage({ ...question, id })
    return id
  }

  get isBusy(): boolean {
    return this.#answered < this.#asked
  }

  /** Stops what is in work if nothing has been heard of it for longer than `ms`, because it is no longer wanted. */
  dropIfSilent(ms: number): void {
    if (!this.isBusy || performance.now() - this.#heard < ms) return
    this.#worker?.terminate()
    this.#worker = undefined
    this.#answered = this.#asked
  }

  #started(): Worker {
    if (this.#worker) return this.#worker
    const url = URL.createObjectURL(new Blob([...this.parts], { type: 'text/javascript' }))
    this.#worker = new Worker(url)
    this.#worker.onmessage = ({ data }: MessageEvent<Answer>) => {
      this.#heard = performance.now()
      if (!IN_BETWEEN.has(data.say)) this.#answered = Math.max(this.#answered, data.id)
      this.listen(data)
    }
    return this.#worker
  }
}

/** Answers that others follow. */
const IN_BETWEEN: ReadonlySet<Answer['say']> = new Set(['laid', 'preview', 'scene', 'close-up', 'way'])

export const startPlanner = (listen: (answer: Answer) => void): Planner => new Planner([workerText], listen)

/** The PDF library, which lies in the page as text until sheets are made. */
const pdfPart = (): string => document.getElementById('pdf-part')?.textContent ?? ''

let writer: Planner | undefined
const waiting = new Map<number, (answer: Answer) => void>()

/** Makes files in a worker of their own, which is the only one with the PDF part. */
export function makeFiles(text: string, wish: WriteWish): Promise<readonly MadeFile[]> {
  writer ??= new Planner([pdfPart(), '\n', workerText], (answer) => {
    waiting.get(answer.id)?.(answer)
    waiting.delete(answer.id)
  })
  const id = writer.ask({ ask: 'write', text, wish })
  return new Promise((resolve, reject) => {
    waiting.set(id, (answer) => {
      if (answer.say === 'files') resolve(answer.files)
      else if (answer.say === 'refused') reject(new Error(answer.problems.map((p) => p.message).join('\n')))
      else reject(new Error(answer.say === 'fault' ? answer.message : 'no files came'))
    })
  })
}
