import type { Point } from '../geometry/point.ts'
import type { Segment } from '../geometry/segment.ts'
import { gcodeComments } from './escape.ts'
import { defineExporter } from './exporter.ts'
import { LABELS } from './labels.ts'
import { numberText } from './number-text.ts'
import { machinePath } from './path/machine-path.ts'
import { feedOf, pathNotes } from './path/path-notes.ts'
import { TABLE_OPTIONS } from './path/path-options.ts'
import { threadName } from './thread-name.ts'

/** One M word (but no program end) or a dwell, with its parameters. */
const WORDS = /^(?:M(?!0*(?:2|30)(?: |$))[0-9]{1,3}|G4)(?: [PSQ][0-9]{1,5}(?:\.[0-9]{1,4})?){0,3}$/

/**
 * With these decimals, rounding keeps the two radii of an arc within 0.002 mm or 0.0002 in of each other.
 *
 * @source each radius errs by up to 2 x sqrt(1/2) units of the last place; limits: value from memory of NISTIR 6556
 */
const ARC_DECIMALS = { mm: 4, in: 5 } as const

/**
 * A machine path in RS-274/NGC. The spindle words switch the needle: by default M3 and M5, with the stitches per minute
 * as S, because a stitch is one turn of the main shaft. Where another thread is put in, M0 stops the program.
 *
 * @source NISTIR 6556, The NIST RS274NGC Interpreter, version 3
 */
export default defineExporter({
  title: 'RS-274 G-code',
  purpose: 'machine-path',
  extension: 'ngc',
  mediaType: 'text/plain',
  unit: 'chosen',
  options: {
    ...TABLE_OPTIONS,
    needleOn: { kind: 'text', label: 'Words that start the needle', default: 'M3', pattern: WORDS },
    needleOff: { kind: 'text', label: 'Words that stop the needle', default: 'M5', pattern: WORDS },
    arcs: { kind: 'toggle', label: 'Arcs as G2 and G3 (4 decimals or more, in inches 5)', default: false },
  },
  write(drawing, options) {
    const path = machinePath(drawing, options, options.arcs ? 'keep' : 'flatten')
    const mover = new Mover(Math.max(options.decimals, options.arcs ? ARC_DECIMALS[path.units] : 0))
    const blocks = [
      ...pathNotes(drawing, path, options).flatMap(gcodeComments),
      path.units === 'in' ? 'G20' : 'G21',
      'G17',
      'G90',
      'G94',
      `S${numberText(drawing.spm, 0)}`,
      `F${numberText(feedOf(drawing, path.units), 4)}`,
      options.needleOff,
    ]
    path.threads.forEach((runs, i) => {
      if (path.needleDown) blocks.push(...gcodeComments(LABELS.path.start(i + 1, path.threads.length)))
      const colour = path.colours[i]!
      if (i > 0 && colour !== path.colours[i - 1])
        blocks.push(...gcodeComments(LABELS.path.change(threadName(drawing, colour))), 'M0')
      blocks.push(mover.jump(runs[0]!.stroke.start))
      if (path.needleDown) blocks.push(options.needleOn)
      for (const run of runs) for (const segment of run.stroke.segments) blocks.push(...mover.follow(segment))
      if (path.needleDown) blocks.push(options.needleOff)
    })
    return `${[...blocks, 'M2'].join('\n')}\n`
  },
})

/** Writes moves, remembering where the machine stands as written (rounded), so that arcs refer to that. */
class Mover {
  readonly #decimals: number
  #at: Point = [Number.NaN, Number.NaN]

  constructor(decimals: number) {
    this.#decimals = decimals
  }

  /** To a thread start with the needle up. */
  jump(to: Point): string {
    return `G0 ${this.#words(to)}`
  }

  /** No block for a move that rounding made nothing of. */
  follow(segment: Segment): string[] {
    const [x, y] = this.#at
    if (this.#isHere(segment.to)) return []
    if (segment.kind !== 'arc') return [`G1 ${this.#words(segment.to)}`]
    const number = (v: number) => numberText(v, this.#decimals)
    // With y up, a positive sweep (from x towards y) is counter-clockwise.
    const turn = segment.sweep > 0 ? 'G3' : 'G2'
    const offset = `I${number(segment.centre[0] - x)} J${number(segment.centre[1] - y)}`
    return [`${turn} ${this.#words(segment.to)} ${offset}`]
  }

  #isHere(to: Point): boolean {
    const power = 10 ** this.#decimals
    return [0, 1].every((i) => Math.round(to[i]! * power) === Math.round(this.#at[i]! * power))
  }

  #words(to: Point): string {
    const [x, y] = to.map((v) => numberText(v, this.#decimals)) as [string, string]
    this.#at = [Number(x), Number(y)]
    return `X${x} Y${y}`
  }
}
