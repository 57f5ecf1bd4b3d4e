import { describe, expect, it } from 'vitest'
import { planJsonSchema } from '../../src/plan/schema.ts'

interface Node {
  readonly description?: string
  readonly properties?: Readonly<Record<string, Node>>
  readonly additionalProperties?: Node | boolean
  readonly items?: Node | readonly Node[]
  readonly anyOf?: readonly Node[]
  readonly $ref?: string
}

const root = planJsonSchema() as Node & { $schema: string }

/** Every key of the format: its path and what stands there. */
function keysOf(node: Node, path = ''): { path: string; node: Node }[] {
  const children = Object.entries(node.properties ?? {}).map(([key, child]) => ({
    path: `${path}.${key}`,
    node: child,
  }))
  const parts = [
    ...(node.anyOf ?? []),
    ...(Array.isArray(node.items) ? node.items : node.items ? [node.items as Node] : []),
    ...(typeof node.additionalProperties === 'object' ? [node.additionalProperties] : []),
  ]
  return [
    ...children,
    ...children.flatMap((child) => keysOf(child.node, child.path)),
    ...parts.flatMap((part) => keysOf(part, path)),
  ]
}

describe('the JSON Schema of a plan', () => {
  const keys = keysOf(root)

  it('is of draft 7 and knows every part', () => {
    expect(root.$schema).toBe('http://json-schema.org/draft-07/schema#')
    expect(keys.map((key) => key.path)).toEqual(
      expect.arrayContaining([
        '.centre.width',
        '.bands.width.top',
        '.thread.candidates.name',
        '.route.end.side',
      ]),
    )
  })

  it.each(keys.map(({ path, node }) => [path, node] as const))('says what %s is for', (_, node) => {
    expect(node.$ref).toBeUndefined()
    expect(node.description?.length).toBeGreaterThan(8)
  })
})
