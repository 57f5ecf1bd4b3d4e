import { expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { PlanError } from '../../src/error.ts'
import { planFromText } from '../../src/pipeline.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { writePlan } from '../../src/plan/write-plan.ts'

const CATALOG = catalogOf(LIBRARY)
const GULL = 'M0 12 C 5 12 8 0 12 0 C 15 0 16 7 18 7 C 20 7 21 0 24 0 C 28 0 31 12 36 12'
const SVG = `<svg><path d="${GULL}"/></svg>`

const planOf = (motifs: string, filler = 'gull') => `
centre: { width: 9, height: 7 }
motifs: ${motifs}
bands: [{ name: shore, width: 2, filler: ${filler} }]
`
const problemsOf = (text: string, catalog = CATALOG) => {
  try {
    readPlan(text, catalog)
  } catch (error) {
    if (error instanceof PlanError) return error.problems
    throw error
  }
  return []
}

it('a motif drawn in the plan fills a band, with its value', () => {
  const planned = planFromText(planOf(`{ gull: { path: "${GULL}" } }`, '{ gull: { repeat: 5 } }'), CATALOG)
  expect(planned.report.bands[0]!.filler).toBe('gull')
  expect(planned.plan.bands[0]!.filler).toMatchObject({
    name: 'gull',
    values: { repeat: 127 },
    given: ['repeat'],
  })
})

it('a drawing and its path make the same motif', () => {
  const byFile = readPlan(planOf('{ gull: { drawing: gull.svg } }'), { ...CATALOG, readFile: () => SVG }).plan
  const byPath = readPlan(planOf(`{ gull: { path: "${GULL}" } }`), CATALOG).plan
  expect(byFile.motifs[0]!.shape).toEqual(byPath.motifs[0]!.shape)
})

it('a plan with motifs of its own is the same when it is written and read', () => {
  const catalog = { ...CATALOG, readFile: () => SVG }
  const text = planOf(
    `{ gull: { path: "${GULL}", suits: [1, 3] }, tern: { drawing: gull.svg } }`,
    '{ tern: { repeat: 4 } }',
  )
  const { plan } = readPlan(text, catalog)
  const written = writePlan(plan, catalog)
  expect(readPlan(written, catalog).plan).toEqual(plan)
  expect(written).toContain('drawing: gull.svg')
})

it('a motif too narrow for its band is refused like any other', () => {
  expect(problemsOf(planOf(`{ gull: { path: "${GULL}", suits: [3, 5] } }`))).toMatchObject([
    { code: 'plan/band-too-narrow', message: expect.stringContaining('gull needs 3 in or more') },
  ])
})

it.each([
  ['neither a drawing nor a path', '{ gull: {} }', 'plan/contradiction', 'motifs.gull'],
  ['both', `{ gull: { drawing: a.svg, path: "${GULL}" } }`, 'plan/contradiction', 'motifs.gull'],
  [
    "a name that is a filler's",
    `{ gull: { path: "${GULL}" }, wave: { path: "${GULL}" } }`,
    'plan/name-taken',
    'motifs.wave',
  ],
  [
    'a name that means nothing',
    `{ gull: { path: "${GULL}" }, none: { path: "${GULL}" } }`,
    'plan/name-taken',
    'motifs.none',
  ],
  [
    'a name with spaces',
    `{ gull: { path: "${GULL}" }, Sea Gull: { path: "${GULL}" } }`,
    'plan/name',
    'motifs["Sea Gull"]',
  ],
  [
    'a name of the language',
    `{ gull: { path: "${GULL}" }, constructor: {} }`,
    'plan/contradiction',
    'motifs.constructor',
  ],
  ['a path that is none', '{ gull: { path: "M0 0 X" } }', 'drawing/path-data', 'motifs.gull.path'],
  ['a drawing where no files are', '{ gull: { drawing: gull.svg } }', 'plan/drawing', 'motifs.gull.drawing'],
  [
    'widths the wrong way round',
    `{ gull: { path: "${GULL}", suits: [3, 1] } }`,
    'plan/order',
    'motifs.gull.suits',
  ],
  ['an unknown key', `{ gull: { path: "${GULL}", width: 2 } }`, 'plan/unknown-key', 'motifs.gull.width'],
  ['no group', '{ gull: M0 0 }', 'plan/value', 'motifs.gull'],
])('a motif with %s is refused once, at its place', (_, motifs, code, at) => {
  expect(problemsOf(planOf(motifs)).map((p) => [p.code, p.at])).toEqual([[code, at]])
})

it('tells where in a path it breaks off', () => {
  expect(problemsOf(planOf('{ gull: { path: "M0 0 L 5 5 wave" } }'))[0]).toMatchObject({
    message: 'character 12: the path data has "wave" where a command such as M, L or C should stand',
    position: { line: 3, column: 25 },
  })
})

const drawn = (name: string) => planOf(`{ gull: { drawing: ${JSON.stringify(name)} } }`)

it.each([
  'wave',
  'a\\b.svg',
  '../wave.svg',
  'a/../wave.svg',
  './wave.svg',
  '/wave.svg',
  'a//b.svg',
  'w?.svg',
])('the file %s is not read: it is no drawing beside the plan', (name) => {
  const readFile = () => expect.unreachable()
  expect(problemsOf(drawn(name), { ...CATALOG, readFile })).toMatchObject([
    { code: 'plan/drawing', at: 'motifs.gull.drawing', message: expect.stringContaining('beside the plan') },
  ])
})

it('a file that cannot be read is told in the words of who read it', () => {
  const message = 'there is no file gull.svg beside the plan'
  const readFile = () => {
    throw new PlanError({ code: 'file/missing', at: '', message })
  }
  expect(problemsOf(drawn('gull.svg'), { ...CATALOG, readFile })).toMatchObject([
    { code: 'plan/drawing', at: 'motifs.gull.drawing', message },
  ])
})

it('a fault of whoever reads files is not taken for a fault of the plan', () => {
  const readFile = () => {
    throw new Error('the disk is gone')
  }
  expect(() => readPlan(drawn('gull.svg'), { ...CATALOG, readFile })).toThrow('the disk is gone')
})

it.each([
  [
    'with its line and column in the file',
    '<svg>\n  <rect/>\n</svg>',
    'gull.svg:2:3: the drawing has a <rect>',
  ],
  ['with the file alone where all of it is meant', '<svg><path d="M0 5L40 5"/></svg>', 'gull.svg: the path'],
])('a drawing is refused %s', (_, svg, message) => {
  expect(problemsOf(drawn('gull.svg'), { ...CATALOG, readFile: () => svg })[0]!.message).toContain(message)
})

it('a path is refused with the place in it, or with none where all of it is meant', () => {
  const messageOf = (path: string) => problemsOf(planOf(`{ gull: { path: "${path}" } }`))[0]!.message
  expect(messageOf('M0 0\\nL 5 5\\nwave')).toMatch(/^line 3, character 1: the path data has "wave"/)
  expect(messageOf('M0 5L40 5')).toMatch(/^the path /)
})

it('a drawing that is no text, and a path that is none, are refused once', () => {
  expect(problemsOf(planOf('{ gull: { drawing: 5 } }')).map(({ at }) => at)).toEqual(['motifs.gull.drawing'])
  expect(problemsOf(planOf('{ gull: { path: 5 } }')).map(({ at }) => at)).toEqual(['motifs.gull.path'])
})

it('more motifs than a plan may draw are refused, and the rest is read', () => {
  const many = Array.from({ length: 41 }, (_, i) => `m${i}: { path: "${GULL}" }`).join(', ')
  expect(problemsOf(planOf(`{ gull: { path: "${GULL}" }, ${many} }`))).toMatchObject([
    { at: 'motifs', message: expect.stringContaining('42') },
  ])
})
