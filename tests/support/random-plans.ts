import fc from 'fast-check'
import type * as z from 'zod'
import { MOTIFS } from '../../motifs/index.ts'
import { PATCH_FILLERS } from '../../src/pieces/patch-fillers/index.ts'
import type { planFormat } from '../../src/plan/format.ts'
import { PIECED_UNITS, patchNames } from '../../src/quilt/pieced-unit.ts'

type PlanFile = z.input<typeof planFormat>
type BandFile = Omit<PlanFile['bands'][number], 'name'>

const WIDEST = 6

/** The fillers that suit a width in inches. */
const suiting = (inches: number): string[] =>
  Object.keys(MOTIFS).filter((name) => MOTIFS[name]!.suits.min <= inches * 25.4 + 1e-6)

const band: fc.Arbitrary<BandFile> = fc
  .record({
    eighths: fc.array(fc.integer({ min: 4, max: WIDEST * 8 }), { minLength: 4, maxLength: 4 }),
    isEven: fc.integer({ min: 0, max: 4 }),
    choice: fc.nat(),
    isLeft: fc.integer({ min: 0, max: 7 }),
    corners: fc.constantFrom('mitred' as const, 'butted' as const, 'cornerstone' as const),
  })
  .map(({ eighths, isEven, choice, isLeft, corners }) => {
    const widths = eighths.map((e) => (isEven > 0 ? eighths[0]! : e) / 8) as [number, number, number, number]
    const names = suiting(Math.min(...widths))
    return {
      width: {
        top: widths[0],
        right: widths[1],
        bottom: widths[2],
        left: widths[3],
      },
      filler: isLeft === 0 ? 'none' : names[choice % names.length]!,
      corners,
    }
  })

/** A band of patches 2 to 4 in deep, each kind of patch filled or left. */
const piecedBand: fc.Arbitrary<BandFile> = fc
  .constantFrom(...Object.entries(PIECED_UNITS))
  .chain(([unit, pieces]) =>
    fc.record({
      width: fc.integer({ min: 16, max: 32 }).map((eighths) => eighths / 8),
      pieced: fc.constant({ unit }),
      filler: fc.record(
        Object.fromEntries(
          patchNames(pieces).map((name) => [name, fc.constantFrom('none', ...Object.keys(PATCH_FILLERS))]),
        ),
      ),
    }),
  )

const planOf = (bands: fc.Arbitrary<BandFile[]>): fc.Arbitrary<PlanFile> =>
  fc
    .record({
      width: fc.integer({ min: 8, max: 48 }),
      height: fc.integer({ min: 8, max: 48 }),
      bands,
      reach: fc.constantFrom<[number, number]>([12, 12], [16, 16], [20, 14]),
    })
    .filter(({ bands }) => bands.some(isQuilted))
    .map(({ width, height, bands, reach }) => ({
      centre: { width, height },
      bands: bands.map((b, i) => ({ ...b, name: `band ${i}` })),
      machine: { reach },
    }))

const isQuilted = ({ filler }: BandFile): boolean =>
  typeof filler === 'object' && filler !== null
    ? Object.values(filler).some((name) => name !== 'none')
    : filler !== 'none'

/** Plans with 1 to 14 bands of any widths and fillers, one in eight left unquilted; at least one is quilted. */
export const anyPlan = (most = 14): fc.Arbitrary<PlanFile> =>
  planOf(fc.array(band, { minLength: 1, maxLength: most }))

/**
 * The same with every number of bands alike.
 *
 * @param pieced  so many bands of eight are pieced
 */
export const anyQuilt = ({ most = 14, pieced = 1 } = {}): fc.Arbitrary<PlanFile> =>
  planOf(
    fc.integer({ min: 1, max: most }).chain((count) => {
      const any = fc.oneof({ arbitrary: band, weight: 8 - pieced }, { arbitrary: piecedBand, weight: pieced })
      return fc.array(any, { minLength: count, maxLength: count, size: 'max' })
    }),
  )
