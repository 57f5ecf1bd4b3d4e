import fc from 'fast-check'
import { printable } from '../../src/plan/printable.ts'
import type { LengthUnit } from '../../src/units.ts'
import { MM_PER } from '../../src/units.ts'

/** A length in an arbitrary plan: it is written in the units that the plan is given. */
export class Mm {
  constructor(readonly mm: number) {}
}

/** A plan file as data, with lengths that aren't in any unit yet. */
export type PlanData = Readonly<Record<string, unknown>>

/** A length in whole micrometres. */
const mm = (least: number, greatest: number) =>
  fc.integer({ min: least * 1000, max: greatest * 1000 }).map((micrometres) => new Mm(micrometres / 1000))

const name = fc
  .string({ unit: 'grapheme', minLength: 1, maxLength: 12 })
  .filter((text) => /^[ -~\u00a0-\uffff]*$/.test(text) && printable(text) === text)
const colour = fc.constantFrom('navy', '#d9c7a0', 'hsl(200 40% 40%)', 'rebeccapurple', '#abc')
const share = fc.integer({ min: 1, max: 8 }).map((parts) => parts / 16)
const fabric = fc.oneof(colour, fc.array(fc.record({ colour, share }), { minLength: 1, maxLength: 2 }))

/** Any of these keys may be left out. */
const some = <T>(model: { [K in keyof T]: fc.Arbitrary<T[K]> }) => fc.record(model, { requiredKeys: [] })

const waveValues = some({
  spacing: mm(6, 25),
  gap: mm(1, 10),
  rise: fc.integer({ min: 1, max: 10 }).map((tenths) => tenths / 10),
  count: fc.integer({ min: 1, max: 9 }),
  tip: fc.constantFrom('round', 'sharp'),
})
const withValues = (filler: string) =>
  fc.oneof(
    waveValues.map((values) => ({ [filler]: values })),
    fc.constant(filler),
  )

/** For a band of 1.5 to 2 in, which every motif of the catalog but one suits. */
const sideFiller = fc.oneof(withValues('waves'), fc.constantFrom('ripple', 'none'))
const bandFiller = fc.oneof(sideFiller, fc.constant('auto'))
const bandWidth = mm(39, 50)
const sides = <T>(value: fc.Arbitrary<T>) => ({ top: value, right: value, bottom: value, left: value })
const patchFiller = fc.oneof(withValues('lattice'), fc.constantFrom('arcs', 'none'))

const plainBand = fc.record(
  {
    width: fc.oneof(bandWidth, fc.record(sides(bandWidth))),
    filler: bandFiller,
    sides: some(sides(sideFiller)),
    fabric,
    corners: fc.constantFrom('mitred', 'butted', { butted: 'columns-first' }, 'cornerstone'),
    thread: colour,
  },
  { requiredKeys: ['width'] },
)

const cornerBand = plainBand.chain((band) =>
  fc.constantFrom('star', 'none').map((cornerstone) => ({ ...band, corners: 'cornerstone', cornerstone })),
)

const piecedBand = fc.record({
  cut: mm(66, 76),
  pieced: fc.record(
    { unit: fc.constant('squares'), size: mm(10, 50), fabrics: some({ dark: colour, light: colour }) },
    { requiredKeys: ['unit'] },
  ),
  filler: fc.oneof(
    bandFiller,
    some({ dark: patchFiller, light: patchFiller }).filter((group) => Object.keys(group).length > 0),
  ),
})

const ownUnitBand = fc.record({
  width: bandWidth,
  pieced: fc.constant({
    unit: 'sail',
    polygons: [
      {
        name: 'main',
        points: [
          [0, 0],
          [1, 0],
          [0, 1],
        ],
      },
      {
        name: 'jib',
        points: [
          [1, 0],
          [1, 1],
          [0, 1],
        ],
      },
    ],
  }),
  filler: fc.record({ main: patchFiller }),
})

const bands = fc.array(fc.oneof(plainBand, cornerBand, piecedBand, ownUnitBand), {
  minLength: 1,
  maxLength: 5,
})

const machine = fc.oneof(
  some({
    kind: fc.constant('domestic'),
    foot: fc.constantFrom('free-motion', 'walking'),
    reach: fc.tuple(mm(100, 900), mm(100, 900)),
    speed: fc.integer({ min: 10, max: 9999 }),
  }),
  fc.record({
    kind: fc.constant('frame'),
    throat: mm(200, 600),
    overlap: mm(0, 100),
    advanceSeconds: fc.integer({ min: 0, max: 7200 }),
  }),
)

const thread = fc
  .record({
    size: fc.constantFrom({}, { tex: 30 }, { weight: 40 }, { denier: 250 }, { nm: '80/2' }, { ne: '40/2' }),
    rest: some({
      colour,
      bobbin: fc.oneof(mm(5000, 200_000), fc.record({ class: fc.constantFrom('L', '15', 15, 'M') })),
      spool: mm(10_000, 9_000_000),
      waste: share,
      candidates: fc.array(fc.record({ name, colour }), { maxLength: 3 }),
    }),
  })
  .map(({ size, rest }) => ({ ...size, ...rest }))

/** Corners about a middle, each farther round than the one before: edges don't cross. */
const simplePolygon = fc
  .tuple(mm(20, 80), mm(20, 80), fc.array(mm(3, 20), { minLength: 3, maxLength: 7 }))
  .map(([x, y, spokes]) =>
    spokes.map((spoke, i) => {
      const turn = (2 * Math.PI * i) / spokes.length
      return [new Mm(x.mm + spoke.mm * Math.cos(turn)), new Mm(y.mm + spoke.mm * Math.sin(turn))]
    }),
  )
const three = fc.tuple(mm(90, 999), mm(90, 999), mm(90, 999))

/** Whether a band is sure to be stitched. */
const isStitched = ({ filler = 'none', pieced }: { filler?: unknown; pieced?: unknown }): boolean =>
  filler !== 'none' || pieced !== undefined

/** What may be said of bands, by their numbers. */
const aboutBands = (list: readonly { filler?: unknown; pieced?: unknown }[]) => {
  const index = fc.integer({ min: 0, max: list.length - 1 })
  const stitched = list.flatMap((band, i) => (isStitched(band) ? [i] : []))
  const side = fc.constantFrom('top', 'right', 'bottom', 'left')
  const corner = fc.constantFrom('any', 'top-left', 'bottom-right')
  const place =
    stitched.length > 0 ? fc.oneof(corner, fc.record({ band: fc.constantFrom(...stitched), side })) : corner
  return fc.record({
    route: some({
      start: place,
      end: place,
      order: fc.constantFrom('any', 'middle-out', 'outside-in'),
      work: fc.constantFrom('any', 'areas', 'laps'),
      ditch: fc.oneof(
        fc.constantFrom('none', 'all', 'rings'),
        fc.array(fc.record({ inside: index }), { maxLength: 4 }),
      ),
    }),
    measured: fc.array(
      fc.record(
        { band: index, across: three, down: three, diagonals: fc.tuple(mm(90, 999), mm(90, 999)) },
        { requiredKeys: ['band', 'across', 'down'] },
      ),
      { maxLength: 1 },
    ),
  })
}

const rest = some({
  title: name,
  binding: mm(0, 20),
  bindingFabric: colour,
  machine,
  stitch: some({
    length: mm(1, 12),
    chordTolerance: mm(0.005, 2),
    tieOff: some({ count: fc.integer({ min: 0, max: 30 }), length: mm(0.1, 2) }),
  }),
  thread,
  batting: some({
    kind: fc.constantFrom('cotton-scrim', 'wool', 'blend'),
    limit: mm(5, 900),
    thickness: mm(0, 25),
    shrinkage: share,
  }),
  spacing: fc.constantFrom('own', 'auto'),
  density: fc.constantFrom('light', 'medium', 'dense'),
  avoid: fc.array(
    fc.oneof(
      fc.record({ polygon: simplePolygon }),
      fc.record({ circle: fc.record({ at: fc.tuple(mm(0, 99), mm(0, 99)), radius: mm(1, 99) }) }),
    ),
    { maxLength: 2 },
  ),
  seed: fc.nat(),
})

const centre = fc.record(
  {
    width: mm(100, 2000),
    height: mm(100, 2000),
    fabric,
    filler: fc.oneof(withValues('grid'), fc.constantFrom('rays', 'none', 'auto')),
  },
  { requiredKeys: ['width', 'height'] },
)

/** Arbitrary plans that are right in everything. */
export const arbitraryPlan: fc.Arbitrary<PlanData> = bands.chain((list) =>
  fc
    .record({
      centre,
      rest,
      about: aboutBands(list),
      names: fc.uniqueArray(name, { minLength: list.length, maxLength: list.length }),
    })
    .filter(({ names }) => !names.includes('centre'))
    .map(({ centre: middle, rest: more, about, names }) => ({
      centre: middle,
      bands: list.map((band, i) => ({ ...band, name: names[i] })),
      ...more,
      ...(nameBands(about, names) as object),
    })),
)

/** Bands' numbers become their names. */
function nameBands(value: unknown, names: readonly string[]): unknown {
  if (Array.isArray(value)) return value.map((item) => nameBands(item, names))
  if (typeof value !== 'object' || value === null || value instanceof Mm) return value
  return Object.fromEntries(
    Object.entries(value).map(([key, item]) => [
      key,
      typeof item === 'number' && (key === 'band' || key === 'inside') ? names[item] : nameBands(item, names),
    ]),
  )
}

/** The text of a plan in a unit, as JSON. */
export const planText = (data: PlanData, unit: LengthUnit): string =>
  JSON.stringify({ units: unit, ...data }, (_, value: unknown) =>
    value instanceof Mm ? value.mm / MM_PER[unit] : value,
  )
