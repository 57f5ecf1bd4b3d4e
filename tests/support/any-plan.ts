import fc from 'fast-check'
import { MOTIFS } from '../../motifs/index.ts'
import type { Param } from '../../src/motif/contract.ts'
import type { PlanFile } from '../../src/plan/schema.ts'

type BandFile = PlanFile['bands'][number]

/** Sizes are in sixteenths of an inch, so that every unit can say them. */
const SIXTEENTH = 25.4 / 16

const colour = fc.constantFrom('#3f6f86', 'navy', 'hsl(200 40% 40%)', '#d9c7a0', 'rgb(20, 30, 40)')

const fabric = fc.oneof(
  colour,
  fc.tuple(colour, colour).map(([a, b]) => [
    { colour: a, share: 0.5 },
    { colour: b, share: 0.25 },
  ]),
)

/** A value that a motif allows, as a plan writes it: lengths say mm. */
function valueFor(param: Param): fc.Arbitrary<string | number> {
  switch (param.kind) {
    case 'choice':
      return fc.constantFrom(...param.of)
    case 'length':
      return fc.double({ min: 0, max: 1, noNaN: true }).map((t) => {
        const [least, greatest] = [param.min, Math.min(param.max, 4 * param.min + 60)]
        return `${(least + t * (greatest - least)).toFixed(4)} mm`
      })
    case 'count':
      return fc.integer({ min: param.min, max: Math.min(param.max, param.min + 6) })
    default:
      return fc.double({ min: param.min, max: param.max, noNaN: true }).map((x) => Number(x.toFixed(4)))
  }
}

const fillers = (leastMm: number): string[] =>
  Object.keys(MOTIFS).filter((name) => MOTIFS[name]!.suits.min <= leastMm + 1e-6)

/** `none`, a filler's name, or a filler with some of its values. */
function fillerFor(leastMm: number, values: boolean): fc.Arbitrary<BandFile['filler']> {
  const names = fillers(leastMm)
  const named = fc.constantFrom(...names)
  const withValues = named.chain((name) =>
    fc
      .record(
        Object.fromEntries(
          Object.entries(MOTIFS[name]!.params).map(([key, param]) => [key, valueFor(param)]),
        ),
        { requiredKeys: [] },
      )
      .map((given) => ({ [name]: given })),
  )
  const kinds = [
    { arbitrary: fc.constant('none'), weight: 1 },
    { arbitrary: named, weight: 5 },
    ...(values ? [{ arbitrary: withValues, weight: 4 }] : []),
  ]
  return fc.oneof(...kinds) as fc.Arbitrary<BandFile['filler']>
}

/** Widths in the plan's bare numbers, given in sixteenths of an inch. */
const inInches = (sixteenths: number): number => sixteenths / 16

function band(most: number, values: boolean): fc.Arbitrary<BandFile> {
  const width = fc.integer({ min: 8, max: most })
  const widths = fc.oneof(
    { arbitrary: width.map((w) => ({ top: w, right: w, bottom: w, left: w })), weight: 3 },
    { arbitrary: fc.record({ top: width, right: width, bottom: width, left: width }), weight: 1 },
  )
  return widths.chain((w) => {
    const least = Math.min(...Object.values(w)) * SIXTEENTH
    const isEven = new Set(Object.values(w)).size === 1
    const sides = {
      top: inInches(w.top),
      right: inInches(w.right),
      bottom: inInches(w.bottom),
      left: inInches(w.left),
    }
    return fc.record(
      {
        width: fc.constant(isEven ? sides.top : sides),
        filler: fillerFor(least, values),
        fabric,
        corners: fc.constantFrom<NonNullable<BandFile['corners']>>(
          'mitred',
          'butted',
          'cornerstone',
          { butted: 'rows-first' },
          { butted: 'columns-first' },
        ),
      },
      { requiredKeys: ['width'] },
    ) as fc.Arbitrary<BandFile>
  })
}

interface Size {
  /** Most bands, and the most that the centre measures, inches. */
  readonly bands: number
  readonly centre: number
  /** Greatest width of a band, inches. */
  readonly width: number
  /** Whether fillers are given values of their own. */
  readonly values: boolean
}

/** Plans that combine every key of the format, in inches. */
export function anyPlan({ bands, centre, width, values }: Size): fc.Arbitrary<PlanFile> {
  const size = fc.integer({ min: 6 * 16, max: centre * 16 }).map(inInches)
  return fc
    .record(
      {
        title: fc.constantFrom('Harbour lamp', 'مرسى', 'Ünïcode & <tags>', '  x  ', '../../up'),
        units: fc.constant('in' as const),
        centre: fc.record(
          { width: size, height: size, filler: fc.constant('none'), fabric },
          { requiredKeys: ['width', 'height'] },
        ),
        bands: fc.array(band(width * 16, values), { minLength: 1, maxLength: bands }),
        binding: fc.constantFrom(0, 0.25, '1/2 in', '10 mm'),
        bindingFabric: colour,
        machine: fc.record(
          {
            kind: fc.constantFrom('domestic' as const, 'frame' as const),
            reach: fc.constantFrom<[number, number]>([12, 12], [18, 14], [30, 20]),
            speed: fc.integer({ min: 10, max: 10_000 }),
          },
          { requiredKeys: [] },
        ),
        stitch: fc.oneof(
          fc.record({ length: fc.constantFrom('2 mm', 0.1, '1/8 in'), tieOffs: fc.nat(30) }),
          fc.record({ perInch: fc.integer({ min: 3, max: 25 }) }),
        ),
        thread: fc.record(
          {
            wt: fc.integer({ min: 8, max: 100 }),
            colour,
            bobbin: fc.oneof(
              fc.constantFrom('75 m', '80 yd'),
              fc.record({ class: fc.constantFrom('L' as const, '15' as const, 'G' as const, 'M' as const) }),
            ),
            waste: fc.constantFrom(0, 0.15, 1),
            candidates: fc.array(fc.record({ name: fc.constantFrom('cream', 'slate'), colour }), {
              maxLength: 3,
            }),
          },
          { requiredKeys: [] },
        ),
        batting: fc.record(
          {
            kind: fc.constantFrom('cotton', 'wool', 'bamboo'),
            limit: fc.constantFrom(3, '8 in', '10 cm'),
            thickness: fc.constantFrom('1 mm', 0.1),
          },
          { requiredKeys: [] },
        ),
        seed: fc.nat(1000),
      },
      { requiredKeys: ['centre', 'bands'] },
    )
    .map((plan) => plan as PlanFile)
}
