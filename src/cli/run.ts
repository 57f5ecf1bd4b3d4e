import { PlanError } from '../error.ts'
import { complaint } from './complain.ts'

/** What the command line writes to and ends with: replaceable, so that tests can watch. */
export interface Terminal {
  out(text: string): void
  err(text: string): void
}

export const terminal: Terminal = {
  out: (text) => void process.stdout.write(`${text}\n`),
  err: (text) => void process.stderr.write(`${text}\n`),
}

/** Exit statuses. */
export const DONE = 0
export const OUR_FAULT = 1
export const BAD_INPUT = 2

/**
 * Runs a command and turns what goes wrong into an exit status: bad input is told whole, our own faults say so.
 *
 * @param file  the plan file, for the places of problems
 */
export async function attempt(
  work: () => Promise<void> | void,
  { file, to }: { file?: string; to: Terminal },
): Promise<number> {
  try {
    await work()
    return DONE
  } catch (error) {
    if (error instanceof PlanError) {
      to.err(complaint(error, file))
      return BAD_INPUT
    }
    to.err(
      `This is a fault in ditchline, not in your plan: ${error instanceof Error ? error.message : String(error)}`,
    )
    if (process.env.DITCHLINE_TRACE) to.err(String((error as Error).stack))
    return OUR_FAULT
  }
}
