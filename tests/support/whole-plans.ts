import fc from 'fast-check'
import { MOTIFS } from '../../motifs/index.ts'
import { LIBRARY } from '../../motifs/library.ts'
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
    // Sides of real quilts differ by little, of some designs by much.
    fc
      .tuple(one, fc.array(fc.nat(4), { minLength: 4, maxLength: 4 }))
      .map(([least, more]) => more.map((count) => least + count)),
    fc.tuple(one, one, one, one),
  )
  return four
    .chain((list) => {
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
          sides: ownSides(list.map((count) => count * EIGHTH)),
          cornerstone: fc.constantFrom('none', 'none', ...cornersFor(Math.min(...list) * EIGHTH)),
        },
        { requiredKeys: ['width', 'filler'] },
      )
    })
    .map(({ cornerstone, ...band }) =>
      cornerstone === undefined || cornerstone === 'none'
        ? band
        : { ...band, corners: 'cornerstone', cornerstone },
    )
}

/** A filler of its own, or none, for a side or two. */
const ownSides = ([top, right, bottom, left]: readonly number[]): fc.Arbitrary<unknown> => {
  const own = (mm: number) => fc.oneof(fillerFor(mm, false), fc.constant('none'))
  return fc
    .record(
      { top: own(top!), right: own(right!), bottom: own(bottom!), left: own(left!) },
      { requiredKeys: [] },
    )
    .map((sides) => Object.fromEntries(Object.entries(sides).slice(0, 2)))
}

/** The corner motifs that suit a cornerstone of this size, mm. */
const cornersFor = (mm: number): string[] =>
  Object.entries(LIBRARY.corners).flatMap(([name, { suits }]) =>
    mm >= suits.min && mm <= suits.max ? [name] : [],
  )

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

const machine = fc.oneof(
  {
    arbitrary: fc.record({
      kind: fc.constant('domestic'),
      reach: fc.constantFrom(
        [new Mm(300), new Mm(300)],
        [new Mm(450), new Mm(350)],
        [new Mm(900), new Mm(900)],
      ),
    }),
    weight: 3,
  },
  {
    arbitrary: fc.record({
      kind: fc.constant('frame'),
      throat: fc.constantFrom(new Mm(300), new Mm(450)),
      overlap: fc.constantFrom(new Mm(0), new Mm(50)),
    }),
    weight: 1,
  },
)

const ditch = (count: number) =>
  fc.oneof(
    fc.constantFrom('none', 'rings', 'all'),
    fc.array(fc.record({ inside: fc.nat(count - 1).map((i) => `band ${i + 1}`) }), {
      minLength: 1,
      maxLength: 2,
    }),
  )

/** Width or height of a plan's centre with its first bands, mm. */
function outerSize(
  centre: Mm,
  bands: readonly PlanData[],
  [before, after]: readonly [string, string],
): number {
  return bands.reduce((sum, { width }) => {
    const of = (side: string) => (width instanceof Mm ? width : (width as Record<string, Mm>)[side]!).mm
    return sum + of(before) + of(after)
  }, centre.mm)
}

/** A real quilt comes out a little larger or smaller than planned, and not quite square. */
const measuredBand = (
  [width, height]: readonly [Mm, Mm],
  bands: readonly PlanData[],
): fc.Arbitrary<unknown> => {
  const off = fc.integer({ min: -30, max: 30 }).map((tenths) => tenths / 10)
  const three = (planned: number) =>
    fc.tuple(off, off, off).map((offs) => offs.map((by) => new Mm(planned + by)))
  return fc.nat(bands.length - 1).chain((i) =>
    fc.record({
      band: fc.constant(`band ${i + 1}`),
      across: three(outerSize(width, bands.slice(0, i + 1), ['left', 'right'])),
      down: three(outerSize(height, bands.slice(0, i + 1), ['top', 'bottom'])),
    }),
  )
}

const centreFiller = fc.constantFrom('none', 'none', 'none', ...Object.keys(LIBRARY.centres))

const rest = (bands: readonly PlanData[], size: readonly [Mm, Mm]) =>
  fc.record(
    {
      title: fc.constantFrom('Harbour lamp', 'مرسى', 'Ünïcode & <b>', '../../up', '港 🐚'),
      binding: fc.constantFrom(new Mm(0), new Mm(6.35), new Mm(12)),
      machine,
      stitch: fc.record({ length: fc.constantFrom(new Mm(1.5), new Mm(2.5), new Mm(5)) }),
      thread: fc.record({ colour, bobbin: fc.constantFrom('20 m', '75 m') }),
      batting: fc.record({ kind: fc.constantFrom('cotton', 'wool', 'blend') }),
      route: fc.record(
        {
          start: place(bands.length),
          end: place(bands.length),
          order: fc.constantFrom('any', 'middle-out', 'outside-in'),
          work: fc.constantFrom('any', 'areas', 'laps'),
          ditch: ditch(bands.length),
        },
        { requiredKeys: [] },
      ),
      measured: fc.array(measuredBand(size, bands), { maxLength: 1 }),
      seed: fc.nat(50),
    },
    { requiredKeys: [] },
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
        .tuple(eighths(32, wanted.centre), eighths(32, wanted.centre), centreFiller)
        .chain(([width, height, filler]) =>
          rest(bands, [width, height]).map((more) => ({ centre: { width, height, filler }, bands, ...more })),
        ),
    )
