import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distance } from '../../src/geometry/point.ts'
import { outlineArea, outlineLength } from '../../src/quilt/outline.ts'
import { layOutPolygon, type PolygonBand } from '../../src/quilt/polygon-layout.ts'

const band = (width: number): PolygonBand => ({
  name: `w${width}`,
  width,
  fabric: '#c9d6df',
  corners: 'mitred',
})

const widths = fc.array(fc.double({ min: 10, max: 150, noNaN: true }), { minLength: 1, maxLength: 10 })

describe('bands round a regular polygon', () => {
  it('have the areas and perimeters of the closed forms', () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 12 }), widths, (sides, list) => {
        const quilt = layOutPolygon({
          centre: { shape: { kind: 'regular', sides, across: 500 }, fabric: '#fff' },
          bands: list.map(band),
          binding: 6,
        })
        let apothem = 250
        quilt.rings.forEach((ring, k) => {
          if (k > 0) apothem += list[k - 1]!
          // Area m a² tan(pi/m), perimeter 2 m a tan(pi/m) of a regular m-gon of apothem a: Euclid's elements of it, school formula.
          const t = Math.tan(Math.PI / sides)
          expect(outlineArea(ring) / (sides * apothem ** 2 * t)).toBeCloseTo(1, 9)
          expect(outlineLength(ring) / (2 * sides * apothem * t)).toBeCloseTo(1, 9)
        })
      }),
      { seed: 51, numRuns: 100 },
    )
  })

  it('stand with a level side on top, inside a box that begins at the origin', () => {
    const quilt = layOutPolygon({
      centre: { shape: { kind: 'regular', sides: 6, across: 600 }, fabric: '#fff' },
      bands: [band(50), band(100)],
      binding: 6,
    })
    const [a, b] = quilt.rings[0]!
    expect(a![1]).toBeCloseTo(b![1], 9)
    expect(a![0]).toBeLessThan(b![0])
    expect(quilt.heightMm).toBeCloseTo(600 + 2 * 156, 9)
    // Across the corners: across the flats over cos 30 degrees.
    expect(quilt.widthMm).toBeCloseTo((600 + 2 * 156) / Math.cos(Math.PI / 6), 9)
    expect(Math.min(...quilt.edge.map((p) => p[0]))).toBeCloseTo(0, 9)
    expect(Math.min(...quilt.edge.map((p) => p[1]))).toBeCloseTo(0, 9)
  })

  it('refuse fewer than three sides', () => {
    const size = { kind: 'regular' as const, sides: 2, across: 100 }
    expect(() => layOutPolygon({ centre: { shape: size, fabric: '' }, bands: [], binding: 0 })).toThrow(
      '2 sides; must be a whole number, 3 or more',
    )
  })
})

it('a centre on point keeps its sizes, turned by 45 degrees', () => {
  const quilt = layOutPolygon({
    centre: { shape: { kind: 'on-point', width: 300, height: 400 }, fabric: '#fff' },
    bands: [band(50)],
    binding: 6,
  })
  const ring = quilt.rings[1]!
  expect(distance(ring[0]!, ring[1]!)).toBeCloseTo(400, 9)
  expect(distance(ring[1]!, ring[2]!)).toBeCloseTo(500, 9)
  expect(outlineArea(ring)).toBeCloseTo(400 * 500, 6)
  expect(quilt.widthMm).toBeCloseTo((412 + 512) / Math.SQRT2, 9)
})
