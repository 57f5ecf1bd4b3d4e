import { describe, expect, test } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { planJsonSchema } from '../../src/plan/json-schema.ts'
import { type Option, planOptions } from '../../src/plan/options.ts'

const options = planOptions()

/** Every option within one, with its path. */
function* within(option: Option, path: string): Generator<readonly [string, Option]> {
  yield [path, option]
  if (option.kind === 'group')
    for (const [key, part] of Object.entries(option.of)) yield* within(part, `${path}.${key}`)
  if (option.kind === 'list' || option.kind === 'by-name') yield* within(option.of, `${path}[]`)
  if (option.kind === 'row' || option.kind === 'either')
    for (const part of option.of) yield* within(part, `${path}[]`)
}
const all = Object.entries(options).flatMap(([key, option]) => [...within(option, key)])
const at = (path: string) => all.find(([other]) => other === path)?.[1]

describe('the keys of the plan file as data', () => {
  test('are those of its JSON Schema, in the same order', () => {
    const schema = planJsonSchema(catalogOf(LIBRARY)) as { properties: Record<string, unknown> }
    expect(Object.keys(options)).toEqual(Object.keys(schema.properties))
  })

  test('are lengths wherever their words say so, and nowhere else numbers or texts that could be lengths', () => {
    for (const [path, option] of all) {
      if (/(^|, )a length$/.test(option.about)) expect(option.kind, path).toBe('length')
      if (option.kind === 'length') expect(option.about + path, path).toMatch(/length|\[\]$/)
    }
  })

  test('tell what is usual apart from what they are', () => {
    expect(at('machine.speed')).toMatchObject({ kind: 'number', isOptional: true, usual: '600' })
    expect(at('route.work')).toMatchObject({ kind: 'choice', of: ['any', 'areas', 'laps'], usual: 'any' })
    expect(at('bands[].fabric')).toMatchObject({ kind: 'fabric' })
    expect(at('bands[].width')).toMatchObject({ kind: 'length-of-sides' })
    expect(at('thread.waste')).toMatchObject({ kind: 'share' })
    for (const [path, { about }] of all) expect(about, path).not.toContain('unless said')
  })

  test('name each choice once, though a number may stand for its word', () => {
    const bobbins = at('thread.bobbin[].class') as { of: readonly string[] }
    expect([...bobbins.of].sort()).toEqual(['15', 'L', 'M'])
    for (const [path, option] of all)
      if (option.kind === 'choice') expect(new Set(option.of).size, path).toBe(option.of.length)
  })

  test('can be sent to another thread as they are', () => {
    expect(structuredClone(options)).toEqual(options)
  })
})
