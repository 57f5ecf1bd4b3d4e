import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { polylineOf } from '../../src/check/polyline.ts'
import { sumTurning } from '../../src/check/turning.ts'
import { PlanError } from '../../src/error.ts'
import type { Point } from '../../src/geometry/point.ts'

const degrees = (angle: number) => (angle * Math.PI) / 180

/** A line that goes 10 mm in each of these directions, degrees clockwise from the right. */
function towards(...directions: readonly number[]): Point[] {
  const points: Point[] = [[30, -20]]
  for (const direction of directions) {
    const [x, y] = points.at(-1)!
    points.push([x + 10 * Math.cos(degrees(direction)), y + 10 * Math.sin(degrees(direction))])
  }
  return points
}

const turns = (points: readonly Point[], sector: number) => sumTurning([polylineOf(points)], degrees(sector))

describe('the sum of turning', () => {
  it('is nothing while the line stays within the comfortable directions', () => {
    expect(turns(towards(0, 25, -25, 10), 60)).toBe(0)
    expect(turns(towards(0, 90, 180, 270), 360)).toBe(0)
  })

  it('is what a turn takes beyond them, and no more', () => {
    // Three right angles; with a sector of 60 degrees the first turn may be short by 60.
    expect(turns(towards(0, 90, 180, 270), 0)).toBeCloseTo(270 / 360, 12)
    expect(turns(towards(0, 90, 180, 270), 60)).toBeCloseTo(210 / 360, 12)
  })

  it('is half a turn less the sector wherever the line runs back', () => {
    expect(turns(towards(0, 180, 0, 180), 60)).toBeCloseTo((3 * 120) / 360, 12)
  })

  it('is one turn a circle, whatever the sector, once the first is left', () => {
    const circle = Array.from({ length: 361 }, (_, i) => i)
    const round = (times: number) =>
      towards(...Array.from({ length: times }, () => circle.slice(0, 360)).flat())
    expect(turns(round(3), 60) - turns(round(2), 60)).toBeCloseTo(1, 9)
    expect(turns(round(1), 60)).toBeCloseTo((359 - 60) / 360, 9)
  })

  it('is the same for a line that is turned, mirrored, moved, enlarged or stitched backwards', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -8, max: 8 }), { minLength: 2, maxLength: 12 }), (bends) => {
        const directions = [7]
        for (const bend of bends) directions.push(directions.at(-1)! + 14 * bend)
        const line = towards(...directions)
        const is = turns(line, 50)
        const map = (f: (p: Point) => Point) => turns(line.map(f), 50)
        expect(map(([x, y]) => [-y, x])).toBeCloseTo(is, 9)
        expect(map(([x, y]) => [-x, y])).toBeCloseTo(is, 9)
        expect(map(([x, y]) => [3 * x + 7, 3 * y - 2])).toBeCloseTo(is, 9)
        expect(turns([...line].reverse(), 50)).toBeCloseTo(is, 9)
      }),
      { seed: 5, numRuns: 100 },
    )
  })

  it('is the least that any way of turning takes, by trying all in steps of 5 degrees', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -8, max: 8 }), { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 0, max: 6 }),
        (bends, half) => {
          const directions = [0]
          for (const bend of bends) directions.push(directions.at(-1)! + 15 * bend)
          const sector = 10 * half
          expect(turns(towards(...directions), sector) * 360).toBeCloseTo(
            leastByTrying(directions, sector),
            6,
          )
        },
      ),
      { seed: 6, numRuns: 150 },
    )
  })

  it('goes on from one line to the next, and passes over what has no direction', () => {
    const [a, b] = [towards(0, 10), towards(180)]
    expect(sumTurning([polylineOf(a), polylineOf(b)], degrees(60))).toBeCloseTo(120 / 360, 9)
    expect(turns([...a, a.at(-1)!, a.at(-1)!], 0)).toBeCloseTo(10 / 360, 9)
    expect(sumTurning([], 1)).toBe(0)
  })

  it('is refused for a sector that is none', () => {
    expect(() => sumTurning([], -1)).toThrow(PlanError)
    expect(() => sumTurning([], Number.NaN)).toThrow(PlanError)
  })
})

/** The least sum of turning over all headings in steps of 5 degrees, the first for nothing. */
function leastByTrying(directions: readonly number[], sector: number): number {
  const headings = Array.from({ length: 2000 }, (_, i) => 5 * (i - 1000))
  const serves = (heading: number, direction: number) => Math.abs(heading - direction) <= sector / 2
  let cost = new Map(headings.filter((h) => serves(h, directions[0]!)).map((h) => [h, 0]))
  for (const direction of directions.slice(1)) {
    const next = headings.filter((h) => serves(h, direction))
    cost = new Map(
      next.map((h) => [h, Math.min(...[...cost].map(([before, sum]) => sum + Math.abs(h - before)))]),
    )
  }
  return Math.min(...cost.values())
}
