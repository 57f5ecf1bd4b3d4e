import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { PlanError, type Problem } from '../../src/error.ts'
import { refuseTooMuch } from '../../src/estimate-work.ts'
import { strokeLength } from '../../src/geometry/stroke.ts'
import { acceptPlan, fillQuilt } from '../../src/pipeline.ts'
import { LIMITS } from '../../src/plan/limits.ts'
import { readPlan } from '../../src/plan/read-plan.ts'

const CATALOG = catalogOf(LIBRARY)

const textOf = (data: object): string => JSON.stringify({ units: 'mm', ...data })
const repeated = (count: number, band: object): object[] => Array.from({ length: count }, () => band)

/** What a plan is refused for, within two seconds of work. */
function refusalsOf(data: object): readonly Problem[] {
  const before = process.cpuUsage()
  let problems: readonly Problem[] = []
  try {
    acceptPlan(textOf(data), CATALOG)
  } catch (error) {
    if (!(error instanceof PlanError)) throw error
    problems = error.problems
  }
  const { user, system } = process.cpuUsage(before)
  expect((user + system) / 1e6).toBeLessThan(2)
  return problems
}

const LARGE = { width: 9900, height: 9900 }
const SMALL = { width: 300, height: 300 }

describe('more work than fits into memory is refused before it starts', () => {
  it('for a dense centre, with its place, what it takes and what is allowed', () => {
    const [problem, ...others] = refusalsOf({
      centre: { ...LARGE, filler: { swirl: { spacing: 3 } } },
      bands: [{ width: 20 }],
    })
    expect(others).toEqual([])
    expect(problem).toMatchObject({ code: 'plan/too-much-line', at: 'centre.filler' })
    expect(problem!.message).toMatch(
      /^the quilt takes about \d\d km of line, \d\d km of line of it here; allowed: at most 12 km of line$/,
    )
    expect(problem!.position).toEqual({ line: 1, column: expect.any(Number) })
  })

  it('for dense bands, where most of the line lies', () => {
    const bands = [
      ...repeated(10, { width: 200, filler: { meander: { spacing: 3 } } }),
      { width: 390, filler: { meander: { spacing: 3 } } },
    ]
    const problems = refusalsOf({ centre: { width: 5000, height: 5000 }, bands })
    expect(problems).toMatchObject([{ code: 'plan/too-much-line', at: 'bands[10].filler' }])
  })

  it('for many small patches', () => {
    const pieced = { unit: 'squares', size: 4 }
    const problems = refusalsOf({
      centre: { width: 2000, height: 2000 },
      bands: repeated(5, { width: 40, pieced, filler: { dark: 'spiral' } }),
    })
    expect(problems).toMatchObject([{ code: 'plan/too-many-patches', at: 'bands[4].pieced' }])
    expect(problems[0]!.message).toMatch(
      /^the quilt takes about 110,000 patches, .* of it here; allowed: at most 20,000 patches$/,
    )
  })

  it('for patches that are filled densely', () => {
    const filler = { dark: { echo: { spacing: 2.54 } }, light: { echo: { spacing: 2.54 } } }
    const problems = refusalsOf({
      centre: { width: 5500, height: 5500 },
      bands: repeated(10, { width: 200, pieced: { unit: 'squares' }, filler }),
    })
    expect(problems).toMatchObject([{ code: 'plan/too-much-line', at: 'bands[9].filler' }])
  })

  it('but not for a quilt as large as they come, with its usual fillers', () => {
    expect(refusalsOf({ centre: SMALL, bands: repeated(200, { width: 24, filler: 'bracket' }) })).toEqual([])
  })
})

/** Length of all fillers as they are drawn, mm. */
function drawn(data: object): number {
  const { pieces } = fillQuilt(readPlan(textOf(data), CATALOG).plan, CATALOG)
  return pieces.pieces.reduce((sum, { stroke }) => sum + strokeLength(stroke), 0)
}

/** The same as it is estimated. */
function estimated(data: object): number {
  const limits = LIMITS as { line: number }
  const kept = limits.line
  limits.line = 0
  try {
    const [problem] = refuseTooMuch(readPlan(textOf(data), CATALOG).plan, CATALOG)
    return 1e6 * Number(/about ([\d.e-]+) km/.exec(problem!.message)![1])
  } finally {
    limits.line = kept
  }
}

describe('the estimate of a line', () => {
  const bands = Object.entries(LIBRARY.motifs).map(([filler, { suits }]) => {
    const width = Math.sqrt(suits.min * suits.max)
    return [filler, { centre: { width: 1500, height: 1400 }, bands: [{ width, filler }] }] as const
  })
  const centres = Object.keys(LIBRARY.centres).map(
    (filler) => [filler, { centre: { width: 900, height: 800, filler }, bands: [{ width: 20 }] }] as const,
  )

  it.each([...bands, ...centres])('of %s is right within a half', (_, data) => {
    const share = estimated(data) / drawn(data)
    expect(share).toBeGreaterThan(0.5)
    expect(share).toBeLessThan(1.6)
  })
})
