import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distance, distanceToLine, lerp, type Point } from '../../src/geometry/point.ts'
import { layOutQuilt } from '../../src/quilt/layout.ts'
import { layOutMeasured } from '../../src/quilt/measured-layout.ts'
import { outlineArea } from '../../src/quilt/outline.ts'
import { countUnits, type Piecing, pieceBands } from '../../src/quilt/pieced-band.ts'
import { drawnUnit, PIECED_UNITS, type PiecedUnit, patchNames } from '../../src/quilt/pieced-unit.ts'
import { layOutPolygon } from '../../src/quilt/polygon-layout.ts'
import type { Quilt } from '../../src/quilt/quilt.ts'
import { inches } from '../../src/units.ts'
import { measuredQuilt, sampleSize } from './sample-sizes.ts'

const piecing: fc.Arbitrary<Piecing> = fc.record({
  unit: fc.constantFrom<PiecedUnit>(...Object.values(PIECED_UNITS)),
  size: fc.double({ min: 35, max: 90, noNaN: true }),
  fabrics: fc.constant({ dark: '#223344' }),
  corners: fc.constantFrom('unit' as const, 'cornerstone' as const),
})

const quilts: fc.Arbitrary<Quilt> = fc.oneof(
  sampleSize.map(layOutQuilt),
  measuredQuilt.map(({ size, measured }) => layOutMeasured(size, measured)),
  fc
    .record({ sides: fc.integer({ min: 5, max: 8 }), width: fc.double({ min: 20, max: 80, noNaN: true }) })
    .map(({ sides, width }) =>
      layOutPolygon({
        centre: { shape: { kind: 'regular', sides, across: 600 }, fabric: '#fff' },
        bands: [0, 1].map((i) => ({ name: `${i}`, width, fabric: '#ccc', corners: 'cornerstone' as const })),
        binding: 6,
      }),
    ),
)

const pieced = fc.tuple(quilts, piecing).map(([quilt, p]) =>
  pieceBands(
    quilt,
    quilt.bands.map((b) => (b.index === 0 ? p : undefined)),
  ),
)

const areaOf = (points: readonly Point[]) => outlineArea(points)

describe.each(Object.entries(PIECED_UNITS))('the unit %s', (_, unit: PiecedUnit) => {
  it('fills its square without overlap', () => {
    for (const turn of unit.turns) expect(() => drawnUnit(turn)).not.toThrow()
  })
})

describe('a pieced band', () => {
  it('is filled by its patches, which all run clockwise', () => {
    fc.assert(
      fc.property(pieced, (quilt) => {
        const areas = quilt.patches!.map((patch) => areaOf(patch.outline))
        expect(Math.min(...areas)).toBeGreaterThan(0)
        const band = areaOf(quilt.rings[1]!) - areaOf(quilt.rings[0]!)
        expect(areas.reduce((sum, a) => sum + a, 0) / band).toBeCloseTo(1, 9)
      }),
      { seed: 101, numRuns: 20 },
    )
  })

  it('has every edge of every patch on a seam', () => {
    fc.assert(
      fc.property(pieced, (quilt) => {
        const seams = quilt.seams.flatMap((seam) =>
          seam.points.slice(1).map((to, i) => ({ from: seam.points[i]!, to })),
        )
        quilt.patches!.forEach(({ outline }, i) => {
          if (i % 17 !== 0) return
          outline.forEach((from, k) => {
            const to = outline[(k + 1) % outline.length]!
            for (const t of [0.21, 0.52, 0.83]) {
              const p = lerp(from, to, t)
              expect(Math.min(...seams.map((s) => distanceToLine(p, s.from, s.to)))).toBeLessThan(0.02)
            }
          })
        })
      }),
      { seed: 102, numRuns: 5 },
    )
  })

  it('is a ring of patches: corners, seams and patches obey Euler’s rule', () => {
    // V - E + F = 0 for a net on a ring (Euler characteristic of an annulus, the rings' own stretches counted as edges).
    fc.assert(
      fc.property(pieced, (quilt) => {
        const inner = quilt.seams.filter((seam) => seam.kind === 'patch')
        const names = new Map<string, Point>()
        const key = (p: Point) => `${p[0].toFixed(1)} ${p[1].toFixed(1)}`
        const points: Point[] = []
        for (const p of [
          ...quilt.patches!.flatMap((x) => x.outline),
          ...quilt.rings[0]!,
          ...quilt.rings[1]!,
        ]) {
          if (names.has(key(p))) continue
          names.set(key(p), p)
          points.push(p)
        }
        const onRing = points.filter((p) =>
          [0, 1].some((k) =>
            quilt.rings[k]!.some(
              (a, i) => distanceToLine(p, a, quilt.rings[k]![(i + 1) % quilt.rings[k]!.length]!) < 0.02,
            ),
          ),
        )
        expect(points.length - (inner.length + onRing.length) + quilt.patches!.length).toBe(0)
      }),
      { seed: 103, numRuns: 8 },
    )
  })

  it('has whole units, as near to their size as can be', () => {
    fc.assert(
      fc.property(quilts, piecing, (quilt, p) => {
        const band = quilt.bands[0]!
        const { rows, along } = countUnits(band, p)
        expect(Number.isInteger(rows) && rows >= 1).toBe(true)
        along.forEach((count, s) => {
          const side = band.sides[s]!
          const unit = distance(side.innerA, side.innerB) / count
          const wanted = p.unit.aspect * p.size!
          // Between half and one and a half of the wanted length, for any length of side; 1 percent for what isn't square.
          expect(unit / wanted).toBeGreaterThan(0.65)
          expect(unit / wanted).toBeLessThan(1.51)
        })
      }),
      { seed: 104, numRuns: 80 },
    )
  })

  it('of 4 in squares on point round 60 x 72 in has 15 and 18 units on its sides', () => {
    const w = inches(4)
    const quilt = layOutQuilt({
      centre: { width: inches(60), height: inches(72), fabric: '#fff' },
      bands: [
        {
          name: 'stars',
          width: { top: w, right: w, bottom: w, left: w },
          fabric: '#eee',
          corners: 'cornerstone',
        },
      ],
      binding: 6,
    })
    const p: Piecing = { unit: PIECED_UNITS['square-on-point'], fabrics: {}, corners: 'unit' }
    expect(countUnits(quilt.bands[0]!, p)).toEqual({ rows: 1, along: [15, 18, 15, 18] })
    // 66 units on the sides and 4 in the corners, of five patches each.
    expect(pieceBands(quilt, [p]).patches).toHaveLength(70 * 5)
  })
})

describe('a drawn unit', () => {
  it('is refused where patches overlap, leave a gap, are hollow or lie outside', () => {
    const square = (x0: number, x1: number): Point[] => [
      [x0, 0],
      [x1, 0],
      [x1, 1],
      [x0, 1],
    ]
    const a = { name: 'a', outline: square(0, 0.6) }
    expect(() => drawnUnit([a, { name: 'b', outline: square(0.4, 1) }])).toThrow('patches a and b overlap')
    expect(() => drawnUnit([a])).toThrow('the patches fill 0.6000 of the square; must fill 1')
    expect(() =>
      drawnUnit([
        {
          name: 'c',
          outline: [
            [0, 0],
            [1, 0],
            [0.3, 0.3],
            [0, 1],
          ],
        },
      ]),
    ).toThrow('hollow corner')
    expect(() =>
      drawnUnit([
        {
          name: 'd',
          outline: [
            [0, 0],
            [2, 0],
            [0, 1],
          ],
        },
      ]),
    ).toThrow('corner at 2, 0')
    expect(() =>
      drawnUnit([
        {
          name: 'e',
          outline: [
            [0, 0],
            [1, 0],
          ],
        },
      ]),
    ).toThrow('has 2 corners')
  })

  it('keeps its patch names, each once', () => {
    expect(patchNames(PIECED_UNITS['square-on-point'])).toEqual(['diamond', 'triangle'])
  })
})
