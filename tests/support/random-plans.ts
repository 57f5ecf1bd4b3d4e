import fc from 'fast-check'
import type * as z from 'zod'
import { MOTIFS } from '../../motifs/index.ts'
import type { planFormat } from '../../src/plan/format.ts'

type PlanFile = z.input<typeof planFormat>

const WIDEST = 6

/** The fillers that suit a width in inches. */
const suiting = (inches: number): string[] =>
  Object.keys(MOTIFS).filter((name) => MOTIFS[name]!.suits.min <= inches * 25.4 + 1e-6)

const band = fc
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

/** Plans with 1 to 14 bands of any widths and fillers, one in eight left unquilted; at least one is quilted. */
export const anyPlan = (most = 14): fc.Arbitrary<PlanFile> =>
  fc
    .record({
      width: fc.integer({ min: 8, max: 48 }),
      height: fc.integer({ min: 8, max: 48 }),
      bands: fc.array(band, { minLength: 1, maxLength: most }),
      reach: fc.constantFrom<[number, number]>([12, 12], [16, 16], [20, 14]),
    })
    .filter(({ bands }) => bands.some(({ filler }) => filler !== 'none'))
    .map(({ width, height, bands, reach }) => ({
      centre: { width, height },
      bands: bands.map((b, i) => ({ ...b, name: `band ${i}` })),
      machine: { reach },
    }))
