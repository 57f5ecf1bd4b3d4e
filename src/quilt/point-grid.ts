import { distance, type Point } from '../geometry/point.ts'

/** Numbers points, and gives points that lie together one number. */
export class PointGrid {
  readonly points: Point[] = []
  readonly #cells = new Map<string, number[]>()

  /**
   * @param together  points this close are one, mm
   * @param cell      side of the squares in which points are kept, mm; at least `together`
   */
  constructor(
    readonly together: number,
    readonly cell: number,
  ) {}

  /** The number of the point here; a new one if there is none yet. */
  numberAt(p: Point): number {
    const known = this.find(p)
    if (known !== undefined) return known
    const number = this.points.push(p) - 1
    const key = this.#key(Math.floor(p[0] / this.cell), Math.floor(p[1] / this.cell))
    const cell = this.#cells.get(key)
    if (cell) cell.push(number)
    else this.#cells.set(key, [number])
    return number
  }

  find(p: Point): number | undefined {
    return this.within(p, p).find((i) => distance(this.points[i]!, p) < this.together)
  }

  /** The points in the cells that the box between two points touches. */
  within(a: Point, b: Point): number[] {
    const found: number[] = []
    const cellOf = (value: number, by: number) => Math.floor((value + by) / this.cell)
    const [x0, x1] = [
      cellOf(Math.min(a[0], b[0]), -this.together),
      cellOf(Math.max(a[0], b[0]), this.together),
    ]
    const [y0, y1] = [
      cellOf(Math.min(a[1], b[1]), -this.together),
      cellOf(Math.max(a[1], b[1]), this.together),
    ]
    for (let x = x0; x <= x1; x++)
      for (let y = y0; y <= y1; y++) for (const i of this.#cells.get(this.#key(x, y)) ?? []) found.push(i)
    return found
  }

  #key(x: number, y: number): string {
    return `${x},${y}`
  }
}
