import { expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { closeValues } from '../../src/choose/close-values.ts'
import { Measure } from '../../src/choose/measure.ts'
import { sampleCentre, samplePatch, sampleStrip } from '../../src/choose/sample-fills.ts'
import type { Point } from '../../src/geometry/point.ts'
import { PATCH_FILLERS } from '../../src/pieces/patch-fillers/index.ts'
import { defaultValues } from '../../src/plan/settle-filler.ts'

const kinds = {
  motif: LIBRARY.motifs,
  'filler for the centre': LIBRARY.centres,
  'filler for patches': PATCH_FILLERS,
}
const all = Object.entries(kinds).flatMap(([kind, list]) =>
  Object.entries(list).map(([name, known]) => ({ what: `${kind} ${name}`, known })),
)
const SQUARE: readonly Point[] = [
  [0, 0],
  [90, 0],
  [90, 90],
  [0, 90],
]

it.each(all)('the closeness of the $what is one of its lengths', ({ known: { closeness, params } }) => {
  if (closeness !== undefined) expect(params[closeness]?.kind).toBe('length')
})

it.each(Object.entries(LIBRARY.motifs).filter(([, { closeness }]) => closeness !== undefined))(
  'a strip of %s is stitched no less densely the smaller its closeness is',
  (name, motif) => {
    const width = Math.min(motif.suits.max, Math.max(motif.suits.min, 60))
    const usual = defaultValues(motif.params, width)
    const key = motif.closeness!
    const density = (factor: number) => {
      const param = motif.params[key] as { min: number; max: number }
      const value = Math.min(param.max, Math.max(param.min, factor * (usual[key] as number)))
      return new Measure(sampleStrip({ name, motif, values: { ...usual, [key]: value } }, width)).perArea
    }
    expect(density(0.6)).toBeGreaterThanOrEqual(0.999 * density(1))
    expect(density(1)).toBeGreaterThanOrEqual(0.999 * density(1.7))
    expect(density(0.6)).toBeGreaterThan(1.05 * density(1.7))
  },
)

it('a sample of lines is as dense as lines are apart, and its gap as wide', () => {
  const rails = { strokes: [10, 20, 30, 40, 50].map((y) => line([0, y], [300, y])), outline: box(300, 60) }
  const measure = new Measure(rails)
  expect(measure.perArea).toBeCloseTo((5 * 300) / (300 * 60), 10)
  expect(measure.gapMm).toBeCloseTo(10, 0)
  expect(measure.suitsWalkingFoot).toBe(true)
})

it('a crosshatch’s sample is as dense as its lines are apart: two sets of them', () => {
  // Lines a distance d apart are 1 / d of line to the area; two sets of them twice that: by hand.
  const { crosshatch } = LIBRARY.centres
  const measure = new Measure(sampleCentre({ filler: crosshatch!, values: { spacing: 20 } }, [600, 800]))
  expect(measure.perArea).toBeGreaterThan(0.9 * (2 / 20))
  expect(measure.perArea).toBeLessThan(1.1 * (2 / 20))
  const patch = { name: 'crosshatch', filler: PATCH_FILLERS.crosshatch!, values: { spacing: 9 } }
  expect(new Measure(samplePatch(patch, SQUARE)).perArea).toBeGreaterThan(0.7 * (2 / 9))
})

it('values to try are marks of a ruler within what the parameter allows, with the usual one among them', () => {
  const param = { kind: 'length', label: 'Repeat', default: 30, min: 12, max: 200 } as const
  for (const units of ['in', 'mm'] as const) {
    const values = closeValues(param, { usual: 30, limit: 200, units, steps: 'fine' })
    expect(values).toContain(30)
    expect(Math.min(...values)).toBe(12)
    expect(Math.max(...values)).toBeLessThanOrEqual(200)
    expect(values).toEqual([...values].sort((a, b) => a - b))
    const mark = units === 'in' ? 25.4 / 32 : 0.25
    for (const value of values.filter((v) => ![12, 30, 200].includes(v)))
      expect(Math.abs(value / mark - Math.round(value / mark))).toBeLessThan(1e-4)
  }
})

const line = (from: Point, to: Point) => ({ start: from, segments: [{ kind: 'line', to } as const] })
const box = (width: number, height: number): Point[] => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
]
