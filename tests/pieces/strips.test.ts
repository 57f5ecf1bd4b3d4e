import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { endOf, strokeLength } from '../../src/geometry/stroke.ts'
import type { BandFiller } from '../../src/pieces/band-filler.ts'
import { PATCH_FILLERS } from '../../src/pieces/patch-fillers/index.ts'
import { cutPieces } from '../../src/pieces/pieces.ts'
import { layOutQuilt } from '../../src/quilt/layout.ts'
import { layOutMeasured } from '../../src/quilt/measured-layout.ts'
import { pieceBands } from '../../src/quilt/pieced-band.ts'
import type { Corners } from '../../src/quilt/quilt.ts'
import { measuredQuilt, sampleSize } from '../quilt/sample-sizes.ts'
import { assertPiecesFit, depthInside, planAndCheck } from './piece-laws.ts'
import { SAMPLE_FILLERS } from './sample-fillers.ts'

const strip = fc.option(fc.constantFrom(...SAMPLE_FILLERS), { nil: undefined, freq: 4 })
const strips = fc.tuple(strip, strip, strip, strip).filter((list) => list.some((s) => s !== undefined))
const cornerstone = { name: 'spiral', filler: PATCH_FILLERS.spiral!, values: {} }

describe('strips with fillers of their own', () => {
  it('stay in their band and are stitched in one start, whatever their corners', () => {
    const quilts = fc.oneof(
      sampleSize.map(layOutQuilt),
      measuredQuilt.map(({ size, measured }) => layOutMeasured(size, measured)),
    )
    fc.assert(
      fc.property(quilts, fc.array(strips, { minLength: 6, maxLength: 6 }), (plain, lists) => {
        const quilt = pieceBands(
          plain,
          plain.bands.map((b) =>
            b.corners === 'cornerstone' ? { cornerstoneFabric: '#b8563f' } : undefined,
          ),
        )
        const fillers = quilt.bands.map((band, i): BandFiller => {
          const list = { strips: lists[i]! }
          return band.corners === 'cornerstone' ? { ...list, cornerstone } : list
        })
        const pieces = cutPieces(quilt, fillers, { reach: [500, 500], seed: 1 })
        assertPiecesFit(quilt, pieces)
        expect(planAndCheck(quilt, pieces).route.walks).toHaveLength(1)
      }),
      { seed: 121, numRuns: 10 },
    )
  })

  const quiltWith = (corners: Corners) => {
    const even = (w: number) => ({ top: w, right: w, bottom: w, left: w })
    return layOutQuilt({
      centre: { width: 400, height: 300, fabric: '#fff' },
      bands: [{ name: 'sand', width: even(50), fabric: '#ccc', corners }],
      binding: 6,
    })
  }
  const only = (side: number) => [0, 1, 2, 3].map((s) => (s === side ? SAMPLE_FILLERS[0] : undefined))
  const spanOf = (corners: Corners, side: number) => {
    const { pieces } = cutPieces(quiltWith(corners), [{ strips: only(side) }], { reach: [300, 300], seed: 1 })
    const along = pieces.flatMap(({ stroke }) => [stroke.start, endOf(stroke)]).map((p) => p[side % 2]!)
    return Math.max(...along) - Math.min(...along)
  }

  it('end where they were sewn', () => {
    expect(spanOf('butted-rows', 0)).toBeCloseTo(400, 6)
    expect(spanOf('butted-rows', 1)).toBeCloseTo(400, 6)
    expect(spanOf('butted-columns', 0)).toBeCloseTo(500, 6)
    expect(spanOf('butted-columns', 1)).toBeCloseTo(300, 6)
    expect(spanOf('cornerstone', 0)).toBeCloseTo(400, 6)
    expect(spanOf('cornerstone', 1)).toBeCloseTo(300, 6)
  })

  it('leave a side without a filler empty', () => {
    const quilt = quiltWith('mitred')
    const { pieces } = cutPieces(quilt, [{ strips: only(2) }], { reach: [300, 300], seed: 1 })
    for (const { stroke } of pieces) expect(stroke.start[1]).toBeGreaterThan(300)
  })

  it('fill the cornerstones with a filler of their own', () => {
    const quilt = pieceBands(quiltWith('cornerstone'), [{ cornerstoneFabric: '#b8563f' }])
    const strips = Array(4).fill(SAMPLE_FILLERS[0])
    const { pieces } = cutPieces(quilt, [{ strips, cornerstone }], { reach: [300, 300], seed: 1 })
    const inStones = pieces.filter((piece) => piece.startRing === undefined)
    expect(inStones).toHaveLength(4)
    for (const { stroke } of inStones) {
      expect(strokeLength(stroke)).toBeGreaterThan(50)
      const home = quilt.patches!.filter(({ outline }) => depthInside(stroke.segments[2]!.to, outline) > 0)
      expect(home).toHaveLength(1)
    }
  })
})
