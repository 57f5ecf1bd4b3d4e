import { refuseDrawing } from './drawing-fault.ts'
import { DRAWING_LIMITS } from './drawing-limits.ts'

const SPACE = /[ \t\n\f\r]*/y
const COMMA = /[ \t\n\f\r]*,?[ \t\n\f\r]*/y
const NUMBER = /[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y
const FLAG = /[01]/y
const COMMAND = /[MmLlHhVvCcSsQqTtAaZz]/y

/** Takes path data apart, and knows where it is. @source SVG 2, 9.3.9 the grammar for path data */
export class PathScanner {
  readonly #text: string
  #offset = 0

  constructor(text: string) {
    this.#text = text
  }

  /** The next command; undefined at the end. @throws DrawingRefusal if something else stands there */
  command(): { letter: string; offset: number } | undefined {
    this.#take(SPACE)
    if (this.#offset === this.#text.length) return undefined
    const offset = this.#offset
    const letter = this.#take(COMMAND)
    if (letter === undefined) this.#refuse('a command such as M, L or C')
    return { letter: letter!, offset }
  }

  /** Whether numbers for the same command follow. */
  hasNumber(): boolean {
    this.#take(SPACE)
    return /[-+.,\d]/.test(this.#text[this.#offset] ?? '')
  }

  /**
   * The next so many numbers.
   *
   * @param isArc  the fourth and fifth are flags, 0 or 1, that may stand close together
   */
  numbers(count: number, isArc: boolean): number[] {
    const found: number[] = []
    for (let i = 0; i < count; i++) {
      this.#take(COMMA)
      found.push(isArc && (i === 3 || i === 4) ? this.#flag() : this.#number())
    }
    return found
  }

  #flag(): number {
    const text = this.#take(FLAG)
    if (text === undefined) this.#refuse('a flag, 0 or 1')
    return Number(text)
  }

  #number(): number {
    const offset = this.#offset
    const text = this.#take(NUMBER)
    if (text === undefined) this.#refuse('a number')
    const value = Number(text)
    if (!(Math.abs(value) <= DRAWING_LIMITS.number))
      refuseDrawing('path-data', `the path has a number beyond ${DRAWING_LIMITS.number}`, { offset })
    return value
  }

  #take(pattern: RegExp): string | undefined {
    pattern.lastIndex = this.#offset
    const text = pattern.exec(this.#text)?.[0]
    if (text === undefined) return undefined
    this.#offset += text.length
    return text
  }

  #refuse(expected: string): never {
    const found = this.#text.slice(this.#offset, this.#offset + 12).replace(/[\p{C}"]/gu, '?')
    const what = found === '' ? 'the path data ends' : `the path data has "${found}"`
    return refuseDrawing('path-data', `${what} where ${expected} should stand`, { offset: this.#offset })
  }
}
