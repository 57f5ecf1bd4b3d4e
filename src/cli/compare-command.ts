import { compareStrategies } from '../compare.ts'
import { acceptPlan } from '../pipeline.ts'
import { LIMITS } from '../plan/limits.ts'
import { strategiesText, strategyName } from '../report/strategies.ts'
import { readText } from './files.ts'
import { catalogBeside } from './plan-catalog.ts'
import { Progress } from './progress.ts'
import { attempt, terminal } from './run.ts'

/** `ditchline compare FILE`: ways to work a quilt side by side, and which to take. */
export function compareCommand(file: string, { json = false }: { json?: boolean }): Promise<number> {
  const progress = new Progress()
  const work = () => {
    const catalog = catalogBeside(file)
    const { plan } = acceptPlan(readText(file, LIMITS.fileBytes), catalog)
    const comparison = compareStrategies(plan, catalog, (what) => progress.say(`Trying ${what} ...`))
    progress.done()
    const named = {
      ...comparison,
      strategies: comparison.strategies.map((s) => ({ name: strategyName(s), ...s })),
    }
    terminal.out(json ? JSON.stringify(named, null, 2) : strategiesText(comparison, plan.units))
  }
  return attempt(work, { file, to: terminal }).finally(() => progress.done())
}
