import { expect, it } from 'vitest'
import type { BandFiller } from '../../src/pieces/band-filler.ts'
import { PATCH_FILLERS } from '../../src/pieces/patch-fillers/index.ts'
import { cutPieces } from '../../src/pieces/pieces.ts'
import { layOutQuilt } from '../../src/quilt/layout.ts'
import { pieceBands } from '../../src/quilt/pieced-band.ts'
import { PIECED_UNITS } from '../../src/quilt/pieced-unit.ts'
import { inches } from '../../src/units.ts'
import { planAndCheck } from './piece-laws.ts'
import { SAMPLE_FILLERS } from './sample-fillers.ts'

const even = (w: number) => ({ top: inches(w), right: inches(w), bottom: inches(w), left: inches(w) })

/** A king-size quilt, 95 x 105 in (thequiltermag.com, Quilting Basics), of twelve bands; four are pieced, in 1 1/2 in units. */
function kingSize(patchFiller: string) {
  const widths = [1.5, 3, 1.5, 4, 2, 1.5, 3, 4, 1.5, 2, 3, 1.5]
  const units = { 2: 'squares', 5: 'half-square-triangle', 8: 'square-on-point', 11: 'squares' } as const
  const total = widths.reduce((sum, w) => sum + w, 0)
  const plain = layOutQuilt({
    centre: { width: inches(95 - 2 * total), height: inches(105 - 2 * total), fabric: '#fff' },
    bands: widths.map((w, i) => ({ name: `band ${i}`, width: even(w), fabric: '#ccc', corners: 'mitred' })),
    binding: inches(0.25),
  })
  const quilt = pieceBands(
    plain,
    widths.map((_, i) => {
      const name = units[i as keyof typeof units]
      return name && { unit: PIECED_UNITS[name], fabrics: {}, corners: 'unit' as const }
    }),
  )
  const fill = { name: patchFiller, filler: PATCH_FILLERS[patchFiller]!, values: {} }
  const patches = { dark: fill, light: fill, diamond: fill, triangle: fill }
  const fillers = widths.map((_, i): BandFiller => (i in units ? { patches } : SAMPLE_FILLERS[0]!))
  return { quilt, fillers }
}

// Loops that hang on their patches, and strokes that lead from patch to patch.
it.each([
  ['orange-peel', 0.02],
  ['spiral', 0.05],
])(
  'a king-size quilt of twelve bands and over 1,500 patches of %s is planned within 400 MB, with little travel',
  (patchFiller, travelShare) => {
    const plan = () => {
      const { quilt, fillers } = kingSize(patchFiller)
      const pieces = cutPieces(quilt, fillers, { reach: [inches(12), inches(12)], seed: 1 })
      return { patches: quilt.patches!.length, ...planAndCheck(quilt, pieces, { tried: 99 }) }
    }
    const start = process.memoryUsage().heapUsed
    const { patches, route, lines, net } = plan()
    expect(patches).toBeGreaterThan(1500)
    expect(lines).toHaveLength(1)
    expect(route.overlapMm).toBe(0)
    const stitched = net.fills.reduce((sum, fill) => sum + fill.length, 0)
    expect(route.travelMm / stitched).toBeLessThan(travelShare)
    expect((process.memoryUsage().heapUsed - start) / 1e6).toBeLessThan(400)
  },
)
