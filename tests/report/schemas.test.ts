import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { exportDrawing } from '../../src/export/index.ts'
import { lineJsonSchema } from '../../src/export/line-json.ts'
import { planFromText } from '../../src/pipeline.ts'
import { planJsonSchema } from '../../src/plan/json-schema.ts'
import { reportJsonSchema } from '../../src/report/report.ts'
import { SAMPLES } from '../support/samples.ts'

interface Schema {
  readonly $schema: string
  readonly type: string
  readonly properties: Readonly<Record<string, unknown>>
  readonly required: readonly string[]
  readonly additionalProperties: boolean
}
const asSchema = (schema: unknown) => JSON.parse(JSON.stringify(schema)) as Schema

describe('the schemas of the public formats', () => {
  const planned = planFromText(SAMPLES['star-harbour']!, catalogOf(LIBRARY))

  it('are JSON Schema draft 7 of a group of keys', () => {
    for (const schema of [planJsonSchema(catalogOf(LIBRARY)), reportJsonSchema(), lineJsonSchema()]) {
      const { $schema, type, properties } = asSchema(schema)
      expect($schema).toBe('http://json-schema.org/draft-07/schema#')
      expect(type).toBe('object')
      expect(Object.keys(properties).length).toBeGreaterThan(4)
    }
  })

  it('name just the keys that are written', async () => {
    const line = JSON.parse((await exportDrawing('line-json', planned.drawing)) as string) as object
    for (const [schema, file] of [
      [reportJsonSchema(), planned.report],
      [lineJsonSchema(), line],
    ] as const) {
      const { properties, required, additionalProperties } = asSchema(schema)
      // Only a plan for a frame tells of a frame, only one with open choices of choices, only an all-over of that.
      const sometimes = ['frame', 'choices', 'allOver']
      const everywhere = Object.keys(properties).filter((key) => !sometimes.includes(key))
      expect(Object.keys(file).sort()).toEqual(everywhere.sort())
      expect(Object.keys(file)).toEqual(expect.arrayContaining([...required]))
      expect(additionalProperties).toBe(false)
    }
  })
})

describe('a quilt with pieced bands', () => {
  const { report, drawing } = planFromText(SAMPLES['star-harbour']!, catalogOf(LIBRARY))

  it('names the fillers of patches, and counts their bands as quilted', () => {
    for (const band of report.bands) {
      expect(band.filler).not.toBeNull()
      expect(band.walkingFoot).not.toBeNull()
    }
  })

  it('has swatches with the colours of the patches, whose shares add up to one', () => {
    const stars = drawing.swatches!.find((swatch) => swatch.band === 'stars')!
    expect(stars.fabrics).toHaveLength(2)
    expect(stars.fabrics.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9)
  })

  it('has strips for the bands that a filler runs along, and none for those filled patch by patch', () => {
    const names = new Set(drawing.strips!.map((strip) => report.bands[strip.band]!.name))
    expect([...names].sort()).toEqual(['sand', 'shore', 'swell'])
  })
})
