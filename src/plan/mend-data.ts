import type * as z from 'zod'
import type { Path } from './problems.ts'
import { type PlanFile, planFormat } from './schema.ts'

/** How often what is wrong is taken out, each time one level further up. */
const ROUNDS = 8

/**
 * A copy of the data with every part that has the wrong form taken out, or replaced where a plan must have one: what is
 * left can be checked for its meaning, so that one run tells all there is to mend.
 */
export function mendData(data: unknown): PlanFile | undefined {
  const root = { plan: structuredClone(data) }
  for (let round = 0; round < ROUNDS; round++) {
    const result = planFormat.safeParse(root.plan)
    if (result.success) return result.data
    for (const issue of result.error.issues) takeOut(root, issue, round)
  }
  return undefined
}

function takeOut(root: { plan: unknown }, issue: z.core.$ZodIssue, round: number): void {
  const path = ['plan', ...(issue.path as Path)]
  if (issue.code === 'unrecognized_keys') for (const key of issue.keys) replace(root, [...path, key])
  else replace(root, path.slice(0, Math.max(1, path.length - Math.floor(round / 2))))
}

/** Puts a part that is right in the place of one that is wrong, or nothing where there need be none. */
function replace(root: unknown, path: Path): void {
  let at = root
  for (const step of path.slice(0, -1)) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, step)) return
    at = (at as Record<string | number, unknown>)[step]
  }
  if (typeof at !== 'object' || at === null) return
  const part = neededAt(path.slice(1))
  const last = path.at(-1)!
  if (part !== undefined) (at as Record<string | number, unknown>)[last] = part
  else if (Array.isArray(at)) replace(root, path.slice(0, -1))
  else delete (at as Record<string | number, unknown>)[last]
}

/** Stands for a length that is not known: nothing is concluded from it. */
const UNKNOWN = 'unknown'

/** The simplest of what a plan must have at a place. */
function neededAt(path: Path): unknown {
  const place = path.map((step) => (typeof step === 'number' ? '#' : step)).join('.')
  if (place === '') return { centre: neededAt(['centre']), bands: neededAt(['bands']) }
  if (place === 'centre') return { width: UNKNOWN, height: UNKNOWN }
  if (place === 'bands') return [neededAt(['bands', 0])]
  if (place === 'bands.#') return { width: UNKNOWN }
  if (/^(centre\.(width|height)|bands\.#\.(width|cut)(\.\w+)?)$/.test(place)) return UNKNOWN
  return undefined
}
