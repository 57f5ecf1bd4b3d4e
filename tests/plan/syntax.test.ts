import { expect, test } from 'vitest'
import { LIMITS } from '../../src/plan/limits.ts'
import { placed, problemsOf, unmark } from '../support/plan-problems.ts'

/** What comes before a fault in a plan that is fine so far. */
const FINE = 'centre: { width: 9, height: 9 }\nbands: [{ width: 1 }]\n'

test.each([
  ['', 'plan/empty'],
  ['\n\n', 'plan/empty'],
  ['\uFEFF', 'plan/empty'],
  ['# a remark only\n', 'plan/empty'],
  ['null', 'plan/empty'],
  ['---\n', 'plan/empty'],
])('a file of %j is empty', (text, code) => {
  expect(problemsOf(text).map(placed)).toEqual([`1:1 ${code}`])
})

test.each([
  ['«5', 'a single value'],
  ['# plan\n«wide', 'a single value'],
  ['«- a\n- b', 'a list'],
])('a file of %j holds no keys', (marked, what) => {
  const { text, place } = unmark(marked)
  const [problem] = problemsOf(text)
  expect(placed(problem!)).toBe(`${place} plan/root`)
  expect(problem?.message).toContain(`the file holds ${what}`)
})

test.each([
  ['title: "open«', /missing closing "quote/],
  ['avoid: [1, 2«', /flow sequence/],
  ['title: a: «b', /nested mappings/],
  ['route:\n«\tstart: any', /tab/],
  ['title: «!harbour boat', /unresolved tag/],
  ['title: «*boat', /nothing before \*boat is named &boat/],
  ['«? [a, b]\n: 1', /a key must be a word/],
  ['«---\ntitle: a', /a second document begins here/],
  ['title: «@boat', /plain value cannot start with/],
])('broken YAML is told in plain words: %s', (marked, message) => {
  const { text, place } = unmark(FINE + marked)
  const problems = problemsOf(text)
  expect(problems[0]?.code).toBe('plan/syntax')
  expect(problems[0]?.message).toMatch(message)
  expect(problems[0]?.position?.line).toBe(Number(place.split(':')[0]))
})

test('keys given twice are told with all other problems, at the second one', () => {
  const { text, place } = unmark(`title: a\n${FINE}seed: -1\n«title: b\n`)
  expect(problemsOf(text).map(placed)).toEqual(['4:7 plan/size seed', `${place} plan/duplicate-key title`])
})

test('a key given twice deep inside is told with its path', () => {
  const { text, place } = unmark('centre: { width: 9, height: 9 }\nbands:\n  - width: 1\n    «width: 2\n')
  expect(problemsOf(text).map(placed)).toEqual([`${place} plan/duplicate-key bands[0].width`])
})

test('line and column are those of the text as it stands, with Windows line ends and a byte order mark', () => {
  expect(problemsOf(`\uFEFF${FINE}seed: -1`.replaceAll('\n', '\r\n')).map(placed)).toEqual([
    '3:7 plan/size seed',
  ])
  expect(
    problemsOf('\uFEFFseeed: 1\r\ncentre: { width: 9, height: 9 }\r\nbands: [{ width: 1 }]').map(placed),
  ).toEqual(['1:1 plan/unknown-key seeed'])
})

test('a problem in what an alias stands for is told at the anchor', () => {
  const { text, place } = unmark('centre: { width: 9, height: 9 }\nbands: [&one { width: «0 }, *one]\n')
  expect(problemsOf(text).map(placed)).toContain(`${place} plan/length bands[0].width`)
})

test('a file of more than 256 KiB is refused unread', () => {
  const filled = (bytes: number) => `${FINE}#${'x'.repeat(bytes - FINE.length - 2)}\n`
  expect(problemsOf(`${filled(LIMITS.fileBytes)}x`).map(placed)).toEqual(['1:1 plan/too-large'])
  expect(problemsOf(`${filled(LIMITS.fileBytes - 8)}seed: -1`).map(placed)).toEqual(['4:7 plan/size seed'])
  expect(problemsOf(`#${'é'.repeat(LIMITS.fileBytes / 2)}`).map(placed)).toEqual(['1:1 plan/too-large'])
})

test.each([
  ['brackets', '['.repeat(20_000)],
  ['braces', '{a: '.repeat(10_000)],
  ['dashes', '- '.repeat(20_000)],
  ['closed brackets', `a: ${'['.repeat(20)}${']'.repeat(20)}`],
  ['an anchor that holds itself', 'a: &a [*a]'],
  ['indented keys', Array.from({ length: 400 }, (_, i) => `${' '.repeat(i)}a:\n`).join('')],
])('%s nested too deeply are refused', (_, text) => {
  expect(problemsOf(text).map(({ code }) => code)).toEqual(['plan/too-deep'])
})

test('more than 50 aliases are refused at the first that is too many', () => {
  const uses = (count: number) =>
    `title: &t a\n${Array.from({ length: count }, (_, i) => `k${i}: *t\n`).join('')}`
  expect(problemsOf(uses(51)).map(placed)).toEqual(['52:6 plan/aliases'])
  expect(problemsOf(uses(50)).map(({ code }) => code)).not.toContain('plan/aliases')
})

test('aliases of aliases that would fill the memory are refused', () => {
  const levels = Array.from(
    { length: 9 },
    (_, i) => `k${i + 1}: &k${i + 1} [*k${i}, *k${i}, *k${i}, *k${i}, *k${i}]\n`,
  )
  expect(problemsOf(`k0: &k0 [boom]\n${levels.join('')}`).map(({ code }) => code)).toEqual(['plan/aliases'])
})

test('more bands than 200 are refused', () => {
  const bands = '  - { width: 1 }\n'.repeat(201)
  expect(problemsOf(`centre: { width: 9, height: 9 }\nbands:\n${bands}`).map(placed)).toContain(
    '3:3 plan/size bands',
  )
})

test('polygons of more than 500 points are refused', () => {
  const points = Array.from({ length: 501 }, (_, i) => `[${i / 100}, 1]`).join(', ')
  const [problem] = problemsOf(`${FINE}avoid: [{ polygon: [${points}] }]`)
  expect(problem?.message).toBe('has 501 entries; allowed: at most 500')
})

test('of thousands of problems the first 500 are told', () => {
  const keys = Array.from({ length: 3000 }, (_, i) => `k${i}: 1\n`).join('')
  expect(problemsOf(FINE + keys)).toHaveLength(LIMITS.problems)
})

test('a file full of near misses is answered in time', () => {
  const name = (i: number) =>
    Array.from({ length: 76 }, (_, j) => 'abc'[(i * (j + 7) + j * j) % 3]).join('') + i
  const bands = Array.from({ length: 200 }, (_, i) => `  - { name: ${name(i)}, width: 1 }\n`).join('')
  const seams = Array.from({ length: 600 }, (_, i) => `{ inside: ${name(i + 500)} }`).join(', ')
  const begin = process.cpuUsage()
  problemsOf(`centre: { width: 9, height: 9 }\nbands:\n${bands}route: { ditch: [${seams}] }\n`)
  expect(process.cpuUsage(begin).user / 1e6).toBeLessThan(5)
})
