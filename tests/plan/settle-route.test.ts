import { describe, expect, test } from 'vitest'
import type { Problem } from '../../src/error.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { PLAN_CATALOG } from '../support/plan-catalog.ts'
import { problemsOf } from '../support/plan-problems.ts'

/** Four bands: filled, bare, pieced, and one whose filler is the program's choice. */
const text = (route: string) => `centre: { width: 20, height: 10 }
bands:
  - { name: sand, width: 2, filler: waves }
  - { name: gap, width: 1 }
  - { name: stars, width: 3, pieced: { unit: squares } }
  - { name: rope, width: 2, filler: auto }
route: { ${route} }
`
const routeOf = (route: string) => readPlan(text(route), PLAN_CATALOG).plan.route
const told = (route: string) =>
  problemsOf(text(route)).map(({ code, at, message, hint }: Problem) => [code, at, message, hint])

describe('the order and the way of work', () => {
  test.each([
    ...['any', 'middle-out', 'outside-in'].map((word) => ['order', word]),
    ...['any', 'areas', 'laps'].map((word) => ['work', word]),
    ...['any', 'first', 'along'].map((word) => ['ditchOrder', word]),
  ])('%s: %s is kept as it is said', (key, word) => {
    expect(routeOf(`${key}: ${word}`)).toMatchObject({ [key!]: word })
  })
})

describe('a start or an end', () => {
  test.each([
    ['top-left', 0],
    ['top-right', 1],
    ['bottom-right', 2],
    ['bottom-left', 3],
  ])('at the corner %s is the corner %i', (name, corner) => {
    expect(routeOf(`start: ${name}`).start).toEqual({ kind: 'corner', corner })
  })

  test('may be on any side of a band that is stitched, whatever it is filled with', () => {
    for (const band of ['sand', 'stars', 'rope'])
      for (const [side, name] of ['top', 'right', 'bottom', 'left'].entries())
        expect(routeOf(`end: { band: ${band}, side: ${name} }`).end).toEqual({ kind: 'side', band, side })
  })

  test('in a band where nothing is stitched is refused, on its first side too', () => {
    for (const side of ['top', 'left'])
      expect(told(`start: { band: gap, side: ${side} }`)).toEqual([
        [
          'plan/place',
          'route.start.band',
          'is "gap"; nothing is stitched in that band',
          'choose a band with a filler',
        ],
      ])
  })

  test('somewhere else is refused with all that is allowed', () => {
    expect(told('start: middle')).toEqual([
      [
        'plan/place',
        'route.start',
        'is "middle"; allowed: any, top-left, top-right, bottom-right, bottom-left, or { band, side }',
        undefined,
      ],
    ])
    expect(told('start: ayn')[0]![3]).toBe('did you mean any?')
    expect(told('end: { band: sand, side: upper-left }')).toEqual([
      ['plan/choice', 'route.end.side', 'is "upper-left"; allowed: top, right, bottom, left', undefined],
    ])
    // Of a band that is not there no side is wrong as well.
    expect(told('end: { band: sea, side: upper-left }').map(([code]) => code)).toEqual(['plan/unknown-band'])
  })
})

describe('seams to stitch in the ditch', () => {
  test('are told apart by their kind and their band', () => {
    expect(
      routeOf('ditch: [{ inside: sand }, { corners: sand }, { inside: gap }, { inside: sand }]').ditch,
    ).toEqual([
      { kind: 'ring', band: 0 },
      { kind: 'corner', band: 0 },
      { kind: 'ring', band: 1 },
    ])
  })

  test('that a band has not are refused, each with what it has', () => {
    expect(told('ditch: [{ corners: stars }, { patches: sand }]')).toEqual([
      [
        'plan/contradiction',
        'route.ditch[0].corners',
        'is "stars", a pieced band: its corners are patches; ask for its patches',
        undefined,
      ],
      [
        'plan/contradiction',
        'route.ditch[1].patches',
        'is "sand", which is not pieced: it has no patches',
        undefined,
      ],
    ])
  })

  test('are named one by one, by bands that are there', () => {
    expect(told('ditch: [{ inside: sand, corners: sand }]')).toEqual([
      [
        'plan/contradiction',
        'route.ditch[0]',
        'names 2 seams; give one: { inside: band }, { corners: band } or { patches: band }',
        undefined,
      ],
    ])
    expect(told('ditch: [{ inside: sea }]').map(([code, at]) => [code, at])).toEqual([
      ['plan/unknown-band', 'route.ditch[0].inside'],
    ])
  })
})

describe('a pieced band', () => {
  const pieced = (keys: string) => `centre: { width: 20, height: 10 }\nbands:\n  - { width: 3, ${keys} }\n`
  const problems = (keys: string) =>
    problemsOf(pieced(keys)).map(({ code, at, message }) => [code, at, message])
  const filled = (keys: string) => readPlan(pieced(keys), PLAN_CATALOG).plan.bands[0]!

  test('is filled patch by patch if it names a patch, and along the band if it names a filler', () => {
    expect(filled('pieced: { unit: squares }, filler: { dark: arcs }')).toMatchObject({
      filler: undefined,
      pieced: { fillers: { dark: { name: 'arcs' } } },
    })
    expect(filled('pieced: { unit: squares }, filler: { waves: { count: 2 } }')).toMatchObject({
      filler: { name: 'waves', values: { count: 2 } },
      pieced: { fillers: {} },
    })
    const { fillers } = filled(
      'pieced: { unit: squares }, corners: cornerstone, filler: { cornerstone: arcs, light: none }',
    ).pieced!
    expect(Object.keys(fillers)).toEqual(['cornerstone'])
  })

  test('has cornerstones to fill or to colour only where it has cornerstones', () => {
    for (const key of ['filler: { cornerstone: arcs, dark: none }', 'fabrics'])
      expect(
        problems(
          key === 'fabrics'
            ? 'pieced: { unit: squares, fabrics: { cornerstone: red } }'
            : `pieced: { unit: squares }, ${key}`,
        ).map(([code, , message]) => [code, message]),
      ).toEqual([['plan/unknown-patch', 'unknown patch "cornerstone"; allowed: dark, light']])
    expect(
      filled('corners: cornerstone, pieced: { unit: squares, fabrics: { cornerstone: "#ff0000" } }').pieced!
        .fabrics,
    ).toEqual({ cornerstone: '#ff0000' })
  })

  test('leaves out a colour that is none, and tells it once', () => {
    expect(problems('pieced: { unit: squares, fabrics: { dark: blurple, light: red } }')).toEqual([
      ['plan/colour', 'bands[0].pieced.fabrics.dark', expect.stringMatching(/^is "blurple"/)],
    ])
  })

  test('takes a name or none for a patch, and a size that is a length', () => {
    expect(problems('pieced: { unit: squares }, filler: { dark: 5, light: none }')).toEqual([
      ['plan/value', 'bands[0].filler.dark', expect.stringMatching(/^is 5; expected/)],
    ])
    expect(filled('pieced: { unit: squares, size: 2 }').pieced!.size).toBeCloseTo(50.8, 9)
    expect(filled('pieced: { unit: squares }').pieced!.size).toBeUndefined()
  })

  test('of an own unit needs polygons whose corners lie in the unit square', () => {
    const own = (points: string) => `pieced: { unit: own, polygons: [{ name: a, points: ${points} }] }`
    expect(filled(own('[[0, 0], [1, 0], [0, 1]]')).pieced!.polygons).toEqual([
      {
        name: 'a',
        points: [
          [0, 0],
          [1, 0],
          [0, 1],
        ],
      },
    ])
    expect(problems(own('[[0, 0], [1.5, 0], [0, 1]]')).map(([, at, message]) => [at, message])).toEqual([
      ['bands[0].pieced.polygons[0].points[1][0]', 'is 1.5; allowed: 0 to 1'],
    ])
    // A broken list of polygons does not make the unit unknown as well.
    expect(problems('pieced: { unit: own, polygons: 5 }').map(([, at]) => at)).toEqual([
      'bands[0].pieced.polygons',
    ])
  })
})
