import { describe, expect, test } from 'vitest'
import { readPlan } from '../../src/plan/read-plan.ts'
import { PLAN_CATALOG } from '../support/plan-catalog.ts'
import { problemsOf } from '../support/plan-problems.ts'

/** A quilt of 24 1/2 x 14 1/2 in with its binding. */
const text = (more: string) => `centre: { width: 20, height: 10 }
bands:
  - { name: sand, width: 2, filler: waves }
${more}
`
const read = (more: string) => readPlan(text(more), PLAN_CATALOG)
const told = (more: string) => problemsOf(text(more)).map(({ code, at, message }) => [code, at, message])

const circle = (x: number, y: number) => `circle: { at: [${x}, ${y}], radius: 1 }`
const square = (x: number, y: number) =>
  `polygon: [[${x - 1}, ${y - 1}], [${x + 1}, ${y - 1}], [${x + 1}, ${y + 1}], [${x - 1}, ${y + 1}]]`

describe.each([
  ['circle', circle],
  ['square', square],
])('a %s of 2 in across', (_, shape) => {
  const warningsAt = (x: number, y: number) =>
    read(`avoid: [{ ${shape(x, y)} }]`).warnings.map(({ code, message }) => [code, message])
  const OUTSIDE = [['plan/avoid-outside', 'lies outside of the quilt, and changes nothing']]

  test.each([
    ['left', -1.1, 7],
    ['right', 25.6, 7],
    ['top', 12, -1.1],
    ['bottom', 12, 15.6],
  ])('that lies off the %s edge is told to change nothing', (_side, x, y) => {
    expect(warningsAt(x, y)).toEqual(OUTSIDE)
  })

  test.each([
    ['left', -0.9, 7],
    ['right', 25.4, 7],
    ['top', 12, -0.9],
    ['bottom', 12, 15.4],
    ['left, by its edge alone', -1, 7],
    ['top, by its edge alone', 12, -1],
  ])('that reaches the quilt from the %s is not', (_side, x, y) => {
    expect(warningsAt(x, y)).toEqual([])
  })
})

describe('a polygon to stay out of', () => {
  const pointsOf = (polygon: string) => {
    const [region] = read(`avoid: [{ polygon: ${polygon} }]`).plan.avoid
    return region?.kind === 'polygon' ? region.points : undefined
  }

  test('loses corners that lie on the one before, around its start too', () => {
    expect(pointsOf('[[5, 5], [5, 5], [9, 5], [9, 9], [5, 5]]')).toHaveLength(3)
  })

  test('of three corners of which two are one is refused', () => {
    expect(told('avoid: [{ polygon: [[5, 5], [9, 5], [9, 5]] }]')).toEqual([
      [
        'plan/polygon',
        'avoid[0].polygon',
        'is a polygon whose edges cross or touch each other; give its corners in order round its edge',
      ],
    ])
  })

  test('of three corners in a row is refused', () => {
    expect(told('avoid: [{ polygon: [[5, 5], [9, 5], [7, 5]] }]').map(([code]) => code)).toEqual([
      'plan/polygon',
    ])
  })
})

test('how the edge of a region is stitched is kept as it is said', () => {
  for (const outline of ['whole', 'as-needed'])
    expect(read(`avoid: [{ ${circle(6, 6)}, outline: ${outline} }]`).plan.avoid[0]).toMatchObject({ outline })
})
