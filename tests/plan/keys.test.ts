import { expect, test } from 'vitest'
import type { Plan } from '../../src/plan/plan.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { PLAN_CATALOG } from '../support/plan-catalog.ts'

/** A plan of two bands with more keys at its end; `band` goes into the first band. */
function read(more = '', band = ''): Plan {
  const text = `centre: { width: 20, height: 10 }
bands:
  - { name: sand, width: 2${band && `, ${band}`} }
  - { name: rope, width: 1 }
${more}
`
  return readPlan(text, PLAN_CATALOG).plan
}

const first = (band: string) => read('', band).bands[0]!

test('what a plan leaves out has its documented default', () => {
  const { centre, bands, ...rest } = read()
  expect(rest).toEqual({
    title: 'Untitled quilt',
    units: 'in',
    binding: 6.35,
    bindingFabric: '#3b3230',
    machine: expect.objectContaining({
      kind: 'domestic',
      reach: [355.6, 355.6],
      throat: undefined,
      overlap: undefined,
      speed: 600,
      repositionSeconds: 60,
      bobbinSeconds: 120,
      startSeconds: 90,
      advanceSeconds: 180,
    }),
    stitch: { length: 2.5, chordTolerance: 0.1, tieOff: { count: 5, length: 0.4 } },
    thread: expect.objectContaining({
      tex: 30,
      colour: '#fbf7ea',
      bobbinM: expect.closeTo(51, 0),
      bobbinClass: 'L',
      isEstimate: true,
      spoolM: undefined,
      waste: 0.15,
      candidates: [],
    }),
    batting: { kind: 'cotton-scrim', limit: 203.2, thickness: expect.closeTo(1.558, 3), shrinkage: 0.05 },
    motifs: [],
    spacing: 'own',
    density: 'medium',
    route: {
      start: { kind: 'anywhere' },
      end: { kind: 'anywhere' },
      order: 'any',
      work: 'any',
      ditch: [],
      ditchOrder: 'any',
      turning: 0,
    },
    avoid: [],
    measured: [],
    seed: 1,
  })
  expect(centre).toEqual({
    shape: 'rectangle',
    across: undefined,
    width: 508,
    height: 254,
    filler: undefined,
    auto: false,
    fabric: [{ colour: '#f4efe4', share: 1 }],
  })
  expect(bands[1]).toEqual({
    name: 'rope',
    width: { top: 25.4, right: 25.4, bottom: 25.4, left: 25.4 },
    filler: undefined,
    auto: false,
    sides: {},
    fabric: [{ colour: '#8fa9b8', share: 1 }],
    corners: 'mitred',
    cornerstone: undefined,
    pieced: undefined,
    thread: undefined,
  })
})

test('title, units, seed, spacing and density are taken over', () => {
  const plan = read('title: Harbour\nunits: mm\nseed: 7\nspacing: auto\ndensity: dense')
  expect(plan).toMatchObject({ title: 'Harbour', units: 'mm', seed: 7, spacing: 'auto', density: 'dense' })
  expect(plan.centre.width).toBe(20)
})

test('a value may carry another unit than the plan', () => {
  expect(read('binding: 7 mm').binding).toBe(7)
  expect(read('units: cm\nbinding: 1/4 in').binding).toBe(6.35)
})

test('bands without a name are numbered', () => {
  const { plan } = readPlan(
    'centre: { width: 9, height: 9 }\nbands: [{ width: 1 }, { width: 1 }]',
    PLAN_CATALOG,
  )
  expect(plan.bands.map((band) => band.name)).toEqual(['band 1', 'band 2'])
})

test('a band may have a width of its own on every side', () => {
  const text = `centre: { width: 9, height: 9 }
bands: [{ width: { top: 1, right: 2, bottom: 3, left: 10 mm } }]`
  const { width } = readPlan(text, PLAN_CATALOG).plan.bands[0]!
  expect(width).toEqual({ top: 25.4, right: 50.8, bottom: 76.2, left: 10 })
})

test('a filler is none, chosen by the program, named, or named with values', () => {
  expect(first('filler: none')).toMatchObject({ filler: undefined, auto: false })
  expect(first('filler: auto')).toMatchObject({ filler: undefined, auto: true })
  expect(first('filler: tides').filler).toEqual({ name: 'tides', values: {}, given: [] })
  expect(first('filler: { tides: }').filler).toEqual({ name: 'tides', values: {}, given: [] })
  expect(first('filler: { waves: { spacing: 0.4, tip: sharp, count: 5, rise: 0.25 } }').filler).toEqual({
    name: 'waves',
    values: { spacing: 10.16, gap: 3, rise: 0.25, count: 5, tip: 'sharp' },
    given: ['count', 'rise', 'spacing', 'tip'],
  })
})

test('a default in widths is that of the mean width, within the limits of its value', () => {
  const filler = (width: string) =>
    readPlan(`centre: { width: 9, height: 9 }\nbands: [{ width: ${width}, filler: waves }]`, PLAN_CATALOG)
      .plan.bands[0]!.filler!.values
  expect(filler('2').spacing).toBeCloseTo(12.7, 9)
  expect(filler('{ top: 3, right: 2, bottom: 3, left: 2 }').spacing).toBeCloseTo(0.25 * 2.5 * 25.4, 9)
  expect(filler('6').spacing).toBeCloseTo(25.4, 9)
})

test('a side may have a filler of its own, with defaults for its own width', () => {
  const text = `centre: { width: 9, height: 9 }
bands:
  - width: { top: 2, right: 2, bottom: 2, left: 3 }
    filler: ripple
    sides: { left: waves, bottom: none }
`
  const [band] = readPlan(text, PLAN_CATALOG).plan.bands
  expect(band?.sides).toEqual({
    left: expect.objectContaining({ name: 'waves', given: [] }),
    bottom: 'none',
  })
  const left = band?.sides.left as { values: Record<string, number> }
  expect(left.values.spacing).toBeCloseTo(0.25 * 3 * 25.4, 9)
})

test('corners are mitred, butted or cornerstones', () => {
  expect(first('corners: mitred').corners).toBe('mitred')
  expect(first('corners: butted').corners).toBe('butted-rows')
  expect(first('corners: { butted: rows-first }').corners).toBe('butted-rows')
  expect(first('corners: { butted: columns-first }').corners).toBe('butted-columns')
  expect(first('corners: cornerstone')).toMatchObject({ corners: 'cornerstone', cornerstone: undefined })
  expect(first('corners: cornerstone, cornerstone: star')).toMatchObject({ cornerstone: 'star' })
  expect(first('cornerstone: star')).toMatchObject({ corners: 'cornerstone', cornerstone: 'star' })
  expect(first('cornerstone: none')).toMatchObject({ corners: 'mitred', cornerstone: undefined })
})

test('a fabric is any CSS colour, or a print with shares', () => {
  expect(first('fabric: rebeccapurple').fabric).toEqual([{ colour: '#663399', share: 1 }])
  expect(first('fabric: "hsl(120 100% 50%)"').fabric).toEqual([{ colour: '#00ff00', share: 1 }])
  expect(first('fabric: [{ colour: navy, share: 60 % }, { colour: white, share: 0.4 }]').fabric).toEqual([
    { colour: '#000080', share: 0.6 },
    { colour: '#ffffff', share: 0.4 },
  ])
})

test('a band may have a line of its own in another colour', () => {
  expect(first('thread: gold').thread).toBe('#ffd700')
})

test('a pieced band has a unit, fabrics by patch, and a filler along it or by patch', () => {
  const pieced = 'pieced: { unit: diamonds, size: 1, fabrics: { diamond: red } }'
  expect(first(`${pieced}, filler: waves`)).toMatchObject({
    filler: { name: 'waves' },
    pieced: { unit: 'diamonds', size: 25.4, fabrics: { diamond: '#ff0000' }, fillers: {} },
  })
  expect(first(`${pieced}, filler: { diamond: arcs, triangle: none }`)).toMatchObject({
    filler: undefined,
    pieced: { fillers: { diamond: { name: 'arcs', values: {}, given: [] } } },
  })
  expect(first(`${pieced}, filler: { triangle: { lattice: { spacing: 0.3 } } }`).pieced?.fillers).toEqual({
    triangle: { name: 'lattice', values: { spacing: 7.62 }, given: ['spacing'] },
  })
  expect(first(`${pieced}, filler: { waves: { count: 2 } }`).filler).toMatchObject({ given: ['count'] })
})

test('the plain corner of a pieced band with cornerstones is a patch as well', () => {
  const band = first('pieced: { unit: squares, fabrics: { cornerstone: blue } }, corners: cornerstone')
  expect(band.pieced?.fabrics).toEqual({ cornerstone: '#0000ff' })
})

test('a unit of your own is drawn by polygons in the unit square', () => {
  const half =
    '{ name: sail, points: [[0, 0], [1, 0], [0, 1]] }, { name: sea, points: [[1, 0], [1, 1], [0, 1]] }'
  const { pieced } = first(`pieced: { unit: boat, polygons: [${half}] }, filler: { sail: arcs }`)
  expect(pieced?.polygons?.map(({ name }) => name)).toEqual(['sail', 'sea'])
  expect(pieced?.polygons?.[0]?.points[1]).toEqual([1, 0])
  expect(pieced?.fillers).toHaveProperty('sail')
})

test('the centre may have a filler with values, whose defaults are left to it', () => {
  const text =
    'centre: { width: 9, height: 9, filler: { grid: { gap: 5 mm } }, fabric: navy }\nbands: [{ width: 1 }]'
  expect(readPlan(text, PLAN_CATALOG).plan.centre).toMatchObject({
    filler: { name: 'grid', values: { gap: 5 }, given: ['gap'] },
    fabric: [{ colour: '#000080', share: 1 }],
  })
})

test('a machine has a kind, a reach and rates', () => {
  const rates = 'speed: 800, repositionSeconds: 1, bobbinSeconds: 2, startSeconds: 3, advanceSeconds: 4'
  expect(read(`machine: { kind: domestic, reach: [12, 30 cm], ${rates} }`).machine).toMatchObject({
    kind: 'domestic',
    reach: [304.8, 300],
    throat: undefined,
    overlap: undefined,
    speed: 800,
    repositionSeconds: 1,
    bobbinSeconds: 2,
    startSeconds: 3,
    advanceSeconds: 4,
  })
})

test('a frame has a throat and an overlap as well', () => {
  expect(read('machine: { kind: frame }').machine).toMatchObject({ throat: 355.6, overlap: 25.4 })
  expect(read('machine: { kind: frame, throat: 10, overlap: 2 }').machine).toMatchObject({
    throat: 254,
    overlap: 50.8,
  })
})

test('a stitch is given by its length or by stitches to the inch', () => {
  expect(
    read('stitch: { length: 3 mm, chordTolerance: 0.05 mm, tieOff: { count: 3, length: 0.5 mm } }').stitch,
  ).toEqual({ length: 3, chordTolerance: 0.05, tieOff: { count: 3, length: 0.5 } })
  expect(read('stitch: { perInch: 10 }').stitch.length).toBeCloseTo(2.54, 9)
  // sewmanypins.com, veneaistudio.com: a stitch of 2.5 mm is 10.16 to the inch.
  expect(read('stitch: { perInch: 10.16 }').stitch.length).toBeCloseTo(2.5, 9)
})

test.each([
  // homequestionsanswered.com, "What is thread weight": weight is km per kg, so 50 is Tex 20.
  ['weight: 50', 20, 9],
  ['tex: 25', 25, 9],
  // sewelltex.com: denier is g per 9 km, so denier 180 is Tex 20.
  ['denier: 180', 20, 9],
  ['nm: 50', 20, 9],
  // mlthread.com: Ne 40/2 is Tex 29.5.
  ['ne: 40/2', 29.5, 1],
  // tge-gmbh.de conversion table: Nm 80/2 is 12.5 tex x 2.
  ['nm: 80/2', 25, 9],
])('thread of { %s } is Tex %f', (size, tex, digits) => {
  expect(read(`thread: { ${size} }`).thread.tex).toBeCloseTo(tex, digits)
})

test('a bobbin holds a length, or is estimated from its class', () => {
  expect(read('thread: { bobbin: 75 m }').thread).toMatchObject({
    bobbinM: 75,
    bobbinClass: undefined,
    isEstimate: false,
  })
  expect(read('thread: { bobbin: 60 yd }').thread.bobbinM).toBeCloseTo(54.864, 9)
  const estimate = (style: string) => read(`thread: { weight: 60, bobbin: { class: ${style} } }`).thread
  expect(estimate('15')).toMatchObject({ bobbinClass: '15', isEstimate: true })
  // Values from memory for prewound 60 weight: L 110-125 yd, 15 110-145 yd, M 200-260 yd; the estimate is of that order.
  expect(['L', '15', 'M'].map((style) => Math.round(estimate(style).bobbinM / 0.9144))).toEqual([
    100, 139, 198,
  ])
})

test('thread has a colour, waste, a spool and candidates', () => {
  const candidates = 'candidates: [{ name: fog, colour: "#ccc" }, { name: rust, colour: sienna }]'
  expect(read(`thread: { colour: teal, waste: 20 %, spool: 1000 m, ${candidates} }`).thread).toMatchObject({
    colour: '#008080',
    waste: 0.2,
    spoolM: 1000,
    candidates: [
      { name: 'fog', colour: '#cccccc' },
      { name: 'rust', colour: '#a0522d' },
    ],
  })
})

test.each([
  // Careful ends of labels and charts: generations-quilt-patterns.com, melodycrust.blogspot.com (2020).
  ['cotton-scrim', 8],
  ['cotton', 4],
  ['cotton-unbonded', 2],
  ['blend', 3],
  ['wool', 3],
  ['polyester', 3],
])('lines of quilting on %s are usually at most %i in apart', (kind, limit) => {
  expect(read(`batting: { kind: ${kind} }`).batting).toMatchObject({
    kind,
    limit: expect.closeTo(limit * 25.4, 6),
  })
})

test('what the label of the batting says wins', () => {
  expect(read('batting: { kind: wool, limit: 4, thickness: 2 mm, shrinkage: 3 % }').batting).toEqual({
    kind: 'wool',
    limit: 101.6,
    thickness: 2,
    shrinkage: 0.03,
  })
})

test('a route starts and ends anywhere, at a corner, or in the middle of a side', () => {
  const places = (more: string) => read(`route: { ${more} }`, 'filler: ripple').route
  expect(places('start: any, end: bottom-right')).toMatchObject({
    start: { kind: 'anywhere' },
    end: { kind: 'corner', corner: 2 },
  })
  expect(places('start: { band: sand, side: left }').start).toEqual({ kind: 'side', band: 'sand', side: 3 })
  expect(places('ditchOrder: first, turning: 2')).toMatchObject({ ditchOrder: 'first', turning: 2 })
  expect(read('machine: { foot: walking, sector: 90, turnSeconds: 5, threadSeconds: 7 }')).toMatchObject({
    machine: { sector: 90, turnSeconds: 5, threadSeconds: 7 },
    route: { turning: 0.5 },
  })
  expect(places('order: middle-out, work: laps')).toMatchObject({ order: 'middle-out', work: 'laps' })
})

test('seams to stitch in the ditch are named by their bands', () => {
  const ditch = (written: string) =>
    read(`route: { ditch: ${written} }`, 'pieced: { unit: squares }').route.ditch.map(
      ({ kind, band }) => `${kind} ${band}`,
    )
  expect(ditch('none')).toEqual([])
  expect(ditch('rings')).toEqual(['ring 0', 'ring 1'])
  expect(ditch('all')).toEqual(['ring 0', 'patch 0', 'ring 1', 'corner 1'])
  expect(ditch('[{ inside: rope }, { corners: rope }, { patches: sand }, { inside: rope }]')).toEqual([
    'ring 1',
    'corner 1',
    'patch 0',
  ])
})

test('regions to avoid are circles and polygons', () => {
  const plan = read(
    'avoid: [{ circle: { at: [1, 0], radius: 2 } }, { polygon: [[0, 0], [1 cm, 0], [0, 1]] }]',
  )
  expect(plan.avoid).toEqual([
    { kind: 'circle', centre: [25.4, 0], radius: 50.8, name: 'region 1', outline: 'whole' },
    {
      kind: 'polygon',
      name: 'region 2',
      outline: 'whole',
      points: [
        [0, 0],
        [10, 0],
        [0, 25.4],
      ],
    },
  ])
})

test('measured sizes are those of the centre or of a band', () => {
  const plan = read(
    'measured:\n  - { band: centre, across: [20, 20 1/8, 20], down: [10, 10, 10] }\n  - { band: rope, across: [26, 26, 26], down: [16, 16, 16], diagonals: [30, 31] }',
  )
  expect(plan.measured).toEqual([
    { band: -1, across: [508, 511.175, 508], down: [254, 254, 254] },
    { band: 1, across: [660.4, 660.4, 660.4], down: [406.4, 406.4, 406.4], diagonals: [762, 787.4] },
  ])
})

test('JSON is read as well, and a $schema key is let pass', () => {
  const text = JSON.stringify({
    $schema: 'plan.schema.json',
    centre: { width: 9, height: 9 },
    bands: [{ width: 1 }],
  })
  expect(readPlan(text, PLAN_CATALOG).plan.bands).toHaveLength(1)
})

test('an anchor may stand for what is said again', () => {
  const text = 'centre: { width: 9, height: 9, fabric: &sea navy }\nbands: [{ width: 1, fabric: *sea }]'
  expect(readPlan(text, PLAN_CATALOG).plan.bands[0]?.fabric[0]?.colour).toBe('#000080')
})

test('a byte order mark, Windows line ends and a missing last line end change nothing', () => {
  const plain = 'centre: { width: 9, height: 9 }\nbands:\n  - { width: 1 }\n'
  const { plan } = readPlan(plain, PLAN_CATALOG)
  for (const text of [`\uFEFF${plain}`, plain.replaceAll('\n', '\r\n'), plain.trimEnd()])
    expect(readPlan(text, PLAN_CATALOG).plan).toStrictEqual(plan)
})
