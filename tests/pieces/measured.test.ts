import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distance } from '../../src/geometry/point.ts'
import { endOf, flattenStroke, polylineLength, strokeLength } from '../../src/geometry/stroke.ts'
import { tieNet } from '../../src/pieces/net.ts'
import { cutPieces } from '../../src/pieces/pieces.ts'
import { measureQuadrilateral } from '../../src/quilt/fit-quadrilateral.ts'
import { layOutQuilt } from '../../src/quilt/layout.ts'
import { layOutMeasured } from '../../src/quilt/measured-layout.ts'
import { measuredQuilt, sampleSize } from '../quilt/sample-sizes.ts'
import { assertPiecesFit, assertTouchesMeet, planAndCheck } from './piece-laws.ts'
import { SAMPLE_FILLERS } from './sample-fillers.ts'

const fillers = fc.array(fc.constantFrom(...SAMPLE_FILLERS), { minLength: 6, maxLength: 6 })
const options = { reach: [400, 300] as const, seed: 1 }

describe('a quilt measured with errors up to 3 percent and 1 in out of square', () => {
  const planned = fc.record({ real: measuredQuilt, fillers }).map(({ real, fillers }) => {
    const quilt = layOutMeasured(real.size, real.measured)
    return { quilt, pieces: cutPieces(quilt, fillers.slice(0, quilt.bands.length), options) }
  })

  it('keeps every line in its band', () => {
    fc.assert(
      fc.property(planned, ({ quilt, pieces }) => assertPiecesFit(quilt, pieces)),
      { seed: 81, numRuns: 20 },
    )
  })

  it('lets touches meet at the seams', () => {
    fc.assert(
      fc.property(planned, ({ quilt, pieces }) => {
        const net = tieNet(quilt, pieces)
        assertTouchesMeet(pieces, net)
        net.fills.forEach(({ u, v }, i) => {
          const { stroke } = pieces.pieces[i]!
          expect(distance(net.positions[u]!, stroke.start)).toBeLessThan(0.2)
          expect(distance(net.positions[v]!, endOf(stroke))).toBeLessThan(0.2)
        })
      }),
      { seed: 82, numRuns: 20 },
    )
  })

  it('is stitched in one start, and the lengths are those of the mapped curves', () => {
    fc.assert(
      fc.property(planned, ({ quilt, pieces }) => {
        const { net } = planAndCheck(quilt, pieces)
        pieces.pieces.forEach(({ stroke }, i) => {
          expect(net.fills[i]!.length).toBeCloseTo(strokeLength(stroke), 9)
          expect(
            Math.abs(polylineLength(flattenStroke(stroke, 1e-4)) / strokeLength(stroke) - 1),
          ).toBeLessThan(1e-4)
        })
      }),
      { seed: 83, numRuns: 5 },
    )
  })
})

it('a quilt measured exactly as planned gives the same pieces, to the last bit', () => {
  fc.assert(
    fc.property(sampleSize, fillers, (size, list) => {
      const planned = layOutQuilt(size)
      const measured = planned.rings.map((ring, k) => ({ band: k - 1, ...measureQuadrilateral(ring) }))
      const use = list.slice(0, size.bands.length)
      expect(JSON.stringify(cutPieces(layOutMeasured(size, measured), use, options))).toBe(
        JSON.stringify(cutPieces(planned, use, options)),
      )
    }),
    { seed: 84, numRuns: 20 },
  )
})
