import { LIMITS } from './limits.ts'

/**
 * The known name that is nearest to a misspelt one, if one is near enough to be meant.
 *
 * @source optimal string alignment: Damerau 1964, Levenshtein 1966
 */
export function nearestName(wrong: string, known: readonly string[]): string | undefined {
  const text = wrong.toLowerCase().slice(0, LIMITS.name)
  let nearest: { readonly name: string; readonly distance: number } | undefined
  for (const name of known) {
    const allowed = Math.max(1, Math.floor(Math.max(name.length, text.length) * 0.4))
    if (Math.abs(name.length - text.length) > allowed) continue
    const distance = editDistance(text, name.toLowerCase())
    if (distance <= allowed && distance < (nearest?.distance ?? Number.POSITIVE_INFINITY))
      nearest = { name, distance }
  }
  return nearest?.name
}

function editDistance(a: string, b: string): number {
  let before: number[] = []
  let row = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1]
      let cost = Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (same ? 0 : 1))
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        cost = Math.min(cost, before[j - 2]! + 1)
      next.push(cost)
    }
    before = row
    row = next
  }
  return row[b.length]!
}

/** "did you mean scallop?", if a known name is near enough to what was written. */
export function didYouMean(wrong: unknown, known: readonly string[]): string | undefined {
  const near = typeof wrong === 'string' ? nearestName(wrong, known) : undefined
  return near === undefined ? undefined : `did you mean ${near}?`
}
