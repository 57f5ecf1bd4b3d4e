import { PlanError } from '../../src/error.ts'

/** What an act is refused for, in full: `thread/setting thread.tail: 1001 mm is not allowed; ...`. None if it is not. */
export function refusalsOf(act: () => unknown): string[] {
  try {
    act()
  } catch (error) {
    if (error instanceof PlanError)
      return error.problems.map(({ code, at, message }) => `${code} ${at}: ${message}`)
    throw error
  }
  return []
}
