import { createColors } from 'picocolors'
import type { PlanError, Problem } from '../error.ts'
import { printable } from '../plan/printable.ts'

/** Colours only where errors go to a terminal: standard output may be a pipe, and the other way round. */
const pc = createColors(Boolean(process.stderr.isTTY) && !process.env.NO_COLOR && process.env.TERM !== 'dumb')

/** One line for a problem: `file:line:column: place: what is wrong (hint)`. */
export function problemLine(problem: Problem, file: string | undefined): string {
  const place = [file, problem.position?.line, problem.position?.column]
    .filter((x) => x !== undefined)
    .join(':')
  const parts = [place, problem.at].filter((text) => text !== '')
  const hint = problem.hint ? ` (${problem.hint})` : ''
  return printable(`${parts.map((text) => `${text}: `).join('')}${problem.message}${hint}`)
}

/** Every problem of an error, one a line, and how many there are. */
export function complaint(error: PlanError, file: string | undefined): string {
  const known = error.problems.some((p) => p.position) ? file : undefined
  const lines = error.problems.map((p) => problemLine(p, known))
  const count = lines.length === 1 ? '' : `\n${pc.bold(`${lines.length} problems; nothing was written`)}`
  return `${lines.map((line) => `${pc.red('error')} ${line}`).join('\n')}${count}`
}
