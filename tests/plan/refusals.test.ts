import { describe, expect, test } from 'vitest'
import { readPlan } from '../../src/plan/read-plan.ts'
import { PLAN_CATALOG } from '../support/plan-catalog.ts'
import { placed, problemsOf, unmark } from '../support/plan-problems.ts'

/** A plan of one band with these keys, and with more after it. */
const plan = (band: string, more = '') => `centre: { width: 20, height: 10 }
bands:
  - { ${band} }
${more}`

/** The one problem of a plan, as place, message and hint. */
function only(text: string): string[] {
  const problems = problemsOf(text)
  expect(problems.map(placed)).toHaveLength(1)
  const [problem] = problems
  return [placed(problem!), problem!.message, ...(problem!.hint ? [problem!.hint] : [])]
}

describe('in a band', () => {
  test.each([
    ['width: «0', 'plan/length bands[0].width', 'is 0; allowed: 0.03938 in to 393.7 in'],
    ['width: «-1', 'plan/length bands[0].width', 'is -1; allowed: 0.03938 in to 393.7 in'],
    ['width: «1e3', 'plan/length bands[0].width', 'is 1000; allowed: 0.03938 in to 393.7 in'],
    ['width: «1e308', 'plan/length bands[0].width', /^is 1e\+308; expected a number, or a length such as/],
    ['width: «.nan', 'plan/value bands[0].width', /^is NaN; expected a number, or a length such as/],
    ['width: «.inf', 'plan/value bands[0].width', /^is Infinity; expected/],
    ['width: «wide', 'plan/length bands[0].width', /^is "wide"; expected/],
    ['«width:', 'plan/value bands[0].width', /^is empty; expected/],
    ['width: «true', 'plan/value bands[0].width', /^is true; expected/],
    [
      'width: «[1, 2]',
      'plan/value bands[0].width',
      /^is a list; expected .* or \{ top, right, bottom, left \}/,
    ],
    ['width: «{ top: 1, right: 1, bottom: 1 }', 'plan/missing bands[0].width.left', /^is missing; expected/],
    ['width: { top: 1, right: 1, bottom: 1, left: «0 }', 'plan/length bands[0].width.left', /^is 0; allowed/],
    ['cut: «0.5', 'plan/length bands[0].cut', 'is 0.5; allowed: 0.5394 in to 393.7 in'],
    ['name: «"", width: 1', 'plan/size bands[0].name', 'has 0 characters; allowed: at least 1'],
    ['name: «"a\\tb", width: 1', 'plan/value bands[0].name', /expected text without control characters/],
    [
      'name: «xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx, width: 1',
      'plan/size bands[0].name',
      'has 81 characters; allowed: at most 80',
    ],
    ['name: «5, width: 1', 'plan/value bands[0].name', 'is 5; expected text'],
    [
      'name: «centre, width: 1',
      'plan/duplicate-name bands[0].name',
      'is "centre"; the centre has that name already',
    ],
    [
      'width: 1, fabric: «blurple',
      'plan/colour bands[0].fabric',
      /^is "blurple"; expected a CSS colour such as/,
    ],
    ['width: 1, thread: «blurple', 'plan/colour bands[0].thread', /^is "blurple"; expected a CSS colour/],
    ['width: 1, fabric: «[]', 'plan/size bands[0].fabric', 'has 0 entries; allowed: at least 1'],
    [
      'width: 1, fabric: «[{ colour: red, share: 0.7 }, { colour: blue, share: 50 % }]',
      'plan/shares bands[0].fabric',
      'the shares add up to 120 %; allowed: at most 100 %',
    ],
    [
      'width: 1, fabric: «[{ colour: red, share: 0 }, { colour: blue, share: 0 % }]',
      'plan/shares bands[0].fabric',
      'the shares add up to 0 %; one must be above 0',
    ],
    [
      'width: 1, fabric: [{ colour: red, share: «-0.1 }]',
      'plan/share bands[0].fabric[0].share',
      'is -0.1; allowed: 0 to 1, or 0 % to 100 %',
    ],
    [
      'width: 1, corners: «round',
      'plan/value bands[0].corners',
      /^is "round"; expected mitred, butted, cornerstone/,
    ],
    [
      'width: 1, corners: { butted: «first }',
      'plan/choice bands[0].corners.butted',
      'is "first"; allowed: rows-first, columns-first',
    ],
    [
      'width: 1, corners: mitred, cornerstone: «star',
      'plan/contradiction bands[0].cornerstone',
      'is "star", but the corners are mitred; a motif needs corners: cornerstone',
    ],
    [
      'width: 1, filler: «[ripple]',
      'plan/value bands[0].filler',
      /^is a list; expected none, the name of a filler/,
    ],
    ['width: 1, filler: «{}', 'plan/filler bands[0].filler', 'names no filler; give one, or none'],
    [
      'width: 2, filler: { waves: «5 }',
      'plan/value bands[0].filler.waves',
      /^is 5; expected the filler's values/,
    ],
    [
      'width: 2, filler: { waves: { gap: «1 } }',
      'plan/length bands[0].filler.waves.gap',
      'is 1; allowed: 0.03938 in to 0.3937 in',
    ],
    [
      'width: 2, filler: { waves: { rise: «2 } }',
      'plan/number bands[0].filler.waves.rise',
      'is 2; allowed: 0.1 to 1',
    ],
    [
      'width: 2, filler: { waves: { count: «1.5 } }',
      'plan/number bands[0].filler.waves.count',
      'is 1.5; allowed: whole numbers from 1 to 9',
    ],
    [
      'width: 1, sides: { top: none, «up: none }',
      'plan/unknown-key bands[0].sides.up',
      /^unknown key "up"; allowed: top/,
    ],
    ['width: 1, pieced: «{}', 'plan/missing bands[0].pieced.unit', 'is missing; expected text'],
    [
      'width: 1, pieced: { unit: squares, fabrics: { «red: red } }',
      'plan/unknown-patch bands[0].pieced.fabrics.red',
      'unknown patch "red"; allowed: dark, light',
    ],
    [
      'width: 1, pieced: { unit: squares }, filler: { «darc: arcs, light: none }',
      'plan/unknown-patch bands[0].filler.darc',
      'unknown patch "darc"; allowed: dark, light',
    ],
    [
      'width: 1, pieced: { unit: «squares, polygons: [{ name: a, points: [[0, 0], [1, 0], [0, 1]] }] }',
      'plan/contradiction bands[0].pieced.unit',
      /polygons are given too/,
    ],
    [
      'width: 1, pieced: { unit: own, polygons: [{ name: a, points: [[0, 0], [1, 0], [0, «1.5]] }] }',
      'plan/number bands[0].pieced.polygons[0].points[2][1]',
      'is 1.5; allowed: 0 to 1',
    ],
    [
      'width: 1, pieced: { unit: own, polygons: [{ name: a, points: «[[0, 0], [1, 0]] }] }',
      'plan/size bands[0].pieced.polygons[0].points',
      'has 2 entries; allowed: at least 3',
    ],
  ])('{ %s } is refused as %s', (band, problem, message) => {
    const { text, place } = unmark(plan(band))
    const [at, told] = only(text)
    expect(at).toBe(`${place} ${problem}`)
    expect(told).toMatch(message)
  })

  test.each([
    ['width: 1, filler: «riple', 'plan/unknown-filler bands[0].filler', 'did you mean ripple?'],
    [
      'width: 2, filler: { «wave: { count: 1 } }',
      'plan/unknown-filler bands[0].filler.wave',
      'did you mean waves?',
    ],
    [
      'width: 2, filler: { waves: { «spacng: 1 } }',
      'plan/unknown-value bands[0].filler.waves.spacng',
      'did you mean spacing?',
    ],
    [
      'width: 2, filler: { waves: { tip: «shapr } }',
      'plan/choice bands[0].filler.waves.tip',
      'did you mean sharp?',
    ],
    ['«widht: 1, width: 1', 'plan/unknown-key bands[0].widht', 'did you mean width?'],
    ['width: 1, cornerstone: «sta', 'plan/unknown-corner-motif bands[0].cornerstone', 'did you mean star?'],
    [
      'width: 1, pieced: { unit: «sqares }',
      'plan/unknown-unit bands[0].pieced.unit',
      'did you mean squares?',
    ],
    [
      'width: 1, pieced: { unit: squares }, filler: { dark: «arc }',
      'plan/unknown-filler bands[0].filler.dark',
      'did you mean arcs?',
    ],
    [
      'width: 1, filler: «{ dark: arcs, light: none }',
      'plan/filler bands[0].filler',
      'a filler for each patch needs pieced: { unit: ... }',
    ],
    ['width: «"2,5 cm"', 'plan/length bands[0].width', 'write 2.5 cm, with a point'],
    [
      'width: 1, fabric: [{ colour: red, share: «60 }]',
      'plan/share bands[0].fabric[0].share',
      'did you mean 60 %?',
    ],
  ])('{ %s } is refused as %s with a hint', (band, problem, hint) => {
    const { text, place } = unmark(plan(band))
    const [at, , told] = only(text)
    expect([at, told]).toEqual([`${place} ${problem}`, hint])
  })

  test('a width that is given twice or not at all is refused at the band', () => {
    expect(only(plan('width: 1, cut: 2'))).toEqual([
      '3:5 plan/contradiction bands[0]',
      'has both width (finished) and cut; give one of them',
    ])
    expect(only(plan('name: sand'))).toEqual([
      '3:5 plan/missing bands[0]',
      'has neither width (finished) nor cut; give one of them',
    ])
  })

  test('a colour that YAML took for a remark is pointed out', () => {
    const [problem] = problemsOf(
      'centre: { width: 9, height: 9 }\nbands:\n  - width: 1\n    fabric: #d9c7a0\n',
    )
    expect(placed(problem!)).toBe('4:5 plan/value bands[0].fabric')
    expect(problem?.message).toBe('is empty; expected a CSS colour, or a list of { colour, share }')
    expect(problem?.hint).toBe('put a colour that begins with # in quotes')
  })
})

describe('beside the bands', () => {
  test.each([
    ['units: «inch', 'plan/choice units', 'is "inch"; allowed: in, cm, mm'],
    ['title: «[a]', 'plan/value title', 'is a list; expected text'],
    ['binding: «-1', 'plan/length binding', 'is -1; allowed: 0 in to 3.937 in'],
    ['bindingFabric: «x', 'plan/colour bindingFabric', /expected a CSS colour/],
    ['spacing: «wide', 'plan/choice spacing', 'is "wide"; allowed: own, auto'],
    ['density: «high', 'plan/choice density', 'is "high"; allowed: light, medium, dense'],
    ['seed: «-1', 'plan/size seed', 'is -1; allowed: at least 0'],
    ['seed: «1.5', 'plan/value seed', 'is 1.5; expected a whole number'],
    ['seed: «2147483648', 'plan/size seed', 'is 2147483648; allowed: at most 2147483647'],
    ['machine: «5', 'plan/value machine', 'is 5; expected keys and values'],
    ['machine: { kind: «robot }', 'plan/choice machine.kind', 'is "robot"; allowed: domestic, frame'],
    ['machine: { reach: [«0, 9] }', 'plan/length machine.reach[0]', 'is 0; allowed: 0.9843 in to 393.7 in'],
    ['machine: { reach: «9 }', 'plan/value machine.reach', 'is 9; expected two lengths: [width, height]'],
    [
      'machine: { reach: «[9] }',
      'plan/size machine.reach',
      'has 1 entry; expected two lengths: [width, height]',
    ],
    [
      'machine: { reach: «[9, 9, 9] }',
      'plan/size machine.reach',
      'has 3 entries; expected two lengths: [width, height]',
    ],
    [
      'machine: { throat: «9 }',
      'plan/contradiction machine.throat',
      'is for a frame, but the machine is domestic',
    ],
    [
      'machine: { overlap: «1 }',
      'plan/contradiction machine.overlap',
      'is for a frame, but the machine is domestic',
    ],
    [
      'machine: { kind: frame, throat: 4, foot: «walking }',
      'plan/contradiction machine.foot',
      'is walking, which is for a domestic machine, but the machine is on a frame',
    ],
    [
      'machine: { foot: «hopping }',
      'plan/choice machine.foot',
      'is "hopping"; allowed: free-motion, walking',
    ],
    [
      'machine: { kind: frame, throat: 4, overlap: «3 }',
      'plan/contradiction machine.overlap',
      /more than half the depth of a strip/,
    ],
    ['machine: { speed: «0 }', 'plan/number machine.speed', 'is 0; allowed: 10 to 10000'],
    ['machine: { speed: «fast }', 'plan/value machine.speed', 'is "fast"; expected a number'],
    ['machine: { bobbinSeconds: «-1 }', 'plan/number machine.bobbinSeconds', 'is -1; allowed: 0 to 7200'],
    ['stitch: { length: «2.5 }', 'plan/length stitch.length', 'is 2.5; allowed: 0.03938 in to 0.4724 in'],
    ['stitch: { perInch: «100 }', 'plan/number stitch.perInch', 'is 100; allowed: 2.12 to 25.4'],
    [
      'stitch: «{ length: 2 mm, perInch: 10 }',
      'plan/contradiction stitch',
      'has both length and perInch; give one of them',
    ],
    [
      'stitch: { tieOff: { count: «1.5 } }',
      'plan/value stitch.tieOff.count',
      'is 1.5; expected a whole number',
    ],
    [
      'stitch: { tieOff: { count: «31 } }',
      'plan/number stitch.tieOff.count',
      'is 31; allowed: whole numbers from 0 to 30',
    ],
    ['stitch: { chordTolerance: «0 }', 'plan/length stitch.chordTolerance', /^is 0; allowed/],
    [
      'thread: { tex: «0 }',
      'plan/thread-size thread.tex',
      'is 0; allowed: 2 to 500, or with plies such as 40/2',
    ],
    ['thread: { weight: «5000 }', 'plan/thread-size thread.weight', /^is 5000; allowed: 2 to 500/],
    ['thread: { denier: «5 }', 'plan/thread-size thread.denier', /^is 5; allowed: 18 to 4500/],
    ['thread: { ne: «40/x }', 'plan/thread-size thread.ne', /^is "40\/x"; allowed: 1.18 to 295/],
    [
      'thread: «{ tex: 30, weight: 40 }',
      'plan/contradiction thread',
      "gives the thread's size as tex and weight; give one of them",
    ],
    ['thread: { bobbin: «3 m }', 'plan/length thread.bobbin', 'is "3 m"; allowed: 5 m to 2000 m'],
    [
      'thread: { bobbin: { class: «15x } }',
      'plan/value thread.bobbin.class',
      'is "15x"; expected L, 15 or M',
    ],
    ['thread: { waste: «1.5 }', 'plan/share thread.waste', /^is 1.5; allowed: 0 to 1/],
    ['thread: { spool: «1 m }', 'plan/length thread.spool', /^is "1 m"; allowed: 10 m/],
    [
      'thread: { candidates: [«{ name: fog }] }',
      'plan/missing thread.candidates[0].colour',
      'is missing; expected text',
    ],
    ['batting: { limit: «0 }', 'plan/length batting.limit', /^is 0; allowed/],
    [
      'batting: { shrinkage: «60 % }',
      'plan/share batting.shrinkage',
      'is "60 %"; allowed: 0 to 0.5, or 0 % to 50 %',
    ],
    [
      'route: { start: { band: band 1, side: «up } }',
      'plan/choice route.start.side',
      /^is "up"; allowed: top, right/,
    ],
    [
      'route: { start: «5 }',
      'plan/value route.start',
      'is 5; expected any, a corner such as top-left, or { band, side }',
    ],
    ['route: { ditch: [«{}] }', 'plan/contradiction route.ditch[0]', /^names 0 seams; give one/],
    [
      'route: { ditch: [{ patches: «band 1 }] }',
      'plan/contradiction route.ditch[0].patches',
      'is "band 1", which is not pieced: it has no patches',
    ],
    ['avoid: [«{}]', 'plan/contradiction avoid[0]', 'has neither circle nor polygon; give one of them'],
    [
      'avoid: [«{ circle: { at: [1, 1], radius: 1 }, polygon: [[0, 0], [1, 0], [0, 1]] }]',
      'plan/contradiction avoid[0]',
      'has both circle and polygon; give one of them',
    ],
    [
      'avoid: [{ circle: { at: «[1], radius: 1 } }]',
      'plan/size avoid[0].circle.at',
      'has 1 entry; expected a place [x, y]',
    ],
    [
      'avoid: [{ circle: { at: [1, 1], radius: «0 } }]',
      'plan/length avoid[0].circle.radius',
      /^is 0; allowed/,
    ],
    [
      'avoid: [{ polygon: «[[0, 0], [1, 0]] }]',
      'plan/size avoid[0].polygon',
      'has 2 entries; allowed: at least 3',
    ],
    [
      'avoid: [{ polygon: «[[0, 0], [2, 2], [2, 0], [0, 2]] }]',
      'plan/polygon avoid[0].polygon',
      /edges cross or touch each other/,
    ],
    [
      'avoid: [{ polygon: «[[0, 0], [2, 0], [2 in, 0], [0, 0]] }]',
      'plan/polygon avoid[0].polygon',
      /edges cross or touch each other/,
    ],
    [
      'avoid: [{ name: sun, circle: { at: [1, 1], radius: 1 } }, { name: «sun, circle: { at: [3, 1], radius: 1 } }]',
      'plan/duplicate-name avoid[1].name',
      'is "sun"; another region has that name',
    ],
    [
      'measured: [{ band: centre, across: «[1, 1], down: [1, 1, 1] }]',
      'plan/size measured[0].across',
      'has 2 entries; expected three lengths',
    ],
    [
      'measured: [{ band: centre, across: [1, 1, 1], down: [1, 1, 1] }, { band: «centre, across: [1, 1, 1], down: [1, 1, 1] }]',
      'plan/duplicate-name measured[1].band',
      'is "centre", which is measured twice; give it once',
    ],
  ])('%s is refused as %s', (more, problem, message) => {
    const { text, place } = unmark(plan('width: 1', more))
    const [at, told] = only(text)
    expect(at).toBe(`${place} ${problem}`)
    expect(told).toMatch(message)
  })

  test.each([
    ['«machin: {}', 'plan/unknown-key machin', 'did you mean machine?'],
    ['batting: { kind: «wol }', 'plan/choice batting.kind', 'did you mean wool?'],
    ['route: { start: «topleft }', 'plan/place route.start', 'did you mean top-left?'],
    [
      'route: { end: { band: «bnd 1, side: top } }',
      'plan/unknown-band route.end.band',
      'did you mean band 1?',
    ],
    [
      'route: { ditch: [{ inside: «bnd 1 }] }',
      'plan/unknown-band route.ditch[0].inside',
      'did you mean band 1?',
    ],
    [
      'measured: [{ band: «bnd 1, across: [1, 1, 1], down: [1, 1, 1] }]',
      'plan/unknown-band measured[0].band',
      'did you mean band 1?',
    ],
    [
      'thread: { bobbin: «75 }',
      'plan/length thread.bobbin',
      'without a unit it is 75 in; write 75 m or 75 yd',
    ],
    ['machine: { speed: «"600" }', 'plan/value machine.speed', 'write 600 without quotes'],
  ])('%s is refused as %s with a hint', (more, problem, hint) => {
    const { text, place } = unmark(plan('width: 1', more))
    const [at, , told] = only(text)
    expect([at, told]).toEqual([`${place} ${problem}`, hint])
  })

  test('a missing centre, missing bands and an empty list of bands are said', () => {
    expect(problemsOf('title: a').map(placed)).toEqual(['1:1 plan/missing centre', '1:1 plan/missing bands'])
    expect(only('centre: { width: 9, height: 9 }\nbands: []')).toEqual([
      '2:8 plan/size bands',
      'has 0 entries; allowed: at least 1',
    ])
  })

  test('a share that is refused is not held against the sum as well', () => {
    const fabric = 'width: 1, fabric: [{ colour: red, share: 5 }, { colour: blue, share: 0.9 }]'
    expect(only(plan(fabric))[0]).toBe('3:48 plan/share bands[0].fabric[0].share')
  })

  test('two bands of the same name are refused, and the first is named', () => {
    const text =
      'centre: { width: 9, height: 9 }\nbands:\n  - { name: sea, width: 1 }\n  - { name: sea, width: 1 }\n'
    expect(only(text)).toEqual([
      '4:13 plan/duplicate-name bands[1].name',
      'is "sea"; bands[0] has that name already',
    ])
  })

  test('a quilt of more than 10 m is refused even where every part is less', () => {
    const text = 'units: cm\ncentre: { width: 900, height: 9 }\nbands: [{ width: 60 }]\n'
    expect(only(text)).toEqual([
      '3:8 plan/quilt-too-large bands',
      'the quilt is 1021 cm long with all its bands; allowed: at most 1000 cm',
    ])
  })

  test('a filler for a centre is one for centres, with its own values', () => {
    const centre = (filler: string) =>
      `centre: { width: 9, height: 9, filler: ${filler} }\nbands: [{ width: 1 }]\n`
    expect(only(centre('gird'))).toEqual([
      '1:40 plan/unknown-filler centre.filler',
      'is "gird"; allowed: none, grid, rays',
      'did you mean grid?',
    ])
    expect(only(centre('{ rays: { gap: 1 } }'))).toEqual([
      '1:50 plan/unknown-value centre.filler.rays.gap',
      'unknown value "gap"; allowed: none are known',
    ])
  })
})

describe('a filler that does not suit its band', () => {
  test('is refused where the band is narrower than it needs, and those that suit are named', () => {
    expect(only(plan('width: 1, filler: waves'))).toEqual([
      '3:25 plan/band-too-narrow bands[0].filler',
      'the band is 1 in wide; waves needs 1.5 in or more',
      'ripple would suit',
    ])
  })

  test('is told in the units of the plan', () => {
    const text = 'units: mm\ncentre: { width: 900, height: 900 }\nbands: [{ width: 20, filler: waves }]'
    expect(only(text)[1]).toBe('the band is 20 mm wide; waves needs 38.1 mm or more')
  })

  test('is refused on a side that is too narrow, unless that side has another', () => {
    const width = 'width: { top: 2, right: 2, bottom: 2, left: 1 }'
    expect(only(plan(`${width}, filler: waves`))[0]).toBe('3:64 plan/band-too-narrow bands[0].filler')
    expect(readPlan(plan(`${width}, filler: waves, sides: { left: ripple }`), PLAN_CATALOG).warnings).toEqual(
      [],
    )
    expect(only(plan(`${width}, sides: { left: waves }`))[0]).toBe(
      '3:71 plan/band-too-narrow bands[0].sides.left',
    )
  })

  test('has no motif to offer in a band that is narrower than all need', () => {
    expect(only(plan('width: 0.25, filler: ripple'))[2]).toBe('leave it unquilted: none')
  })

  test('is read with a warning where the band is wider than it suits', () => {
    const { warnings } = readPlan(plan('width: 3, filler: ripple'), PLAN_CATALOG)
    expect(warnings).toEqual([
      {
        code: 'plan/band-wide',
        at: 'bands[0].filler',
        message: 'the band is 3 in wide; ripple suits up to 2 in',
        hint: 'waves, tides would suit',
        position: { line: 3, column: 25 },
      },
    ])
  })

  test('is taken at exactly its least and its greatest width', () => {
    for (const width of ['0.5', '2', '12.7 mm', '50.8 mm'])
      expect(readPlan(plan(`width: ${width}, filler: ripple`), PLAN_CATALOG).warnings).toEqual([])
  })
})

test('a region beside the quilt is read with a warning', () => {
  const { warnings } = readPlan(
    plan('width: 1', 'avoid: [{ circle: { at: [50, 5], radius: 1 } }]'),
    PLAN_CATALOG,
  )
  expect(warnings.map(placed)).toEqual(['4:9 plan/avoid-outside avoid[0]'])
})

test('a problem found later gets its place in the file', () => {
  const { locate } = readPlan(plan('width: 2, filler: { waves: { "count": 2 } }', 'seed: 3'), PLAN_CATALOG)
  const at = (path: string) => locate({ code: 'quilt/any', message: '', at: path }).position
  expect(at('seed')).toEqual({ line: 4, column: 7 })
  expect(at('bands[0].filler.waves.count')).toEqual({ line: 3, column: 45 })
  expect(at('bands[0].filler.waves.unheard')).toEqual({ line: 3, column: 34 })
  expect(at('')).toEqual({ line: 1, column: 1 })
})
