import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { planJsonSchema } from '../../src/plan/json-schema.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { writePlan } from '../../src/plan/write-plan.ts'
import { problemsOf } from './complaints.ts'

const CATALOG = catalogOf(LIBRARY)
const read = (text: string) => readPlan(text, CATALOG).plan
const told = (text: string) => problemsOf(text).map(({ at, message }) => `${at}: ${message}`)

const SETTING = '{ name: cliffs, pieced: { unit: setting-triangles }, filler: { triangle: echo } }'
const HEXAGON = 'centre: { shape: hexagon, across: 18 }\n'
const OCTAGON = 'centre: { shape: octagon, across: 18 }\n'
const ON_POINT = 'centre: { shape: on-point, across: 12 }\n'
const bands = (...list: string[]) => `bands:\n${list.map((band) => `  - ${band}\n`).join('')}`
const sand = '{ name: sand, width: 2, filler: scallop }'

describe('a centre of another shape', () => {
  it('is as large from flat to flat as across says, and lies in the box round it', () => {
    // Across the corners of a hexagon: across the flats over cos 30 degrees; a square's diagonal (school formulas).
    const hexagon = read(HEXAGON + bands(sand)).centre
    expect(hexagon).toMatchObject({ shape: 'hexagon', across: 457.2, height: 457.2 })
    expect(hexagon.width).toBeCloseTo(457.2 / Math.cos(Math.PI / 6), 6)
    expect(read(OCTAGON + bands(sand)).centre).toMatchObject({ width: 457.2, height: 457.2 })
    expect(read(ON_POINT + bands(sand)).centre.width).toBeCloseTo(304.8 * Math.SQRT2, 6)
  })

  it('is a rectangle by its width and height if nothing else is said', () => {
    const plain = read(`centre: { width: 20, height: 10 }\n${bands(sand)}`)
    expect(read(`centre: { shape: rectangle, width: 20, height: 10 }\n${bands(sand)}`)).toEqual(plain)
    expect(plain.centre).toMatchObject({ shape: 'rectangle', across: undefined, width: 508, height: 254 })
  })

  it.each([
    ['hexagon', `${HEXAGON}${bands(sand)}route: { start: { band: sand, side: lower-left }, end: right }\n`],
    ['octagon', `${OCTAGON}${bands(sand)}route: { start: { band: sand, side: left }, end: right-top }\n`],
    [
      'on point',
      `${ON_POINT}${bands(sand, SETTING, '{ name: rope, width: { top: 2, right: 1, bottom: 2, left: 1 }, filler: scallop }')}route: { start: { band: sand, side: upper-left }, end: top-left }\n`,
    ],
    [
      'on point to the edge',
      `${ON_POINT}${bands(sand)}route: { start: top, end: { band: sand, side: lower-right } }\n`,
    ],
  ])('%s is read again as it is written', (_, text) => {
    const plan = read(text)
    expect(plan.route.start.kind).not.toBe('anywhere')
    expect(read(writePlan(plan, CATALOG))).toEqual(plan)
  })

  it('has sizes that belong to it', () => {
    expect(told(`centre: { shape: hexagon, width: 10, height: 12 }\n${bands(sand)}`)).toEqual([
      expect.stringContaining('centre.across: is missing; expected a number'),
      'centre.width: is for a rectangle; a hexagon is told by across, its size from flat to flat',
      'centre.height: is for a rectangle; a hexagon is told by across, its size from flat to flat',
    ])
    expect(told(`centre: { across: 10 }\n${bands(sand)}`).map((line) => line.slice(0, 26))).toEqual([
      'centre.width: is missing; ',
      'centre.height: is missing;',
      'centre.across: is for a he',
    ])
    expect(told(`centre: { shape: hexagn, across: 9 }\n${bands(sand)}`)).toEqual([
      'centre.shape: is "hexagn"; allowed: rectangle, hexagon, octagon, on-point',
    ])
  })

  it('tells everything that is wrong at once', () => {
    const band =
      '{ name: sand, width: { top: 1, right: 2, bottom: 1, left: 2 }, filler: scallop, sides: { top: none } }'
    const pieced = '{ name: stars, width: 2, pieced: { unit: squares }, filler: { dark: echo } }'
    const text = `centre: { shape: octagon, across: 18, filler: clamshell }\n${bands(band, pieced, SETTING)}measured: [{ band: sand, across: [1, 1, 1], down: [1, 1, 1] }]\nroute: { start: middle, end: { band: sand, side: upper-top } }\n`
    const found = problemsOf(text)
    expect(found.map(({ at }) => at)).toEqual([
      'centre.filler',
      'bands[0].width',
      'bands[0].sides',
      'bands[1].pieced',
      'bands[2].pieced.unit',
      'measured',
      'route.start',
      'route.end.side',
    ])
    expect(found[1]).toMatchObject({
      code: 'plan/contradiction',
      message: 'gives a width for each side; round an octagon all sides are equally wide: give one',
    })
    expect(found[2]).toMatchObject({
      code: 'plan/contradiction',
      message: 'gives sides fillers of their own; round an octagon all sides are filled alike',
    })
    expect(found.every(({ position }) => (position?.line ?? 0) > 0)).toBe(true)
    expect(found[0]!.message).toContain('in an octagon are allowed: none, crosshatch, echo-rails, meander')
    expect(found[3]!.hint).toBe('add corners: cornerstone to the band')
    expect(found[6]!.message).toContain('right-top')
  })

  it('has sides and corners by the names of its outline', () => {
    const at = (centre: string, route: string) => told(`${centre}${bands(sand)}route: { ${route} }\n`)
    expect(at(HEXAGON, 'start: { band: sand, side: right }')).toEqual([
      'route.start.side: is "right"; allowed: top, upper-right, lower-right, bottom, lower-left, upper-left',
    ])
    expect(at(ON_POINT, 'start: top-left')[0]).toContain('allowed: any, left, top, right, bottom')
    expect(at('centre: { width: 9, height: 9 }\n', 'start: { band: sand, side: upper-left }')).toEqual([
      'route.start.side: is "upper-left"; allowed: top, right, bottom, left',
    ])
  })
})

describe('setting triangles', () => {
  it('are half as deep as the outline on point is wide, and make it upright', () => {
    const plan = read(ON_POINT + bands(sand, SETTING, '{ width: { top: 1, right: 2, bottom: 1, left: 2 } }'))
    // 12 + 2 x 2 = 16 in: half is 8 in.
    expect(plan.bands[1]!.width.top).toBeCloseTo(8 * 25.4, 6)
    expect(plan.bands[1]!.pieced?.fillers).toMatchObject({ triangle: { name: 'echo' } })
  })

  it('take no width, corners, size or motif, and stand only round an outline on point', () => {
    const wrong =
      '{ width: 2, corners: cornerstone, pieced: { unit: setting-triangles, size: 1 }, filler: scallop }'
    const sewn = 'is given; the width of setting triangles follows from what they are sewn to'
    const joined = 'is given; setting triangles have no corners to join'
    expect(told(ON_POINT + bands(wrong, sand))).toEqual([
      `bands[0].width: ${sewn}`,
      `bands[0].corners: ${joined}`,
      'bands[0].pieced.size: is given; the size of setting triangles follows from what they are sewn to',
      'bands[0].filler: runs along a band, and setting triangles are none; fill them as patches: { triangle: echo }',
    ])
    const others = '{ cut: 2, cornerstone: echo-square, pieced: { unit: setting-triangles }, filler: auto }'
    expect(problemsOf(ON_POINT + bands(others, sand)).map(({ code, at }) => [code, at])).toEqual([
      ['plan/contradiction', 'bands[0].cut'],
      ['plan/contradiction', 'bands[0].cornerstone'],
      ['plan/filler', 'bands[0].filler'],
    ])
    expect(told(ON_POINT + bands(SETTING, '{ pieced: { unit: setting-triangles } }'))).toEqual([
      'bands[1].pieced.unit: is "setting-triangles", but what this band goes round is a rectangle, not on point',
    ])
    expect(told(HEXAGON + bands(SETTING))[0]).toContain('is a hexagon, not on point')
  })

  it('stay unquilted if they have no filler, or none, and say where a key is too much', () => {
    for (const filler of ['', ', filler: none']) {
      const {
        filler: along,
        auto,
        pieced,
      } = read(`${ON_POINT}${bands(`{ name: cliffs, pieced: { unit: setting-triangles }${filler} }`, sand)}`)
        .bands[0]!
      expect([along, auto, pieced!.fillers]).toEqual([undefined, false, {}])
    }
    const [problem] = problemsOf(
      `${ON_POINT}bands:\n  - pieced: { unit: setting-triangles }\n    width: 2\n  - ${sand}\n`,
    )
    // At the key, not at its value.
    expect(problem!.position).toEqual({ line: 4, column: 5 })
  })

  it('have a seam inside, and none between them', () => {
    const ditch = (seams: string) => `${ON_POINT}${bands(SETTING, sand)}route: { ditch: ${seams} }\n`
    expect(read(ditch('all')).route.ditch).toEqual([
      { kind: 'ring', band: 0 },
      { kind: 'ring', band: 1 },
      { kind: 'corner', band: 1 },
    ])
    expect(told(ditch('[{ patches: cliffs }]'))[0]).toContain('setting triangles have no seams between them')
  })
})

it('a quilt that grows too large round another outline is refused', () => {
  const wide = (centre: string) => told(`units: cm\ncentre: { ${centre} }\nbands: [{ width: 60 }]\n`)[0]
  // 840 cm and two bands of 60: 960 cm from flat to flat, 1109 cm from corner to corner of a hexagon.
  expect(wide('shape: octagon, across: 840')).toBeUndefined()
  expect(wide('shape: hexagon, across: 840')).toContain('the quilt is 1110')
  expect(wide('shape: on-point, across: 840')).toContain('the quilt is 1359')
})

it('the schema for editors knows both ways to tell a centre', () => {
  const text = JSON.stringify(planJsonSchema(CATALOG))
  expect(text).toContain('"hexagon"')
  expect(text).toContain('"setting-triangles"')
})
