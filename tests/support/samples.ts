import { readdirSync, readFileSync } from 'node:fs'

const folder = new URL('../../samples/', import.meta.url)

/** Every plan file in samples/, by name. */
export const SAMPLES: Readonly<Record<string, string>> = Object.fromEntries(
  readdirSync(folder)
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => [name.replace('.yaml', ''), readFileSync(new URL(name, folder), 'utf8')]),
)
