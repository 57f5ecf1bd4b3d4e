import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Point } from '../../src/geometry/point.ts'
import type { Warp } from '../../src/geometry/warp.ts'
import { cornerWarp, fanLength, fanWarp, type Stretch } from '../../src/motif/bend.ts'

const stretch: fc.Arbitrary<Stretch> = fc
  .record({
    width: fc.integer({ min: 10, max: 60 }),
    start: fc.integer({ min: -50, max: 50 }),
    lean: fc.integer({ min: -9, max: 9 }),
    length: fc.integer({ min: 100, max: 300 }),
    overhang: fc.integer({ min: -50, max: 50 }),
  })
  .map(({ width, start, lean, length, overhang }) => ({
    width,
    start: { inner: start, outer: start + lean },
    end: { inner: start + length, outer: start + length + overhang },
  }))
const share = fc.integer({ min: 0, max: 100 }).map((n) => n / 100)

/** The derivatives that a warp tells are those of its own places, by differences. */
function isTrueTo(warp: Warp, [u, v]: Point): void {
  const h = 1e-5
  const { du, dv } = warp([u, v])
  const slope = (a: Point, b: Point): Point => [(b[0] - a[0]) / (2 * h), (b[1] - a[1]) / (2 * h)]
  const alongU = slope(warp([u - h, v]).to, warp([u + h, v]).to)
  const alongV = slope(warp([u, v - h]).to, warp([u, v + h]).to)
  for (const i of [0, 1] as const) {
    expect(du[i]).toBeCloseTo(alongU[i], 4)
    expect(dv[i]).toBeCloseTo(alongV[i], 4)
  }
}

describe('a strip that is fanned', () => {
  it('lies between its two ends, evenly, and is as long as their mean', () => {
    fc.assert(
      fc.property(stretch, share, share, (of, along, across) => {
        const { width, start, end } = of
        const length = fanLength(of)
        expect(length).toBeCloseTo((end.inner + end.outer - start.inner - start.outer) / 2, 9)
        const warp = fanWarp(of)
        const lineAt = (t: number) => ({
          inner: start.inner + t * (end.inner - start.inner),
          outer: start.outer + t * (end.outer - start.outer),
        })
        const { inner, outer } = lineAt(along)
        const { to } = warp([along * length, across * width])
        expect(to[0]).toBeCloseTo(inner + across * (outer - inner), 9)
        expect(to[1]).toBe(across * width)
        isTrueTo(warp, [along * length, across * width])
      }),
      { seed: 1, numRuns: 60 },
    )
  })
})

describe('a strip that is leaned onto a mitre', () => {
  it('ends on the mitre, keeps each line along it on its height, and is straight far from there', () => {
    fc.assert(
      fc.property(stretch, share, share, (of, along, across) => {
        const { width, end } = of
        const length = (end.inner + end.outer) / 2
        fc.pre(length > 0.6 * Math.abs(end.outer - end.inner))
        const warp = cornerWarp(of, length)
        const v = across * width
        expect(warp([length, v]).to[0]).toBeCloseTo(end.inner + across * (end.outer - end.inner), 9)
        expect(warp([along * length, v]).to[1]).toBe(v)
        // Its middle line is not moved.
        expect(warp([along * length, width / 2]).to[0]).toBeCloseTo(along * length, 9)
        const zone = Math.min(length, 4 * Math.abs(end.outer - end.inner))
        if (length <= 1.5 * Math.abs(end.outer - end.inner) || along * length >= length - zone) return
        const { to, du, dv } = warp([along * length, v])
        expect([...to, ...du, ...dv].map((x) => x + 0)).toEqual([along * length, v, 1, 0, 0, 1])
      }),
      { seed: 2, numRuns: 100 },
    )
  })

  it('tells its own derivatives, and never folds', () => {
    fc.assert(
      fc.property(stretch, share, share, (of, along, across) => {
        const { width, end } = of
        const length = (end.inner + end.outer) / 2
        fc.pre(length > 0.6 * Math.abs(end.outer - end.inner))
        const warp = cornerWarp(of, length)
        const u = (0.01 + 0.98 * along) * length
        const isAtSeam = Math.abs(u - (length - Math.min(length, 4 * Math.abs(end.outer - end.inner)))) < 1e-3
        if (!isAtSeam) isTrueTo(warp, [u, across * width])
        expect(warp([u, across * width]).du[0]).toBeGreaterThan(0)
      }),
      { seed: 3, numRuns: 100 },
    )
  })

  it('leans evenly over all of a stretch that is too short to lean gently', () => {
    const short: Stretch = { width: 40, start: { inner: 0, outer: 0 }, end: { inner: 20, outer: 60 } }
    const warp = cornerWarp(short, 40)
    expect(warp([20, 40])).toEqual({ to: [30, 40], du: [1.5, 0], dv: [0.5, 1] })
    expect(warp([0, 40])).toEqual({ to: [0, 40], du: [1, 0], dv: [0, 1] })
  })

  it('leans with the square of the way over four overhangs where there is room', () => {
    const long: Stretch = { width: 40, start: { inner: 0, outer: 0 }, end: { inner: 190, outer: 210 } }
    const warp = cornerWarp(long, 200)
    // Half way through the last 80 mm, at the outer edge: a quarter of half the overhang.
    expect(warp([160, 40])).toEqual({ to: [162.5, 40], du: [1.125, 0], dv: [0.125, 1] })
    expect(warp([160, 0])).toEqual({ to: [157.5, 0], du: [0.875, 0], dv: [0.125, 1] })
    expect(warp([119, 40])).toEqual({ to: [119, 40], du: [1, 0], dv: [0, 1] })
  })

  it('is only moved along where the end is square', () => {
    const square: Stretch = { width: 40, start: { inner: 0, outer: 0 }, end: { inner: 90, outer: 90 } }
    expect(cornerWarp(square, 80)([5, 7])).toEqual({ to: [15, 7], du: [1, 0], dv: [0, 1] })
  })
})
