const GROUPS: readonly RegExp[] = [
  /^G(0|1|2|3|80)$/,
  /^G1[789]$/,
  /^G9[01]$/,
  /^G9[34]$/,
  /^G2[01]$/,
  /^M(0|1|2|30)$/,
  /^M[345]$/,
]
const WORD = /^([FGIJMNPQSXY])([+-]?(?:\d+\.?\d*|\.\d+))/

/**
 * What is wrong with a file by the rules of RS-274/NGC, one sentence a fault; nothing if it is right. Only the words that
 * a quilting path needs are known.
 *
 * @source NISTIR 6556 (2000) as carried by emc.sourceforge.net/Handbook (line length, N words), LinuxCNC docs
 *   gcode/overview.adoc and g-code.adoc (number form, modal groups, feed), NIST mail archive msg04552 quoting 3.3.4
 *   (comments); arc radius limit 0.002 mm / 0.0002 in: value from memory
 */
export function gcodeFaults(text: string): string[] {
  const faults: string[] = []
  const state = {
    feed: 0,
    inch: undefined as boolean | undefined,
    absolute: false,
    ended: false,
    motion: '',
    x: Number.NaN,
    y: Number.NaN,
  }
  text.split('\n').forEach((line, i) => {
    const fault = (what: string) => faults.push(`line ${i + 1}: ${what}`)
    if (line.length > 80) fault(`has ${line.length} characters`)
    if (/[^\x20-\x7e]/.test(line)) fault('is not printable ASCII')
    const code = line.replace(/\([^()]*\)/g, '')
    if (/[()]/.test(code)) fault('has a nested or unclosed comment')
    if (/;/.test(code)) fault('has a comment of a later dialect')
    if (state.ended && code.trim()) fault('comes after the end')
    const words = wordsOf(code.replace(/\s/g, ''), fault)
    for (const group of GROUPS)
      if (words.filter(([l, v]) => group.test(`${l}${v}`)).length > 1) fault('has two codes of one group')
    const letters = words.map(([l]) => l).filter((l) => l !== 'G' && l !== 'M')
    if (new Set(letters).size !== letters.length) fault('repeats a word')
    apply(words, state, fault)
  })
  if (!state.ended) faults.push('there is no M2 or M30')
  return faults
}

type Word = readonly [letter: string, value: number]

function wordsOf(code: string, fault: (what: string) => void): Word[] {
  const words: Word[] = []
  let rest = code.toUpperCase()
  while (rest) {
    const match = WORD.exec(rest)
    if (!match) {
      fault(`can't be read at "${rest}"`)
      break
    }
    words.push([match[1]!, Number(match[2])])
    rest = rest.slice(match[0].length)
  }
  return words
}

interface State {
  feed: number
  inch: boolean | undefined
  absolute: boolean
  ended: boolean
  motion: string
  x: number
  y: number
}

function apply(words: readonly Word[], state: State, fault: (what: string) => void): void {
  const value = (letter: string) => words.find(([l]) => l === letter)?.[1]
  for (const [letter, v] of words) {
    const code = `${letter}${v}`
    if (letter === 'F') state.feed = v
    if (code === 'G20' || code === 'G21') state.inch = code === 'G20'
    if (code === 'G90') state.absolute = true
    if (code === 'G91') state.absolute = false
    if (/^G[0123]$/.test(code)) state.motion = code
    if (/^M(2|30)$/.test(code)) state.ended = true
  }
  const moves = value('X') !== undefined || value('Y') !== undefined
  const movesByCode = words.some(([l, v]) => l === 'G' && v <= 3)
  if (!moves && !movesByCode) return
  if (!moves) fault('has a motion and no axis')
  if (!state.motion) fault('moves without a motion code')
  if (state.inch === undefined) fault('moves before a unit is set')
  if (!state.absolute) fault('moves before G90')
  if (state.motion !== 'G0' && !(state.feed > 0)) fault('moves without a feed')
  if (words.some(([l]) => l === 'M')) fault('has an M word beside a motion')
  const [x, y] = [value('X') ?? state.x, value('Y') ?? state.y]
  if (state.motion === 'G2' || state.motion === 'G3')
    checkArc({ x, y, i: value('I'), j: value('J') }, state, fault)
  Object.assign(state, { x, y })
}

function checkArc(
  arc: { x: number; y: number; i: number | undefined; j: number | undefined },
  state: State,
  fault: (what: string) => void,
): void {
  if (arc.i === undefined && arc.j === undefined) return void fault('is an arc without I and J')
  const [i, j] = [arc.i ?? 0, arc.j ?? 0]
  const [first, last] = [Math.hypot(i, j), Math.hypot(state.x + i - arc.x, state.y + j - arc.y)]
  if (Math.abs(first - last) > (state.inch ? 0.0002 : 0.002)) fault(`has radii ${first} and ${last}`)
  if (arc.x === state.x && arc.y === state.y) fault('is a whole circle')
}
