import { expect, test } from 'vitest'
import { parse } from 'yaml'
import * as z from 'zod'
import { planJsonSchema } from '../../src/plan/json-schema.ts'
import { starterPlan } from '../../src/plan/starter.ts'
import { PLAN_CATALOG } from '../support/plan-catalog.ts'

interface Schema {
  readonly description?: string
  readonly default?: unknown
  readonly enum?: readonly unknown[]
  readonly properties?: Readonly<Record<string, Schema>>
  readonly additionalProperties?: boolean | Schema
  readonly items?: Schema | readonly Schema[]
  readonly anyOf?: readonly Schema[]
  readonly required?: readonly string[]
}

const { ripple, waves } = PLAN_CATALOG.motifs
const catalog = {
  ...PLAN_CATALOG,
  motifs: { ...PLAN_CATALOG.motifs, bracket: ripple!, scallop: waves!, 's-echo': waves! },
}
const schema = planJsonSchema(catalog) as Schema & { readonly $schema: string }

/** The schemas that stand one step inside of one. */
const inside = ({ properties = {}, items = [], anyOf = [], additionalProperties }: Schema): Schema[] => [
  ...Object.values(properties),
  ...[items].flat(),
  ...anyOf,
  ...(typeof additionalProperties === 'object' ? [additionalProperties] : []),
]

/** Every key with the schema of its value, wherever it stands. */
const keysOf = (at: Schema, path = ''): [string, Schema][] => [
  ...Object.entries(at.properties ?? {}).map(([key, value]): [string, Schema] => [`${path}.${key}`, value]),
  ...Object.entries(at.properties ?? {}).flatMap(([key, value]) => keysOf(value, `${path}.${key}`)),
  ...inside({ ...at, properties: {} }).flatMap((value) => keysOf(value, path)),
]

test('the schema is one of draft 7', () => {
  expect(schema.$schema).toBe('http://json-schema.org/draft-07/schema#')
})

test('every key is described', () => {
  const keys = keysOf(schema)
  expect(keys.length).toBeGreaterThan(100)
  expect(keys.filter(([, { description }]) => !description).map(([key]) => key)).toEqual([])
})

test('no key may be made up', () => {
  const groups = (at: Schema): Schema[] => [...(at.properties ? [at] : []), ...inside(at).flatMap(groups)]
  expect(groups(schema).filter(({ additionalProperties }) => additionalProperties !== false)).toEqual([])
})

test('only the centre and the bands must be given', () => {
  expect(schema.required).toEqual(['centre', 'bands'])
})

test('a default is told to the editor and to the reader', () => {
  const at = (...path: string[]) =>
    path.reduce<Schema | undefined>((found, key) => found?.properties?.[key], schema)
  expect(at('units')).toMatchObject({
    default: 'in',
    enum: ['in', 'cm', 'mm'],
    description: expect.stringContaining('in unless said'),
  })
  expect(at('machine', 'speed')).toMatchObject({
    default: 600,
    description: expect.stringContaining('stitches per minute'),
  })
  expect(at('stitch', 'length')?.description).toContain('2.5 mm unless said')
  expect(at('binding')?.description).toContain('0.25 in unless said')
})

test('fillers, their values and corner motifs are listed', () => {
  const text = JSON.stringify(schema)
  for (const name of ['ripple', 'waves', 'grid', 'star', 'lattice', 'diamonds'])
    expect(text).toContain(`"${name}"`)
  expect(text).toContain('Spacing, a length of 5.08 to 25.4 mm; 0.25 x the band')
})

test('by the schema alone a sound plan passes and unsound ones do not', () => {
  // Read back by another part of the zod package, which knows the schema only.
  const check = z.fromJSONSchema(schema as never)
  const plan = parse(starterPlan()) as Record<string, unknown>
  expect(check.safeParse(plan).success).toBe(true)
  const bands = (band: object) => ({ ...plan, bands: [band] })
  expect(
    check.safeParse(bands({ width: '1 1/2 in', filler: { waves: { spacing: '1 cm', tip: 'sharp' } } }))
      .success,
  ).toBe(true)
  expect(
    check.safeParse(bands({ width: 1, pieced: { unit: 'squares' }, filler: { dark: 'arcs' } })).success,
  ).toBe(true)
  // A word could be a motif that the plan draws itself: the reader knows, the schema does not.
  expect(check.safeParse(bands({ width: 1, filler: 'no such filler' })).success).toBe(false)
  expect(check.safeParse(bands({ width: 1, filler: { waves: { tip: 'blunt' } } })).success).toBe(false)
  expect(check.safeParse(bands({ widht: 1 })).success).toBe(false)
  expect(check.safeParse({ ...plan, units: 'ft' }).success).toBe(false)
  expect(check.safeParse({ ...plan, centre: { width: 1 } }).success).toBe(false)
})

test('a catalog without anything in it still has a schema', () => {
  expect(() => planJsonSchema({ motifs: {} })).not.toThrow()
})
