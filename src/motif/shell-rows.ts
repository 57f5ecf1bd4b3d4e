import type { Point } from '../geometry/point.ts'
import { arc } from '../geometry/segment.ts'
import { StrokeBuilder } from '../geometry/stroke.ts'
import type { Drawn, Edge, Touch } from './contract.ts'

/**
 * A field of shells 2 wide and 1 high, row on row, each row half a shell on: every cusp stands on a crown. It begins at u = 0
 * and ends square or on a mitre that leans one along for each row, on which it has the last quarter of every other row.
 */
export interface ShellField {
  /** Odd. */
  readonly rows: number
  /** How far it reaches along v = 0: a whole number, as odd or even as its ends need (`columnsFor`). */
  readonly columns: number
  readonly end: 'square' | 'mitre'
  readonly from: Edge
  readonly to: Edge
}

/** The whole number nearest to `wanted` that a field's ends leave it, at least 1. */
export function columnsFor({ from, to, end }: Omit<ShellField, 'rows' | 'columns'>, wanted: number): number {
  // Square ends both have a cusp or a crown in their corner; a mitre has a cusp in its inner one.
  const odd = (end === 'square' ? from !== to : from === 'outer') ? 1 : 0
  return Math.max(2 - odd, 2 * Math.round((wanted - odd) / 2) + odd)
}

/**
 * Draws a field in one line that stitches nothing twice: along the rows, there and back, if it has to come out at the other
 * edge; if not, along the first row, with all the others, two by two, as loops of each other.
 *
 * @returns the stroke, with touches at the cusps on v = 0
 */
export function drawShells(field: ShellField): Drawn {
  const line = new ShellLine(field)
  const { rows, from, to } = field
  const order = Array.from({ length: rows }, (_, i) => (from === 'inner' ? i : rows - 1 - i))
  if (from === to) line.followLooping(order)
  else line.followAll(order)
  if (field.end === 'mitre' && to === 'outer') line.stepAlongMitre(1)
  line.endOn(to)
  return { stroke: line.builder.build(), touches: line.touches }
}

/** Follows shells quarter by quarter. */
class ShellLine {
  readonly builder: StrokeBuilder
  readonly touches: Touch[]
  readonly #field: ShellField

  constructor(field: ShellField) {
    this.#field = field
    this.builder = new StrokeBuilder([0, field.from === 'inner' ? 0 : field.rows])
    this.touches = [{ edge: field.from, after: 0 }]
  }

  /** Rows in turn, there and back. */
  followAll(order: readonly number[]): void {
    order.forEach((row, i) => {
      if (i % 2 === 1) this.#turnBack()
      this.#follow(row, i % 2 === 0 ? this.#endOf(row) : 0)
    })
  }

  /** The first row from where the line is to its end; the next two, and so on, are a loop from its first place that they share. */
  followLooping([row, next, last, ...rest]: readonly number[]): void {
    this.#follow(row!, 1)
    if (next !== undefined && last !== undefined) this.#loop(next, [last, ...rest])
    this.#follow(row!, this.#endOf(row!))
  }

  /** Along `row` from 1 to its far end, back along the others, and on along `row` to 1. */
  #loop(row: number, [last, next, ...rest]: readonly number[]): void {
    this.#follow(row, this.#endOf(row))
    this.#turnBack()
    this.#follow(last!, 1)
    if (next !== undefined) this.#loop(next, rest)
    this.#follow(last!, 0)
    this.#follow(row, 1)
  }

  /** From a row's far end to that of the next: square ends lie together, on a mitre a quarter of a shell lies between. */
  #turnBack(): void {
    if (this.#field.end === 'mitre') this.stepAlongMitre(this.#field.from === 'inner' ? 1 : -1)
  }

  /** One quarter of a shell along the mitre, outwards or inwards. */
  stepAlongMitre(way: 1 | -1): void {
    this.#quarter(way, way)
  }

  /** Where a row ends: on a mitre in a cusp. */
  #endOf(row: number): number {
    return this.#field.columns + (this.#field.end === 'mitre' ? row : 0)
  }

  /** Along a row from where the line is. */
  #follow(row: number, to: number): void {
    while (this.builder.at[0] !== to) {
      const [u, v] = this.builder.at
      this.#quarter(to > u ? 1 : -1, v === row ? 1 : -1)
      if (this.builder.at[1] === 0) this.touches.push({ edge: 'inner', after: this.builder.count })
    }
  }

  #quarter(towards: 1 | -1, rise: 1 | -1): void {
    const [u, v] = this.builder.at
    const centre: Point = rise === 1 ? [u + towards, v] : [u, v - 1]
    const to: Point = [u + towards, v + rise]
    this.builder.push(arc(to, centre, (-towards * Math.PI) / 2))
  }

  /** The end, as a touch if it is none yet. */
  endOn(edge: Edge): void {
    const after = this.builder.count
    if (this.touches.at(-1)!.after !== after) this.touches.push({ edge, after })
  }
}
