import { once } from 'node:events'
import { Worker } from 'node:worker_threads'
import type { GapTask, QuiltGaps } from '../report/find-gaps.ts'

/** Looks for gaps in a thread of its own, which starts up while the quilt is still being planned. */
export class GapSearch {
  readonly #worker = new Worker(new URL('./gap-worker.js', import.meta.url))

  /** @throws what the search throws */
  async find(task: GapTask): Promise<QuiltGaps> {
    this.#worker.postMessage(task)
    const [gaps] = await once(this.#worker, 'message')
    return gaps
  }

  async stop(): Promise<void> {
    await this.#worker.terminate()
  }
}
