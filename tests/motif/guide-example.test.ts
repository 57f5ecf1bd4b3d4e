import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Motif } from '../../src/motif/contract.ts'
import { assertLaw, assertParams, defaultCases, LAWS, leavesEdges } from '../support/motif-laws.ts'

const guide = readFileSync(new URL('../../DEVELOPERS.md', import.meta.url), 'utf8')
const root = fileURLToPath(new URL('../../', import.meta.url))

/** The guide's only block of TypeScript that declares a motif. */
const examples = [...guide.matchAll(/```ts\n(.*?)```/gs)]
  .map(([, code]) => code!)
  .filter((code) => code.includes('defineMotif('))

let folder = ''
let motif: Motif
beforeAll(async () => {
  // In a folder beside motifs/, so that the example's imports mean what they say.
  folder = mkdtempSync(join(root, '.guide-'))
  const file = join(folder, 'pennant.ts')
  writeFileSync(file, examples[0]!)
  motif = (await import(/* @vite-ignore */ pathToFileURL(file).href)).default
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

describe('the motif in the contributors’ guide', () => {
  it('is there, once', () => {
    expect(examples).toHaveLength(1)
    expect(guide).toContain('motifs/pennant.ts')
  })

  it.each(Object.entries(LAWS))('%s', (_, law) => {
    assertLaw(motif, law, 20)
  })

  it('has its defaults within their limits and leaves the seams', () => {
    assertParams(motif)
    for (const example of defaultCases(motif, 3)) leavesEdges(motif, example)
  })
})
