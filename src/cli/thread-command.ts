import { layOutPlan } from '../engine-input.ts'
import { LIMITS } from '../plan/limits.ts'
import { readPlan } from '../plan/read-plan.ts'
import { chooseThread } from '../report/thread-choice.ts'
import { threadText } from '../report/thread-text.ts'
import { readText } from './files.ts'
import { catalogBeside } from './plan-catalog.ts'
import { attempt, terminal } from './run.ts'

/** `ditchline thread FILE`: how threads look on the quilt's fabrics. */
export function threadCommand(file: string, { json = false }: { json?: boolean }): Promise<number> {
  const work = () => {
    const { plan } = readPlan(readText(file, LIMITS.fileBytes), catalogBeside(file))
    const choice = chooseThread(plan, layOutPlan(plan).quilt)
    terminal.out(json ? JSON.stringify(choice, null, 2) : threadText(choice))
  }
  return attempt(work, { file, to: terminal })
}
