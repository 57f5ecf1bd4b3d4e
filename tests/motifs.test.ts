import { readdirSync } from 'node:fs'
import { expect, it } from 'vitest'
import { MOTIFS } from '../motifs/index.ts'
import { LIBRARY } from '../motifs/library.ts'

/** The names of the fillers in a folder of motifs/. */
const filesIn = (folder: string): string[] =>
  readdirSync(new URL(`../motifs/${folder}`, import.meta.url))
    .filter((name) => name.endsWith('.ts') && name !== 'index.ts' && name !== 'library.ts')
    .map((name) => name.replace(/\.ts$/, ''))
    .sort()

it.each([
  ['motifs', MOTIFS, '.'],
  ['centre fillers', LIBRARY.centres, 'centres'],
  ['corner motifs', LIBRARY.corners, 'corners'],
])('the list of %s is their folder', (_, list, folder) => {
  expect(Object.keys(list).sort()).toEqual(filesIn(folder))
})

it('there are eighteen motifs or more', () => {
  expect(Object.keys(MOTIFS).length).toBeGreaterThanOrEqual(18)
})
