import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distance, type Point } from '../../src/geometry/point.ts'
import { arc, cubic, line as straight } from '../../src/geometry/segment.ts'
import { flattenStroke, joinStrokes, type Stroke, strokeThrough } from '../../src/geometry/stroke.ts'
import type { Line } from '../../src/stitch/line.ts'
import { layTrack, pointOnPiece, startOfPiece, type Track } from '../../src/stitch/track.ts'
import { someLine } from './random-line.ts'
import { lengthOfLine } from './valid-stitches.ts'

const CUSP = Math.PI / 6
const lineOf = (...strokes: Stroke[]): Line => ({
  thread: 'cream',
  parts: strokes.map((stroke) => ({ kind: 'fill', area: 0, stroke })),
})
const track = (...strokes: Stroke[]): Track => layTrack(lineOf(...strokes), CUSP)
const close = (found: readonly number[], expected: readonly number[], digits = 9) => {
  expect(found).toHaveLength(expected.length)
  expected.forEach((value, i) => {
    expect(found[i]).toBeCloseTo(value, digits)
  })
}

describe('a line cut into pieces', () => {
  it('has one for each straight segment and arc, with lengths, radii and turns', () => {
    // A quarter circle of radius 10 between two straight pieces that it joins smoothly, then a right angle.
    const turned: Stroke = {
      start: [0, 0],
      segments: [
        straight([30, 0]),
        arc([40, 10], [30, 10], Math.PI / 2),
        straight([40, 25]),
        straight([60, 25]),
      ],
    }
    const { ends, curvatures, jumps, skews, t0, t1, parts, lengthMm, froms } = track(turned)
    close(ends, [30, 30 + 5 * Math.PI, 45 + 5 * Math.PI, 65 + 5 * Math.PI])
    close(curvatures, [0, 0.1, 0, 0])
    close(jumps, [0, 0, 0, Math.PI / 2])
    close(skews, [0, 0, 0, 0])
    expect([t0, t1]).toEqual([
      [0, 0, 0, 0],
      [1, 1, 1, 1],
    ])
    expect(parts).toEqual([0, 0, 0, 0])
    expect(lengthMm).toBe(ends.at(-1))
    expect(froms).toEqual([
      [0, 0],
      [30, 0],
      [40, 10],
      [40, 25],
    ])
  })

  it('goes on over parts, and leaves out what has no length', () => {
    const dot: Stroke = { start: [10, 0], segments: [] }
    const speck: Stroke = { start: [10, 0], segments: [straight([10, 0]), cubic([10, 0], [10, 0], [10, 0])] }
    const { parts, ends, jumps } = track(
      strokeThrough([
        [0, 0],
        [10, 0],
      ]),
      dot,
      speck,
      strokeThrough([
        [10, 0],
        [10, 5],
      ]),
    )
    expect(parts).toEqual([0, 3])
    close(ends, [10, 15])
    close(jumps, [0, Math.PI / 2])
  })

  // x = 30 t², y = 0: the speed 60 t grows evenly, so Simpson's rule is exact, and a share s of the way is at t = sqrt(s).
  it('measures a cubic whose speed grows evenly exactly, piece by piece', () => {
    const faster: Stroke = { start: [0, 0], segments: [cubic([0, 0], [10, 0], [30, 0])] }
    const laid = track(faster)
    // ceil(sqrt(0.75 · 10 / 0.1)) pieces: Wang 1984, second differences of 10.
    const count = 9
    const steps = Array.from({ length: count }, (_, i) => i + 1)
    close(
      laid.ends,
      steps.map((i) => (30 * i * i) / count ** 2),
    )
    close(
      laid.skews,
      steps.map((i) => 1 / (2 * i - 1)),
    )
    close(
      laid.t0,
      steps.map((i) => (i - 1) / count),
    )
    close(
      laid.t1,
      steps.map((i) => i / count),
    )
    close(
      laid.curvatures,
      steps.map(() => 0),
    )
    close(
      laid.jumps,
      steps.map(() => 0),
    )
    for (const [i, end] of laid.ends.entries())
      for (const share of [0, 0.3, 0.9, 1]) {
        const along = startOfPiece(laid, i) + share * (end - startOfPiece(laid, i))
        const [x, y] = pointOnPiece(laid, i, along)
        expect(x).toBeCloseTo(along, 9)
        expect(y).toBe(0)
      }
  })

  it('measures a cubic that slows down the same way', () => {
    const slower: Stroke = { start: [30, 0], segments: [cubic([10, 0], [0, 0], [0, 0])] }
    const laid = track(slower)
    close(laid.skews.slice(0, 2), [-1 / 17, -1 / 15])
    laid.ends.forEach((end, i) => {
      const along = (startOfPiece(laid, i) + end) / 2
      expect(pointOnPiece(laid, i, along)[0]).toBeCloseTo(30 - along, 9)
    })
  })

  it('gives a cubic that follows a circle the circle’s curvature', () => {
    // A quarter circle of radius 20 by the usual handle, 4/3 tan(pi / 8).
    const handle = 20 * (4 / 3) * Math.tan(Math.PI / 8)
    const quarter: Stroke = { start: [20, 0], segments: [cubic([20, handle], [handle, 20], [0, 20])] }
    const laid = track(quarter)
    expect(laid.lengthMm).toBeCloseTo(10 * Math.PI, 2)
    expect(laid.ends.length).toBeGreaterThan(4)
    for (const curvature of laid.curvatures) expect(Math.abs(20 * curvature - 1)).toBeLessThan(0.02)
  })

  it('bends as the cubic bends, inside it as well: the turns of all pieces add up to the whole', () => {
    // An S: it turns a quarter one way and back.
    const s: Stroke = { start: [0, 0], segments: [cubic([20, 0], [20, 30], [40, 30])] }
    const { curvatures, ends } = track(s)
    const turned = curvatures.reduce((sum, k, i) => sum + k * (ends[i]! - (ends[i - 1] ?? 0)), 0)
    // Direction at its middle: 3/4 of (c2 - c1) and the rest, (30, 45): atan(1.5), there and back.
    expect(turned).toBeGreaterThan(2 * Math.atan(1.5) * 0.97)
    expect(turned).toBeLessThanOrEqual(2 * Math.atan(1.5) + 1e-9)
  })

  it('is as long as the line, and where it says along it, on 60 random lines', () => {
    fc.assert(
      fc.property(someLine, fc.double({ min: 0, max: 1, noNaN: true }), (line, share) => {
        const laid = layTrack(line, CUSP)
        expect(Math.abs(laid.lengthMm / lengthOfLine(line) - 1)).toBeLessThan(1e-4)
        const along = share * laid.lengthMm
        const piece = laid.ends.findIndex((end) => end >= along)
        const fine = flattenStroke(joinStrokes(line.parts.map(({ stroke }) => stroke)), 1e-3)
        expect(distance(pointOnPiece(laid, piece, along), placeAlong(fine, along))).toBeLessThan(0.1)
      }),
      { seed: 1, numRuns: 60 },
    )
  })

  it('keeps to the ends of a piece for distances beyond them', () => {
    const laid = track(
      strokeThrough([
        [0, 0],
        [10, 0],
        [10, 10],
      ]),
    )
    expect(pointOnPiece(laid, 0, -5)).toEqual([0, 0])
    expect(pointOnPiece(laid, 0, 15)).toEqual([10, 0])
    expect(pointOnPiece(laid, 1, 15)).toEqual([10, 5])
    expect([startOfPiece(laid, 0), startOfPiece(laid, 1)]).toEqual([0, 10])
  })
})

/** The place at a distance along a polyline. */
function placeAlong(points: readonly Point[], along: number): Point {
  let done = 0
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!]
    const length = distance(a, b)
    if (done + length >= along && length > 0) {
      const t = (along - done) / length
      return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
    }
    done += length
  }
  return points.at(-1)!
}

describe('a chain of short straight pieces', () => {
  /** Chords of one length, each turned by one of the angles. */
  const chain = (turns: readonly number[], lengths: readonly number[]): Stroke => {
    const points: Point[] = [[0, 0]]
    let heading = 0
    lengths.forEach((length, i) => {
      heading += turns[i - 1] ?? 0
      const [x, y] = points.at(-1)!
      points.push([x + length * Math.cos(heading), y + length * Math.sin(heading)])
    })
    return strokeThrough(points)
  }

  it('has the curvature of the curve that it follows: twice the turn over both chords', () => {
    close(track(chain([0.2, -0.3], [2, 3, 5])).curvatures, [0.4 / 5, 0.4 / 5, 0.6 / 8])
    close(track(chain([0.1, 0.5], [2, 2, 2])).curvatures, [0.05, 0.25, 0.25])
    close(track(chain([0.5, 0.1], [2, 2, 2])).curvatures, [0.25, 0.25, 0.05])
  })

  it('has none at a corner, nor where it runs straight on', () => {
    close(track(chain([CUSP + 0.01, 0], [2, 3, 5])).curvatures, [0, 0, 0])
    expect(track(chain([CUSP - 0.01, 0], [2, 3, 5])).curvatures[0]).toBeGreaterThan(0.1)
    expect(layTrack(lineOf(chain([0.6], [2, 3])), 0.7).curvatures[1]).toBeCloseTo(1.2 / 5, 9)
  })
})
