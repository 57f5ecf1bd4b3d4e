import { describe, expect, it } from 'vitest'
import { checkWalkingFoot, WALKING_FOOT_DEFAULTS } from '../../src/check/walking-foot.ts'
import { PlanError } from '../../src/error.ts'
import type { Point } from '../../src/geometry/point.ts'
import { arc } from '../../src/geometry/segment.ts'
import { type Stroke, strokeThrough } from '../../src/geometry/stroke.ts'
import type { Line } from '../../src/stitch/line.ts'

const lineOf = (...strokes: Stroke[]): Line => ({
  thread: 'cream',
  parts: strokes.map((stroke, band) => ({ kind: 'fill', area: 0, band, stroke })),
})
const bend = (radius: number): Stroke => ({
  start: [radius, 0],
  segments: [arc([-radius, 0], [0, 0], Math.PI)],
})
const zigzag = (count: number, step: number): Stroke =>
  strokeThrough(Array.from({ length: count }, (_, i): Point => [i * step, i % 2 === 0 ? 0 : 40]))

// Only straight and gently curved lines suit a walking foot: common practice, no source.
describe('a walking foot', () => {
  it('suits straight lines and wide curves', () => {
    const checks = checkWalkingFoot([
      lineOf(
        strokeThrough([
          [0, 0],
          [500, 0],
        ]),
      ),
    ])
    expect(checks).toEqual([
      expect.objectContaining({
        band: 0,
        verdict: 'suits',
        smallestRadius: Infinity,
        pivots: 0,
        reasons: [],
      }),
    ])
    expect(checkWalkingFoot([lineOf(bend(100))])[0]).toMatchObject({ verdict: 'suits' })
  })

  it('needs care in curves and at pivots', () => {
    const [curve] = checkWalkingFoot([lineOf(bend(50))])
    expect(curve).toMatchObject({ verdict: 'with care', reasons: ['curves of 50 mm in radius: slowly'] })
    expect(curve!.smallestRadius).toBeCloseTo(50, 9)
    const corner = strokeThrough([
      [0, 0],
      [500, 0],
      [500, 500],
    ])
    expect(checkWalkingFoot([lineOf(corner)])[0]).toMatchObject({
      verdict: 'with care',
      pivots: 1,
      reversals: 0,
    })
  })

  it('cannot take tight curves, many pivots or lines that turn back', () => {
    expect(checkWalkingFoot([lineOf(bend(10))])[0]).toMatchObject({ verdict: 'cannot' })
    expect(checkWalkingFoot([lineOf(zigzag(60, 30))])[0]).toMatchObject({
      verdict: 'cannot',
      pivots: 58,
      reversals: 0,
    })
    const [back] = checkWalkingFoot([lineOf(zigzag(6, 5))])
    expect(back).toMatchObject({ verdict: 'cannot', reversals: 4 })
    expect(back!.reasons[0]).toContain('turned right round 4 times to the metre')
  })

  it('sees the curve in a chain of short straight stretches', () => {
    const chain = strokeThrough(
      Array.from({ length: 60 }, (_, i): Point => [20 * Math.cos(i / 20), 20 * Math.sin(i / 20)]),
    )
    expect(checkWalkingFoot([lineOf(chain)])[0]!.smallestRadius).toBeCloseTo(20, 1)
  })

  it('is judged band by band over all thread starts', () => {
    const first = lineOf(
      strokeThrough([
        [0, 0],
        [100, 0],
      ]),
      strokeThrough([
        [100, 0],
        [200, 0],
      ]),
    )
    const checks = checkWalkingFoot([first, lineOf(bend(10))])
    expect(checks.map(({ band, verdict }) => [band, verdict])).toEqual([
      [0, 'cannot'],
      [1, 'suits'],
    ])
  })

  it('is refused for nonsense settings', () => {
    const wrong = { ...WALKING_FOOT_DEFAULTS, gentleRadius: 1 }
    expect(() => checkWalkingFoot([], wrong)).toThrow(PlanError)
  })
})
