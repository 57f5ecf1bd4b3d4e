import fc from 'fast-check'
import { MOTIFS } from '../../motifs/index.ts'
import type { Param } from '../../src/motif/contract.ts'
import { PATCH_FILLERS } from '../../src/pieces/patch-fillers/index.ts'
import { PIECED_UNITS, patchNames } from '../../src/quilt/pieced-unit.ts'
import { Mm, type PlanData } from './arbitrary-plan.ts'

/** An eighth of an inch. @source 1 in = 25.4 mm exactly (international yard and pound agreement, 1959) */
const EIGHTH = 25.4 / 8
const eighths = (least: number, greatest: number) =>
  fc.integer({ min: least, max: greatest }).map((count) => new Mm(count * EIGHTH))

const colour = fc.constantFrom('#3f6f86', 'navy', '#d9c7a0', 'hsl(20 40% 40%)')

/** A value that a motif allows, near the small end of what it allows. */
function valueFor(param: Param): fc.Arbitrary<unknown> {
  if (param.kind === 'choice') return fc.constantFrom(...param.of)
  if (param.kind === 'count') return fc.integer({ min: param.min, max: Math.min(param.max, param.min + 4) })
  const greatest = param.kind === 'length' ? Math.min(param.max, 4 * param.min + 40) : param.max
  return fc.integer({ min: 0, max: 64 }).map((step) => {
    const value = Number((param.min + ((greatest - param.min) * step) / 64).toFixed(3))
    const inside = Math.min(param.max, Math.max(param.min, value))
    return param.kind === 'length' ? new Mm(inside) : inside
  })
}

/** A filler for a band at least so wide, by name or with values. */
function fillerFor(leastMm: number, withValues: boolean): fc.Arbitrary<unknown> {
  const names = Object.keys(MOTIFS).filter((name) => MOTIFS[name]!.suits.min <= leastMm)
  const name = fc.constantFrom(...names)
  if (!withValues) return name
  const valued = name.chain((id) => {
    const params = Object.entries(MOTIFS[id]!.params).map(([key, param]) => [key, valueFor(param)] as const)
    return fc.record(Object.fromEntries(params), { requiredKeys: [] }).map((values) => ({ [id]: values }))
  })
  return fc.oneof(name, valued)
}

interface Wanted {
  readonly bands: number
  /** Greatest sizes of the centre and a band, eighths of an inch. */
  readonly centre: number
  readonly width: number
  /** Whether fillers are given values of their own. */
  readonly values: boolean
}

const corners = fc.constantFrom('mitred', 'butted', { butted: 'columns-first' }, 'cornerstone')

function plainBand({ width, values }: Wanted): fc.Arbitrary<PlanData> {
  const one = fc.integer({ min: 12, max: width })
  const four = fc.oneof(
    one.map((w) => [w, w, w, w]),
    // Sides of real quilts differ by little.
    fc
      .tuple(one, fc.array(fc.nat(4), { minLength: 4, maxLength: 4 }))
      .map(([least, more]) => more.map((count) => least + count)),
  )
  return four.chain((list) => {
    const [top, right, bottom, left] = list.map((count) => new Mm(count * EIGHTH))
    const isEven = new Set(list).size === 1
    return fc.record(
      {
        width: fc.constant(isEven ? top : { top, right, bottom, left }),
        filler: fc.oneof(
          { arbitrary: fillerFor(Math.min(...list) * EIGHTH, values), weight: 6 },
          { arbitrary: fc.constant('none'), weight: 1 },
        ),
        corners,
        fabric: colour,
      },
      { requiredKeys: ['width', 'filler'] },
    )
  })
}

const patchFiller = fc.constantFrom('none', ...Object.keys(PATCH_FILLERS))

const piecedBand = ({ width }: Wanted): fc.Arbitrary<PlanData> =>
  fc.constantFrom(...Object.entries(PIECED_UNITS)).chain(([unit, pieces]) =>
    fc
      .record({
        width: eighths(16, Math.max(16, width)),
        pieced: fc.constant({ unit }),
        filler: fc.record(Object.fromEntries(patchNames(pieces).map((name) => [name, patchFiller])), {
          requiredKeys: [],
        }),
      })
      .map(({ filler, ...band }) => ({ ...band, filler: Object.keys(filler).length > 0 ? filler : 'none' })),
  )

const place = (count: number) =>
  fc.oneof(
    fc.constantFrom('any', 'any', 'top-left', 'bottom-right'),
    fc.record({
      band: fc.nat(count - 1).map((i) => `band ${i + 1}`),
      side: fc.constantFrom('top', 'right', 'bottom', 'left'),
    }),
  )

/** Plans of the real fillers that combine every feature, small enough to be planned quickly. */
export const wholePlan = (wanted: Wanted): fc.Arbitrary<PlanData> =>
  fc
    .array(
      fc.oneof({ arbitrary: plainBand(wanted), weight: 5 }, { arbitrary: piecedBand(wanted), weight: 1 }),
      { minLength: 1, maxLength: wanted.bands },
    )
    .filter((bands) => bands.some(({ filler }) => filler !== 'none'))
    .chain((bands) =>
      fc
        .record({
          size: fc.tuple(eighths(32, wanted.centre), eighths(32, wanted.centre)),
          more: fc.record(
            {
              title: fc.constantFrom('Harbour lamp', 'مرسى', 'Ünïcode & <b>', '../../up', '港 🐚'),
              binding: fc.constantFrom(new Mm(0), new Mm(6.35), new Mm(12)),
              machine: fc.record({
                kind: fc.constant('domestic'),
                reach: fc.constantFrom(
                  [new Mm(300), new Mm(300)],
                  [new Mm(450), new Mm(350)],
                  [new Mm(900), new Mm(900)],
                ),
              }),
              stitch: fc.record({ length: fc.constantFrom(new Mm(1.5), new Mm(2.5), new Mm(5)) }),
              thread: fc.record({ colour, bobbin: fc.constantFrom('20 m', '75 m') }),
              batting: fc.record({ kind: fc.constantFrom('cotton', 'wool', 'blend') }),
              route: fc.record(
                {
                  start: place(bands.length),
                  end: place(bands.length),
                  order: fc.constantFrom('any', 'middle-out', 'outside-in'),
                  work: fc.constantFrom('areas', 'laps'),
                },
                { requiredKeys: [] },
              ),
              seed: fc.nat(50),
            },
            { requiredKeys: [] },
          ),
        })
        .map(({ size: [width, height], more }) => ({ centre: { width, height }, bands, ...more })),
    )
