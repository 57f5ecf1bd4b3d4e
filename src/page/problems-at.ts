import { pathText } from './paths.ts'
import type { Path } from './plan-text.ts'
import { problems } from './planning.ts'

/** What the planner says about a place of the plan, or about what lies in it. */
export function problemAt(path: Path): string | undefined {
  const at = pathText(path)
  const isWithin = (place: string) => place.startsWith(at) && /^($|[.[])/.test(place.slice(at.length))
  const found = problems.value.filter((problem) => isWithin(problem.at))
  return found.length > 0
    ? found.map(({ message, hint }) => (hint ? `${message} (${hint})` : message)).join('; ')
    : undefined
}
