/** One thing that is wrong with what the user gave, and where. */
export interface Problem {
  /** Machine-readable, `area/problem`: `plan/unknown-key`. */
  readonly code: string
  /** What was wrong, the value, and what is allowed. */
  readonly message: string
  /** The place in the plan: `bands[2].width`; empty for the whole. */
  readonly at: string
  /** What to do about it, if that is known: "did you mean scallop?". */
  readonly hint?: string
  /** Line and column in the file, both from 1. */
  readonly position?: { readonly line: number; readonly column: number }
}

/**
 * Input that cannot be planned. Carries every problem found, so that a file is mended in one go.
 */
export class PlanError extends Error {
  readonly problems: readonly Problem[]

  constructor(problems: Problem | readonly Problem[]) {
    const all: readonly Problem[] = Array.isArray(problems) ? problems : [problems as Problem]
    super(all.map((p) => (p.at ? `${p.at}: ${p.message}` : p.message)).join('\n'))
    this.name = 'PlanError'
    this.problems = all
  }

  /** The code of the first problem. */
  get code(): string {
    return this.problems[0]?.code ?? 'plan/unknown'
  }
}

/**
 * States what the program relies on. A failure is our bug, never the user's.
 *
 * @throws Error if `condition` is false
 */
export function invariant(condition: unknown, message: string): asserts condition {
  if (!condition) throw new Error(`broken invariant: ${message}`)
}
