import { describe, expect, it } from 'vitest'
import clamshell from '../../motifs/clamshell.ts'
import pearls from '../../motifs/pearls.ts'
import scallop from '../../motifs/scallop.ts'
import wave from '../../motifs/wave.ts'
import { drawnMotif } from '../../src/drawn/drawn-motif.ts'
import { readPath } from '../../src/drawn/read-path.ts'
import { shapeRepeat } from '../../src/drawn/shape-repeat.ts'
import { measureFiller } from '../../src/gallery/measure.ts'
import type { Point } from '../../src/geometry/point.ts'
import { type Stroke, strokeLength, strokeThrough } from '../../src/geometry/stroke.ts'
import { archimedeanSpiral } from '../../src/motif/double-spiral.ts'

const ends = { from: 'inner', to: 'inner', mirrorStart: false, mirrorEnd: false, seed: 1 } as const

const rectangle = (length: number, width: number): Point[] => [
  [0, 0],
  [length, 0],
  [length, width],
  [0, width],
]
const measured = (stroke: Stroke, length: number, width: number) =>
  measureFiller([stroke], { rings: [rectangle(length, width)] })

describe('packing, by hand', () => {
  it('clamshells: half circles of radius r, one to each 2 r by r of cloth, leave circles of 2/3 r', () => {
    // Length for area: pi r / (2 r x r) = pi / 2 r. With r = 10 mm: 0.157080 mm a mm², 15.7080 mm a cm².
    // Gap: the shell between two lower crowns, centres (0, 0) and (2 r, 0), and an upper one, centre (r, r). On its axis, h
    // above the lower centres, it is 2 r - h to the upper arc and sqrt(r² + h²) - r to the lower ones: equal for
    // (3 r - h)² = r² + h², h = 4/3 r; so a radius of 2/3 r and a diameter of 4/3 r = 13.33 mm.
    const [r, rows, shells] = [10, 5, 8]
    const strip = {
      ...ends,
      to: 'outer',
      length: (2 * shells + 1) * r,
      width: rows * r,
      repeats: shells / 2,
    } as const
    const { stroke } = clamshell.draw(strip, { size: 2 * r })
    const { mmPerCm2, gapMm } = measured(stroke, strip.length, strip.width)
    expect(mmPerCm2).toBeCloseTo((100 * Math.PI) / (2 * r), 2)
    expect(Math.abs(gapMm - (4 / 3) * r)).toBeLessThan(0.25)
  })

  it('a chain of circles on its thread: 3 pi r for each circle, and a gap as wide as r', () => {
    // The circle is 2 pi r, the two half circles of half the size through it pi r. The lobe between them holds a circle of
    // r / 2: its middle is as far from the rim as from the other half circle where it is r / 2 from the circle's middle.
    // Beside two circles that touch, a seam h from their middles leaves h² / 2 (h + r): with h = 1.05 r, 0.27 r, less.
    const [r, count] = [12, 6]
    const lead = 0.13
    const length = r / (1 / (2 * count) - lead / count ** 2)
    const strip = { ...ends, to: 'outer', length, width: 2.1 * r, repeats: count } as const
    const { stroke } = pearls.draw(strip, { size: 0.84 })
    const inside = {
      start: [0, 0] as Point,
      segments: stroke.segments.filter((s) => s.kind === 'arc').slice(1, -1),
    }
    inside.start = stroke.segments[0]!.to as Point
    expect(strokeLength(inside)).toBeCloseTo(3 * Math.PI * r * count, 6)
    expect(Math.abs(measured(stroke, length, strip.width).gapMm - r)).toBeLessThan(0.3)
  })
})

describe('the tightest curve', () => {
  // kappa = A (2 pi / lambda)² at the crest of y = A sin(2 pi x / lambda).
  it.each([
    [10, 100],
    [20, 120],
    [6, 150],
  ])('of a wave of amplitude %d and period %d is that of the sine at its crest', (amplitude, period) => {
    const strip = { ...ends, length: 4 * period, width: 2 * amplitude, repeats: 4 }
    const { stroke } = wave.draw(strip, { repeat: period })
    const radius = 1 / (amplitude * ((2 * Math.PI) / period) ** 2)
    const { radiusMm } = measured(stroke, strip.length, strip.width)
    expect(Math.abs(radiusMm / radius - 1)).toBeLessThan(0.06)
  })

  // R = (c² + 4 h²) / 8 h (Euclid III.35): chord 4, rise 1 gives 2.5; here in inches.
  it.each([
    [101.6, 25.4, 63.5],
    [152.4, 19.05, 161.925],
  ])('of a scallop on a chord of %d and a rise of %d is the radius of its arc, %d', (chord, rise, radius) => {
    const strip = { ...ends, length: 3 * chord, width: rise, repeats: 3 }
    const { stroke } = scallop.draw(strip, { repeat: chord, crowns: 'outer' })
    expect(measured(stroke, strip.length, rise).radiusMm).toBeCloseTo(radius, 6)
  })

  // r = b theta has kappa = (theta² + 2) / (b (theta² + 1)^(3/2)), the greatest at its inner end.
  it.each([
    [60, 20, 12],
    [90, 10, 6],
  ])(
    'of an Archimedean spiral from %d in to %d with a pitch of %d is that of its inner end',
    (outer, inner, pitch) => {
      const b = pitch / (2 * Math.PI)
      const theta = inner / b
      const radius = (b * (theta ** 2 + 1) ** 1.5) / (theta ** 2 + 2)
      const stroke = archimedeanSpiral([100, 100], { outer, inner, pitch })
      expect(Math.abs(measured(stroke, 200, 200).radiusMm / radius - 1)).toBeLessThan(0.06)
    },
  )

  it('of straight lines is none', () => {
    const zigzag = strokeThrough([
      [0, 0],
      [20, 20],
      [40, 0],
    ])
    expect(measured(zigzag, 40, 20)).toMatchObject({ radiusMm: Number.POSITIVE_INFINITY, retraceShare: 0 })
  })
})

describe('a trochoid drawn as a motif of one’s own', () => {
  // x = a phi - b sin phi, y = a - b cos phi: 4 (a + b) E(m) a turn, m = 4 a b / (a + b)²; 1.5811388 E for (1, 2).
  it.each([
    [1, 1, 8],
    [1, 2, 13.3648932206],
    [0.5, 1.25, 8.17141668697],
    [1, 0.5, 6.68244661028],
  ])('with a = %d and b = %d is %d long', (a, b, length) => {
    const at = (phi: number): Point => [a * phi - b * Math.sin(phi), b * Math.cos(phi) - a]
    const slope = (phi: number): Point => [a - b * Math.cos(phi), -b * Math.sin(phi)]
    const pieces = 48
    const step = (2 * Math.PI) / pieces
    // Cubics with the trochoid's places and slopes at both ends, begun at its top so that nothing lies beyond the ends.
    const text = (p: Point) => p.map((v) => v.toFixed(9)).join(' ')
    let path = `M${text(at(b > a ? Math.PI : 0))}`
    const first = b > a ? Math.PI : 0
    for (let i = 0; i < pieces; i++) {
      const [t0, t1] = [first + i * step, first + (i + 1) * step]
      const [p, q, dp, dq] = [at(t0), at(t1), slope(t0), slope(t1)]
      path += `C${text([p[0] + (dp[0] * step) / 3, p[1] + (dp[1] * step) / 3])} ${text([q[0] - (dq[0] * step) / 3, q[1] - (dq[1] * step) / 3])} ${text(q)}`
    }
    const motif = drawnMotif({
      name: 'trochoid',
      shape: shapeRepeat(readPath(path)),
      suits: { min: 10, max: 200 },
    })
    const [width, repeats] = [2 * b * 10, 3]
    const strip = {
      ...ends,
      from: b > a ? 'outer' : 'inner',
      to: b > a ? 'outer' : 'inner',
      width,
      repeats,
    } as const
    const { stroke } = motif.draw({ ...strip, length: 2 * Math.PI * a * 10 * repeats }, {} as never)
    expect(Math.abs(strokeLength(stroke) / (10 * repeats * length) - 1)).toBeLessThan(1e-4)
  })
})
