import { LIMITS } from './limits.ts'

/** "did you mean scallop?", if a known name is near enough to what was written; sought only when it is asked for. */
export const didYouMean = (wrong: unknown, known: readonly string[]) => (): string | undefined => {
  const near = typeof wrong === 'string' ? nearestName(wrong, known) : undefined
  return near === undefined ? undefined : `did you mean ${near}?`
}

/** At most this share of a name's characters may be wrong, and at most so many. */
const WRONG = { share: 0.4, most: 12 }

/** The known name that is nearest to a misspelt one, if one is near enough to be meant; of equals the first. */
export function nearestName(wrong: string, known: readonly string[]): string | undefined {
  const text = wrong.toLowerCase().slice(0, LIMITS.name)
  let nearest: string | undefined
  let least = Number.POSITIVE_INFINITY
  for (const name of known) {
    const share = Math.floor(Math.max(name.length, text.length) * WRONG.share)
    const allowed = Math.min(WRONG.most, Math.max(1, share), least - 1)
    const distance = editDistance([text, name.toLowerCase()], allowed)
    if (distance > allowed) continue
    nearest = name
    least = distance
  }
  return nearest
}

/**
 * How many letters must be put in, taken out, exchanged or swapped with their neighbour to make one text of another.
 * Gives up with infinity once there are more than `allowed`.
 *
 * @source optimal string alignment: Damerau 1964, Levenshtein 1966
 * @example editDistance(['scalop', 'scallop'], 3) // 1
 */
export function editDistance(texts: readonly [string, string], allowed: number): number {
  const [a, b] = withoutSameEnds(texts)
  if (Math.abs(a.length - b.length) > allowed) return Number.POSITIVE_INFINITY
  let before = new Uint16Array(0)
  let row = Uint16Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const next = nextRow({ a, b, i, allowed }, before, row)
    before = row
    row = next
  }
  const distance = row[b.length]!
  return distance <= allowed ? distance : Number.POSITIVE_INFINITY
}

function withoutSameEnds([a, b]: readonly [string, string]): [string, string] {
  const shorter = Math.min(a.length, b.length)
  let head = 0
  while (head < shorter && a[head] === b[head]) head++
  let tail = 0
  while (tail < shorter - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail++
  return [a.slice(head, a.length - tail), b.slice(head, b.length - tail)]
}

interface Rows {
  readonly a: string
  readonly b: string
  readonly i: number
  readonly allowed: number
}

/** Farther than `allowed` off the diagonal every distance is greater than `allowed`: it is not looked at. */
function nextRow(
  { a, b, i, allowed }: Rows,
  before: Uint16Array,
  row: Uint16Array,
): Uint16Array<ArrayBuffer> {
  const next = new Uint16Array(b.length + 1).fill(allowed + 1)
  next[0] = i
  const to = Math.min(b.length, i + allowed)
  for (let j = Math.max(1, i - allowed); j <= to; j++) {
    const change = a[i - 1] === b[j - 1] ? 0 : 1
    const cost = Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + change)
    const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
    next[j] = isSwap ? Math.min(cost, before[j - 2]! + 1) : cost
  }
  return next
}
