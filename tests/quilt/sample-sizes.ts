import fc from 'fast-check'
import type { Point } from '../../src/geometry/point.ts'
import { measureQuadrilateral } from '../../src/quilt/fit-quadrilateral.ts'
import { layOutQuilt, type QuiltSize } from '../../src/quilt/layout.ts'
import type { MeasuredBand } from '../../src/quilt/measured-layout.ts'

const width = fc.double({ min: 20, max: 120, noNaN: true })

/** Quilts with one to six bands, each side with its own width. */
export const sampleSize: fc.Arbitrary<QuiltSize> = fc
  .record({
    width: fc.double({ min: 500, max: 1500, noNaN: true }),
    height: fc.double({ min: 500, max: 1500, noNaN: true }),
    bands: fc.array(
      fc.record({
        top: width,
        skew: fc.double({ min: 0.7, max: 1.4, noNaN: true }),
        corners: fc.constantFrom(
          'mitred' as const,
          'butted-rows' as const,
          'butted-columns' as const,
          'cornerstone' as const,
        ),
      }),
      { minLength: 1, maxLength: 6 },
    ),
  })
  .map(({ width, height, bands }) => ({
    centre: { width, height, fabric: '#f4efe4' },
    bands: bands.map(({ top, skew, corners }, i) => ({
      name: `band ${i}`,
      width: { top, right: top * skew, bottom: top, left: top * skew },
      fabric: '#c9d6df',
      corners,
    })),
    binding: 6.35,
  }))

const share = fc.double({ min: -1, max: 1, noNaN: true })

/**
 * Quilts as they come off the table: the whole up to 3 percent off each way and 1 in out of square, every corner up to
 * 3 percent of its band's width off by itself; every ring measured.
 */
export const measuredQuilt: fc.Arbitrary<{ size: QuiltSize; measured: MeasuredBand[] }> = fc
  .record({
    size: sampleSize,
    grow: fc.tuple(share, share),
    lean: share,
    corners: fc.array(share, { minLength: 56, maxLength: 56 }),
  })
  .map(({ size, grow, lean, corners }) => {
    const { rings, heightMm } = layOutQuilt(size)
    const measured = rings.map((ring, k): MeasuredBand => {
      const loose = 0.03 * size.bands[Math.max(0, k - 1)]!.width.top
      const real = ring.map(
        ([x, y], i): Point => [
          x * (1 + 0.03 * grow[0]) + (25.4 * lean * y) / heightMm + loose * corners[8 * k + 2 * i]!,
          y * (1 + 0.03 * grow[1]) + loose * corners[8 * k + 2 * i + 1]!,
        ],
      )
      return { band: k - 1, ...measureQuadrilateral(real) }
    })
    return { size, measured }
  })
