import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { tieNet } from '../../src/pieces/net.ts'
import { cutPieces } from '../../src/pieces/pieces.ts'
import { type CentreShape, layOutPolygon } from '../../src/quilt/polygon-layout.ts'
import { assertPiecesFit, assertTouchesMeet, depthInside, planAndCheck } from './piece-laws.ts'
import { SAMPLE_FILLERS } from './sample-fillers.ts'

const shape: fc.Arbitrary<CentreShape> = fc.oneof(
  fc.record({
    kind: fc.constant('regular' as const),
    sides: fc.integer({ min: 3, max: 10 }),
    across: fc.double({ min: 400, max: 1500, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant('on-point' as const),
    width: fc.double({ min: 300, max: 1200, noNaN: true }),
    height: fc.double({ min: 300, max: 1200, noNaN: true }),
  }),
)

const polygonQuilt = fc
  .record({
    shape,
    widths: fc.array(fc.double({ min: 12, max: 120, noNaN: true }), { minLength: 1, maxLength: 6 }),
    fillers: fc.array(fc.constantFrom(...SAMPLE_FILLERS), { minLength: 6, maxLength: 6 }),
    reach: fc.double({ min: 250, max: 600, noNaN: true }),
    corners: fc.constantFrom('mitred' as const, 'cornerstone' as const, 'butted-rows' as const),
  })
  .map(({ shape, widths, fillers, reach, corners }) => {
    const quilt = layOutPolygon({
      centre: { shape, fabric: '#f4efe4' },
      bands: widths.map((width, i) => ({ name: `band ${i}`, width, fabric: '#c9d6df', corners })),
      binding: 6.35,
    })
    const pieces = cutPieces(quilt, fillers.slice(0, widths.length), { reach: [reach, reach], seed: 1 })
    return { quilt, pieces }
  })

describe('pieces round a polygon', () => {
  it('stay in their bands and end on their seams', () => {
    fc.assert(
      fc.property(polygonQuilt, ({ quilt, pieces }) => assertPiecesFit(quilt, pieces)),
      { seed: 61, numRuns: 30 },
    )
  })

  it('of neighbouring bands touch at the same places', () => {
    fc.assert(
      fc.property(polygonQuilt, ({ quilt, pieces }) => assertTouchesMeet(pieces, tieNet(quilt, pieces))),
      { seed: 62, numRuns: 30 },
    )
  })

  it('are stitched in one thread start without a gap', () => {
    fc.assert(
      fc.property(polygonQuilt, ({ quilt, pieces }) => {
        const { route } = planAndCheck(quilt, pieces)
        expect(route.walks).toHaveLength(1)
      }),
      { seed: 63, numRuns: 8 },
    )
  })

  it('cost no travel and no overlap where the bands are one group of alternating fillers', () => {
    for (const sides of [6, 8]) {
      const quilt = layOutPolygon({
        centre: { shape: { kind: 'regular', sides, across: 700 }, fabric: '#fff' },
        bands: [30, 60, 40].map((width, i) => ({ name: `${i}`, width, fabric: '#ccc', corners: 'mitred' })),
        binding: 6,
      })
      const pieces = cutPieces(quilt, Array(3).fill(SAMPLE_FILLERS[0]), { reach: [300, 300], seed: 1 })
      const { route } = planAndCheck(quilt, pieces)
      expect(route.travelMm).toBeCloseTo(0, 6)
      expect(route.overlapMm).toBeCloseTo(0, 6)
    }
  })
})

describe('the laws of pieces', () => {
  const quilt = layOutPolygon({
    centre: { shape: { kind: 'regular', sides: 6, across: 700 }, fabric: '#fff' },
    bands: [30, 60, 40].map((width, i) => ({ name: `${i}`, width, fabric: '#ccc', corners: 'mitred' })),
    binding: 6,
  })
  const pieces = cutPieces(quilt, Array(3).fill(SAMPLE_FILLERS[0]), { reach: [300, 300], seed: 1 })

  it('fail on a piece that strays', () => {
    const [first, ...rest] = pieces.pieces
    const strayed = {
      ...first!,
      stroke: { ...first!.stroke, segments: [{ kind: 'line' as const, to: quilt.rings[3]![0]! }] },
    }
    expect(() => assertPiecesFit(quilt, { ...pieces, pieces: [strayed, ...rest] })).toThrow(/piece 0/)
  })

  it('fail where neighbours do not share their touches', () => {
    const net = tieNet(quilt, pieces)
    const apart = { ...net, fills: net.fills.map((fill, i) => ({ ...fill, u: 1e4 + i, v: 1e4 + i })) }
    expect(() => assertTouchesMeet(pieces, apart)).toThrow(/share 0 touches/)
  })

  it('measure depth inside an outline', () => {
    expect(
      depthInside(
        [1, 1],
        [
          [0, 0],
          [4, 0],
          [4, 4],
          [0, 4],
        ],
      ),
    ).toBe(1)
    expect(
      depthInside(
        [5, 1],
        [
          [0, 0],
          [4, 0],
          [4, 4],
          [0, 4],
        ],
      ),
    ).toBe(-1)
  })
})
