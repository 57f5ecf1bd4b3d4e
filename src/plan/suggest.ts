/**
 * The known name that is nearest to a misspelt one, if one is near enough to be meant.
 *
 * @source optimal string alignment: Damerau 1964, Levenshtein 1966
 */
export function nearestName(wrong: string, known: readonly string[]): string | undefined {
  const meant = wrong.toLowerCase().slice(0, LONGEST)
  const scored = known
    .map((name) => ({ name, distance: distanceTo(meant, name.toLowerCase()) }))
    .filter(({ name, distance }) => distance <= Math.max(1, 0.4 * Math.max(name.length, meant.length)))
    .filter(({ name, distance }) => distance < name.length)
    .sort((a, b) => a.distance - b.distance)
  return scored[0]?.name
}

/** Longer names than this are compared by their beginning. */
const LONGEST = 60

/** A name that is only written longer or shorter is near. */
const distanceTo = (meant: string, name: string): number =>
  Math.min(meant.length, name.length) > 1 && (meant.startsWith(name) || name.startsWith(meant))
    ? 1
    : editDistance(meant, name)

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
