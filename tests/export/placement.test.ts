import { describe, expect, it } from 'vitest'
import { placement } from '../../src/export/path/placement.ts'
import { applyAffine } from '../../src/geometry/affine.ts'
import type { Point } from '../../src/geometry/point.ts'

const quilt: Point[] = [
  [0, 0],
  [300, 0],
  [300, 200],
  [0, 200],
]
const base = { mirror: 'none', turn: 0, origin: 'bottom-left', yAxis: 'up' } as const
const place = (p: Point, choice: Partial<Parameters<typeof placement>[1]> = {}): Point =>
  applyAffine(placement(quilt, { ...base, ...choice }), p).map(
    (v) => Math.round(v * 1e6) / 1e6 + 0,
  ) as unknown as Point

describe('the placement on a table', () => {
  it('puts the chosen corner on the origin, y up', () => {
    expect(place([0, 200])).toEqual([0, 0])
    expect(place([300, 0])).toEqual([300, 200])
    expect(place([300, 0], { origin: 'top-right' })).toEqual([0, 0])
    expect(place([0, 200], { origin: 'top-right' })).toEqual([-300, -200])
    expect(place([300, 200], { origin: 'bottom-right' })).toEqual([0, 0])
    expect(place([0, 0], { origin: 'top-left' })).toEqual([0, 0])
    expect(place([10, 0], { origin: 'centre' })).toEqual([-140, 100])
  })

  it('leaves y downward when asked', () => {
    expect(place([10, 30], { yAxis: 'down', origin: 'top-left' })).toEqual([10, 30])
  })

  it('turns clockwise as seen on the quilt', () => {
    // A quarter turn clockwise brings the bottom left corner to the top left: with y up and a box of 200 x 300
    expect(place([0, 200], { turn: 90 })).toEqual([0, 300])
    expect(place([0, 0], { turn: 90 })).toEqual([200, 300])
    expect(place([0, 0], { turn: 180 })).toEqual([300, 0])
    expect(place([0, 0], { turn: -90 })).toEqual([0, 0])
    expect(place([0, 0], { turn: 360 })).toEqual(place([0, 0]))
  })

  it('mirrors before it turns', () => {
    expect(place([0, 200], { mirror: 'left-right' })).toEqual([300, 0])
    expect(place([0, 200], { mirror: 'top-bottom' })).toEqual([0, 200])
  })
})
