import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distance, distanceToLine, type Point } from '../../src/geometry/point.ts'
import { arc, line } from '../../src/geometry/segment.ts'
import { type Stroke, strokeThrough } from '../../src/geometry/stroke.ts'
import { farthest, offChord, SURE, sagitta } from '../../src/stitch/chord-error.ts'
import { layTrack, pointOnPiece, type Track } from '../../src/stitch/track.ts'
import { someLine } from './random-line.ts'

const trackOf = (stroke: Stroke): Track =>
  layTrack({ thread: 'cream', parts: [{ kind: 'fill', area: 0, stroke }] }, Math.PI / 6)
const needle = (track: Track, along: number) => {
  const found = track.ends.findIndex((end) => end >= along - 1e-9)
  const piece = found < 0 ? track.ends.length - 1 : found
  return { along, piece, point: pointOnPiece(track, piece, along), tied: 0 }
}
const between = (track: Track, from: number, to: number, tolerance = 0.1) =>
  farthest(track, [needle(track, from), needle(track, to)], tolerance)

describe('the distance from a chord', () => {
  it('is that to the nearest of its points, also beyond its ends and where it has no length', () => {
    const point = fc.tuple(fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 }))
    fc.assert(
      fc.property(point, point, point, (p, a, b) => {
        expect(offChord(p, a, b)).toBeCloseTo(distanceToLine(p, a, b), 9)
        expect(offChord(p, a, a)).toBeCloseTo(distance(p, a), 9)
      }),
      { seed: 1, numRuns: 200 },
    )
  })
})

// R (1 - cos(arc / 2R)), Euclid III.35.
it.each([
  [1, Math.PI, 1],
  [2, 2 * Math.PI, 2],
  [5, 5 * (Math.PI / 3), 5 * (1 - Math.sqrt(3) / 2)],
  [1, 2 * Math.PI, 2],
  [1, 7, 2],
])('the sagitta on radius %d of an arc of %d is %d', (radius, length, height) => {
  expect(sagitta(1 / radius, length)).toBeCloseTo(height, 9)
})

describe('the place farthest from a chord', () => {
  it('on a straight piece is none', () => {
    const straight = trackOf(
      strokeThrough([
        [0, 0],
        [10, 0],
      ]),
    )
    expect(between(straight, 2, 9)).toEqual({ along: 2, error: 0 })
  })

  it('on an arc lies half way, as far off as its sagitta', () => {
    const half = trackOf({ start: [3, 0], segments: [arc([-3, 0], [0, 0], Math.PI)] })
    const { along, error } = between(half, 1, 5)
    expect(along).toBe(3)
    expect(error).toBeCloseTo(3 * (1 - Math.cos(4 / 6)), 9)
  })

  it('over a corner is the corner', () => {
    const corner = trackOf(
      strokeThrough([
        [0, 0],
        [4, 0],
        [4, 3],
      ]),
    )
    const found = between(corner, 0, 7)
    expect(found.along).toBe(4)
    // The height of the right triangle of 3, 4 and 5.
    expect(found.error).toBeCloseTo(12 / 5, 9)
    expect(between(corner, 1, 3)).toEqual({ along: 1, error: 0 })
  })

  it('is found closely wherever it comes near the tolerance', () => {
    fc.assert(
      fc.property(
        someLine,
        fc.integer({ min: 0, max: 90 }),
        fc.integer({ min: 1, max: 10 }),
        (drawn, at, size) => {
          const track = layTrack(drawn, Math.PI / 6)
          const from = (track.lengthMm * at) / 100
          const to = Math.min(track.lengthMm, from + size / 2)
          fc.pre(to > from)
          const ends = [needle(track, from), needle(track, to)] as const
          const { along, error } = farthest(track, ends, 0.1)
          expect(along >= from - 1e-9 && along <= to + 1e-9).toBe(true)
          const looks = Array.from({ length: 61 }, (_, i): Point => {
            return needle(track, from + ((to - from) * i) / 60).point
          })
          const worst = Math.max(...looks.map((p) => offChord(p, ends[0].point, ends[1].point)))
          // Told within the share that counts as sure, or found in an eighth of a piece.
          if (worst > 0.1) expect(error).toBeGreaterThan(SURE * 0.1)
          expect(error).toBeLessThanOrEqual(worst * 1.02 + 1e-3)
        },
      ),
      { seed: 2, numRuns: 150 },
    )
  })

  it('is looked for in eighths where that matters, and in the middle where it does not', () => {
    // A quarter circle of radius 10, then 10 straight on: the chord's normal is (1, 2) / sqrt(5), and a place at an angle t
    // of the circle lies (10 cos t - 10 + 20 sin t) / sqrt(5) off, most at atan 2, near three quarters of the arc.
    const hook = trackOf({ start: [10, 0], segments: [arc([0, 10], [0, 0], Math.PI / 2), line([-10, 10])] })
    const off = (share: number) => {
      const t = (share * Math.PI) / 2
      return (10 * Math.cos(t) - 10 + 20 * Math.sin(t)) / Math.sqrt(5)
    }
    const length = 5 * Math.PI
    const at = (tolerance: number) => between(hook, 0, length + 10, tolerance)
    const exact = (found: { along: number; error: number }, share: number) => {
      expect(found.along).toBeCloseTo(share * length, 9)
      expect(found.error).toBeCloseTo(off(share), 9)
    }
    exact(at(0.1), 3 / 4)
    exact(at(100), 1 / 2)
    exact(at(off(1 / 2) / SURE + 1e-6), 1 / 2)
    exact(at(off(1 / 2) / SURE - 1e-6), 3 / 4)
  })
})
