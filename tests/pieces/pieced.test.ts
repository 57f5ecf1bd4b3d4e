import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distance, distanceToLine, type Point } from '../../src/geometry/point.ts'
import { endOf, flattenStroke } from '../../src/geometry/stroke.ts'
import type { BandFiller } from '../../src/pieces/band-filler.ts'
import type { PatchFill } from '../../src/pieces/patch-fillers/contract.ts'
import { PATCH_FILLERS } from '../../src/pieces/patch-fillers/index.ts'
import { cutPieces, type Pieces } from '../../src/pieces/pieces.ts'
import { layOutQuilt } from '../../src/quilt/layout.ts'
import { pieceBands } from '../../src/quilt/pieced-band.ts'
import { PIECED_UNITS, type PiecedUnit, patchNames } from '../../src/quilt/pieced-unit.ts'
import type { Quilt } from '../../src/quilt/quilt.ts'
import { assertPiecesFit, depthInside, planAndCheck } from './piece-laws.ts'
import { SAMPLE_FILLERS } from './sample-fillers.ts'

const fillNamed = (name: string): PatchFill => ({ name, filler: PATCH_FILLERS[name]!, values: {} })

/** What one band of a random plan is. */
interface BandPlan {
  readonly width: number
  readonly filler: BandFiller
  readonly unit: PiecedUnit | undefined
  readonly corners: 'unit' | 'cornerstone'
}

const piecedPlan: fc.Arbitrary<BandPlan> = fc
  .record({
    width: fc.double({ min: 50, max: 90, noNaN: true }),
    unit: fc.constantFrom<PiecedUnit>(...Object.values(PIECED_UNITS)),
    corners: fc.constantFrom('unit' as const, 'cornerstone' as const),
    fills: fc.array(fc.constantFrom('none', ...Object.keys(PATCH_FILLERS)), { minLength: 4, maxLength: 4 }),
  })
  .map(({ width, unit, corners, fills }) => {
    const names = [...patchNames(unit), 'cornerstone']
    const named = names.flatMap((name, i) =>
      fills[i] === 'none' ? [] : [[name, fillNamed(fills[i]!)] as const],
    )
    return { width, unit, corners, filler: { patches: Object.fromEntries(named) } }
  })

const plainPlan: fc.Arbitrary<BandPlan> = fc
  .record({ width: fc.double({ min: 20, max: 90, noNaN: true }), filler: fc.constantFrom(...SAMPLE_FILLERS) })
  .map(({ width, filler }) => ({ width, filler, unit: undefined, corners: 'unit' }))

/** Bands in any order: pieced ones beside each other, first and last. */
const plans = fc.array(fc.oneof(piecedPlan, plainPlan), { minLength: 1, maxLength: 4 })

function quiltOf(bands: readonly BandPlan[]): Quilt {
  const even = (w: number) => ({ top: w, right: w, bottom: w, left: w })
  const quilt = layOutQuilt({
    centre: { width: 300, height: 360, fabric: '#f4efe4' },
    bands: bands.map(({ width }, i) => ({
      name: `band ${i}`,
      width: even(width),
      fabric: '#ccc',
      corners: 'mitred',
    })),
    binding: 6.35,
  })
  return pieceBands(
    quilt,
    bands.map(({ unit, corners }) => unit && { unit, corners, fabrics: {} }),
  )
}

const cut = (bands: readonly BandPlan[]): { quilt: Quilt; pieces: Pieces } => {
  const quilt = quiltOf(bands)
  return {
    quilt,
    pieces: cutPieces(
      quilt,
      bands.map((b) => b.filler),
      { reach: [400, 400], seed: 1 },
    ),
  }
}

/** No fill crosses a patch seam: away from patch corners, each point of a piece lies inside the patch of its middle. */
function assertInsidePatches(quilt: Quilt, pieces: Pieces): void {
  for (const piece of pieces.pieces) {
    if (piece.startRing !== undefined) continue
    const points = flattenStroke(piece.stroke, 0.05)
    const middle = points[Math.floor(points.length / 2)]!
    const home = quilt.patches!.filter(({ outline }) => depthInside(middle, outline) > 0.01)
    expect(home).toHaveLength(1)
    const { outline } = home[0]!
    for (const p of points) expect(depthInside(p, outline)).toBeGreaterThan(-0.05)
    for (const end of [piece.stroke.start, endOf(piece.stroke)])
      expect(Math.min(...outline.map((c: Point) => distance(c, end)))).toBeLessThan(1e-3)
  }
}

describe('random plans with pieced bands', () => {
  it('keep every fill inside its patch', () => {
    fc.assert(
      fc.property(plans, (bands) => {
        const { quilt, pieces } = cut(bands)
        assertPiecesFit(quilt, pieces)
        assertInsidePatches(quilt, pieces)
      }),
      { seed: 111, numRuns: 8 },
    )
  })

  it('fill every patch that a filler names, and no other', () => {
    fc.assert(
      fc.property(plans, (bands) => {
        const { quilt, pieces } = cut(bands)
        const isFilled = (number: number) => {
          const { band, name } = quilt.patches![number]!
          const filler = bands[band]!.filler
          return 'patches' in filler ? filler.patches[name] !== undefined : false
        }
        const wanted = (quilt.patches ?? []).flatMap((_, i) => (isFilled(i) ? [i] : []))
        const found = new Set(pieces.ditched.map((d) => d.patch))
        for (const piece of pieces.pieces) {
          if (piece.startRing !== undefined) continue
          const points = flattenStroke(piece.stroke, 0.1)
          const middle = points[Math.floor(points.length / 2)]!
          found.add(quilt.patches!.findIndex(({ outline }) => depthInside(middle, outline) > 0.01))
        }
        expect([...found].sort((a, b) => a - b)).toEqual(wanted)
      }),
      { seed: 112, numRuns: 8 },
    )
  })

  it('are stitched in one thread start, and travel keeps to seams', () => {
    fc.assert(
      fc.property(plans, (bands) => {
        const { quilt, pieces } = cut(bands)
        if (pieces.pieces.length === 0) return
        const { lines } = planAndCheck(quilt, pieces)
        expect(lines).toHaveLength(1)
        const seams = quilt.seams.flatMap((seam) =>
          seam.points.slice(1).map((to, i) => [seam.points[i]!, to] as const),
        )
        for (const part of lines.flatMap((line) => line.parts)) {
          if (part.kind !== 'travel' && part.kind !== 'ditch') continue
          for (const { to } of part.stroke.segments.slice(0, 20))
            expect(Math.min(...seams.map(([a, b]) => distanceToLine(to, a, b)))).toBeLessThan(0.02)
        }
      }),
      { seed: 113, numRuns: 8 },
    )
  })
})

describe('orange peel on a row of squares', () => {
  const squares: BandPlan = {
    width: 50,
    unit: PIECED_UNITS.squares,
    corners: 'unit',
    filler: { patches: { dark: fillNamed('orange-peel'), light: fillNamed('orange-peel') } },
  }
  const plain: BandPlan = { width: 40, unit: undefined, corners: 'unit', filler: SAMPLE_FILLERS[0]! }

  it('is stitched without going over a line again, alone and beside a band', () => {
    for (const bands of [[squares], [plain, squares], [squares, plain], [squares, squares]]) {
      const { quilt, pieces } = cut(bands)
      const { route } = planAndCheck(quilt, pieces)
      expect(route.overlapMm).toBe(0)
    }
  })

  it('costs no travel beyond the way from the touches to the nearest corners of squares', () => {
    const { quilt, pieces } = cut([plain, squares])
    const { route } = planAndCheck(quilt, pieces)
    // At most there and back by half a square, once an area.
    expect(route.travelMm).toBeLessThanOrEqual(pieces.sectors.length * 50)
  })
})

it('ditch only stitches each seam of the patches once', () => {
  const bands: BandPlan[] = [
    {
      width: 50,
      unit: PIECED_UNITS.squares,
      corners: 'unit',
      filler: { patches: { dark: fillNamed('ditch-only'), light: fillNamed('ditch-only') } },
    },
  ]
  const { quilt, pieces } = cut(bands)
  const { lines, route } = planAndCheck(quilt, pieces)
  const stitched = lines
    .flatMap((line) => line.parts)
    .filter((part) => part.kind === 'ditch')
    .reduce(
      (sum, { stroke }) =>
        sum +
        stroke.segments.reduce(
          (s, { to }, i) => s + distance(stroke.segments[i - 1]?.to ?? stroke.start, to),
          0,
        ),
      0,
    )
  // Both rings and one seam of 50 mm between every two squares: 300 x 360 gives 6 and 7 squares a side, 4 corners.
  const seams = 2 * (300 + 360) + 2 * (400 + 460) + (2 * 6 + 2 * 7 + 4) * 50
  expect(stitched).toBeCloseTo(seams, 6)
  expect(route.walks).toHaveLength(1)
})
