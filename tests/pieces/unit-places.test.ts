import { describe, expect, it } from 'vitest'
import type { BandFiller } from '../../src/pieces/band-filler.ts'
import { PATCH_FILLERS } from '../../src/pieces/patch-fillers/index.ts'
import { cutPieces } from '../../src/pieces/pieces.ts'
import { layOutQuilt } from '../../src/quilt/layout.ts'
import { layOutMeasured } from '../../src/quilt/measured-layout.ts'
import { type Piecing, pieceBands } from '../../src/quilt/pieced-band.ts'
import { PIECED_UNITS, type PiecedUnit, patchNames } from '../../src/quilt/pieced-unit.ts'
import { layOutPolygon } from '../../src/quilt/polygon-layout.ts'
import type { Quilt } from '../../src/quilt/quilt.ts'
import { assertPiecesFit, planAndCheck } from './piece-laws.ts'
import { SAMPLE_FILLERS } from './sample-fillers.ts'

const FILLS = ['orange-peel', 'spiral', 'crosshatch'] as const
const even = (w: number) => ({ top: w, right: w, bottom: w, left: w })
const bands = (count: number) =>
  Array.from({ length: count }, (_, i) => ({ name: `band ${i}`, fabric: '#ccc', corners: 'mitred' as const }))

const size = (count: number) => ({
  centre: { width: 180, height: 240, fabric: '#fff' },
  bands: bands(count).map((band) => ({ ...band, width: even(60) })),
  binding: 6,
})

/** Plans a quilt with these bands pieced, each patch name with the next of a few fills. */
function planPieced(plain: Quilt, unit: PiecedUnit, where: readonly number[]) {
  const piecing: Piecing = { unit, fabrics: {}, corners: 'unit' }
  const fills = patchNames(unit).map((name, i) => {
    const fill = FILLS[i % FILLS.length]!
    return [name, { name: fill, filler: PATCH_FILLERS[fill]!, values: {} }] as const
  })
  const quilt = pieceBands(
    plain,
    plain.bands.map(({ index }) => (where.includes(index) ? piecing : undefined)),
  )
  const fillers = plain.bands.map(
    ({ index }): BandFiller =>
      where.includes(index) ? { patches: Object.fromEntries(fills) } : SAMPLE_FILLERS[0]!,
  )
  const pieces = cutPieces(quilt, fillers, { reach: [500, 500], seed: 1 })
  assertPiecesFit(quilt, pieces)
  return planAndCheck(quilt, pieces)
}

describe.each(Object.entries(PIECED_UNITS))('bands of %s', (_, unit: PiecedUnit) => {
  it.each([
    ['first and last', [0, 2], 3],
    ['side by side', [1, 2], 3],
    ['alone', [0], 1],
  ] as const)('%s are stitched in one start with no stitching over a fill', (_place, where, count) => {
    const { route } = planPieced(layOutQuilt(size(count)), unit, where)
    expect(route.walks).toHaveLength(1)
    expect(route.overlapMm).toBe(0)
  })

  it('go round a hexagon and round a quilt that is out of square', () => {
    const hexagon = layOutPolygon({
      centre: { shape: { kind: 'regular', sides: 6, across: 260 }, fabric: '#fff' },
      bands: bands(2).map((band) => ({ ...band, width: 50 })),
      binding: 6,
    })
    const crooked = layOutMeasured(size(2), [
      { band: 0, across: [304, 301, 300], down: [360, 362, 364], diagonals: [482, 464] },
    ])
    for (const plain of [hexagon, crooked]) {
      const { route } = planPieced(plain, unit, [1])
      expect(route.walks).toHaveLength(1)
      expect(route.overlapMm).toBe(0)
    }
  })
})
