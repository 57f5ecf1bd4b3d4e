import { readdirSync } from 'node:fs'
import { expect, it } from 'vitest'
import { MOTIFS } from '../motifs/index.ts'

it('the list of motifs is the folder of motifs', () => {
  const files = readdirSync(new URL('../motifs', import.meta.url))
    .filter((name) => name.endsWith('.ts') && name !== 'index.ts')
    .map((name) => name.replace(/\.ts$/, ''))
  expect(Object.keys(MOTIFS).sort()).toEqual(files.sort())
})
