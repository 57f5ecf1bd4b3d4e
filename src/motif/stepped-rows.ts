import type { Point } from '../geometry/point.ts'
import type { MitreStrip } from './contract.ts'

/** How many fine cells on either side of a row's end take up what its last cell lies off the mitre. */
const ZONE = 6

/**
 * The fine cells of a strip up to a mitre, in rows that end in steps beside it. Lengths are in cells: u along the strip from
 * 0, v from the edge that the line starts on.
 */
export class SteppedRows {
  /** Size of a fine cell, mm. */
  readonly mesh: Point
  readonly #near: number
  readonly #lean: number

  /** @param cells  how many lie along the strip in its middle, and across it */
  constructor({ length, width, skew, from }: MitreStrip, [columns, rows]: Point) {
    const across = skew * width
    this.mesh = [(length + across / 2) / columns, width / rows]
    const [near, lean] = from === 'inner' ? [length, across] : [length + across, -across]
    this.#near = near / this.mesh[0]
    this.#lean = lean / this.mesh[0] / rows
  }

  /** How long the strip is at a height. */
  lengthAt(v: number): number {
    return this.#near + this.#lean * v
  }

  /** The place of a cell whose row ends at `end`, stretched or shortened at its end to reach the mitre. */
  reaching([u, v]: Point, { row, end }: { readonly row: number; readonly end: number }): Point {
    const zone = Math.min(ZONE, end)
    const share = Math.min(1, Math.max(0, (u - end + zone) / zone))
    return [u + share * (this.lengthAt(row + 0.5) - end), v]
  }

  /** How much room there is to stray at a place: none at the rim, all of it two cells from there. */
  room([u, v]: Point, rows: number): number {
    const along = Math.min(1, u / 2, (this.lengthAt(v) - u) / 2)
    return Math.max(0, along) * Math.max(0, Math.min(1, v / 2, (rows - v) / 2))
  }
}
