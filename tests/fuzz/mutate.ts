/** A seeded stream of numbers. @source mulberry32, T. Ettinger, public domain (value from memory) */
export function dice(seed: number): (sides: number) => number {
  let state = seed >>> 0
  return (sides) => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) % sides
  }
}

type Dice = (sides: number) => number

/** What has broken readers before. */
const HOSTILE: readonly unknown[] = [
  Number.NaN,
  Number.POSITIVE_INFINITY,
  -0,
  1e308,
  5e-324,
  -1,
  0,
  2 ** 53,
  null,
  true,
  '',
  ' ',
  'none',
  'auto',
  '__proto__',
  'constructor',
  'toString',
  '1/0',
  '1e9 m',
  '99999 in',
  '2,5 cm',
  '1 1/2 in',
  '-3 mm',
  '#',
  '#fff',
  'url(x)',
  '../../etc',
  'مرسى',
  '\u202eabc',
  '\u001b[31m',
  '\ud800',
  'x'.repeat(500),
  [],
  {},
  [[]],
  [null],
  { __proto__: 1 },
  { constructor: {} },
  { top: 1 },
  { butted: 1 },
  { class: 'L' },
]

const BITS = [
  '{',
  '}',
  '[',
  ']',
  ':',
  '- ',
  '\n',
  '\t',
  '"',
  "'",
  '#',
  '&a ',
  '*a',
  '!x ',
  '|',
  '>',
  '%',
  '? ',
  '<<: ',
  '---\n',
  '\u0000',
  '\uFEFF',
  '\r',
  '.nan',
  '.inf',
  '1e308',
  '~',
  ',',
  '\\',
  '🐚',
  '{__proto__: 1}',
]

const pick = <T>(roll: Dice, list: readonly T[]): T => list[roll(list.length)]!

/** A text with a few pieces cut out, doubled, exchanged or put in. */
export function mutateText(text: string, roll: Dice): string {
  let result = text
  for (let count = 1 + roll(3); count > 0; count--) {
    const at = roll(result.length + 1)
    const end = Math.min(result.length, at + 1 + roll(12))
    const part = result.slice(at, end)
    const put = [
      pick(roll, BITS),
      '',
      part + part,
      part.repeat(1 + roll(40)),
      String.fromCharCode(roll(0x2100)),
      JSON.stringify(pick(roll, HOSTILE)),
    ]
    result = result.slice(0, at) + pick(roll, put) + result.slice(roll(2) ? end : at)
  }
  return result
}

/** Data with one of its values exchanged for a hostile one, taken away, or given under another key. */
export function mutateData(data: unknown, roll: Dice): unknown {
  const copy: unknown = structuredClone(data)
  const places: { at: Record<string, unknown>; key: string }[] = []
  const walk = (at: unknown): void => {
    if (typeof at !== 'object' || at === null) return
    for (const [key, value] of Object.entries(at)) {
      places.push({ at: at as Record<string, unknown>, key })
      walk(value)
    }
  }
  walk(copy)
  for (let count = 1 + roll(2); count > 0; count--) {
    const { at, key } = pick(roll, places)
    const other = pick(roll, places)
    const change = roll(10)
    if (change === 0) delete at[key]
    // The length of a list is no value of a file.
    else if (change === 1 && !(Array.isArray(at) && other.key === 'length')) at[other.key] = at[key]
    else if (change === 2) at[key] = structuredClone(other.at[other.key])
    else if (change === 3 && Array.isArray(at)) at.push(...structuredClone(at.slice(0, 3)))
    else at[key] = pick(roll, HOSTILE)
  }
  return copy
}
