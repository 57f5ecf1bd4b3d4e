// Draws the architecture from the imports in src/ and motifs/ into DEVELOPERS.md: npm run architecture
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join, normalize } from 'node:path'
import { fileURLToPath } from 'node:url'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const GUIDE = join(ROOT, 'DEVELOPERS.md')
const BETWEEN = /(<!-- architecture -->\n)[\s\S]*?(\n<!-- end of architecture -->)/

type Imports = ReadonlyMap<string, ReadonlySet<string>>

/** A file's part of the program: its folder below src/, the motifs, or itself if it lies in src/ alone. */
function partOf(file: string): string {
  const [top, next = ''] = file.split('/')
  return top === 'src' ? next.replace(/\.tsx?$/, '') : top!
}

/** Which parts import from which. */
function importsOfParts(): Imports {
  const imports = new Map<string, Set<string>>()
  for (const top of ['src', 'motifs']) {
    for (const name of readdirSync(join(ROOT, top), { recursive: true, encoding: 'utf8' })) {
      if (!/\.tsx?$/.test(name) || name.endsWith('.d.ts')) continue
      const file = normalize(`${top}/${name}`)
      const part = partOf(file)
      const known = imports.get(part) ?? new Set()
      imports.set(part, known)
      const text = readFileSync(join(ROOT, file), 'utf8')
      for (const [, path] of text.matchAll(/(?:from|import)\s*\(?\s*'(\.[^'?]+)/g)) {
        const target = partOf(normalize(join(dirname(file), path!)))
        if (target !== part && (target === 'motifs' || !target.includes('.'))) known.add(target)
      }
    }
  }
  return imports
}

/** Whether one part imports another by way of others. */
function reaches(imports: Imports, [from, to]: readonly [string, string], seen = new Set<string>()): boolean {
  for (const next of imports.get(from) ?? []) {
    if (seen.has(next)) continue
    seen.add(next)
    if (next === to || reaches(imports, [next, to], seen)) return true
  }
  return false
}

/** The imports as a picture: an arrow from A to B for "A imports B", but none where the way leads over others anyway. */
export function architecturePicture(imports: Imports = importsOfParts()): string {
  const arrows = [...imports].flatMap(([part, targets]) =>
    [...targets]
      .filter((to) => ![...targets].some((by) => by !== to && reaches(imports, [by, to])))
      .map((to) => `  ${part} --> ${to}`),
  )
  return ['```mermaid', 'flowchart TD', ...arrows.sort(), '```'].join('\n')
}

/** The picture that stands in the guide. */
export const picturedNow = (): string =>
  BETWEEN.exec(readFileSync(GUIDE, 'utf8'))?.[0].split('\n').slice(1, -1).join('\n') ?? ''

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const guide = readFileSync(GUIDE, 'utf8')
  writeFileSync(
    GUIDE,
    guide.replace(BETWEEN, (_, begin, end) => `${begin}${architecturePicture()}${end}`),
  )
}
