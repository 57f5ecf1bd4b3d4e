import { readdirSync, readFileSync } from 'node:fs'
import type { RouteEdge, RouteGraph } from '../../src/route/index.ts'

const FOLDER = new URL('../data/rpp/', import.meta.url)

/** A benchmark instance with its proven optima (total costs; see tests/data/rpp/README.md for the sources). */
export interface Instance {
  readonly name: string
  readonly family: string
  readonly graph: RouteGraph
  readonly requiredLength: number
  readonly requiredCount: number
  readonly closed: number
  readonly open: number | undefined
  readonly fixed: number
}

/** Reads a `.rpp` file: prices are 1, so that cost is length. */
function readRpp(text: string): RouteGraph {
  let vertexCount = 0
  const edges: RouteEdge[] = []
  for (const line of text.split('\n')) {
    const [kind, ...rest] = line.trim().split(/\s+/)
    if (kind === 'p') vertexCount = Number(rest[1])
    if (kind !== 'r' && kind !== 'o') continue
    const [u, v, length] = rest.map(Number) as [number, number, number]
    edges.push({ u: u - 1, v: v - 1, length, required: kind === 'r', price: 1 })
  }
  return { vertexCount, edges }
}

function csvFields(line: string): string[] {
  return [...line.matchAll(/("([^"]*)"|[^,]*)(,|$)/g)].map((m) => m[2] ?? m[1]!)
}

/** All instances that are in the folder, in the order of optimum.csv. */
export function readInstances(): Instance[] {
  const [head, ...lines] = readFileSync(new URL('optimum.csv', FOLDER), 'utf8').trim().split('\n')
  const columns = csvFields(head!)
  const files = new Set(readdirSync(new URL('instances/', FOLDER)))
  return lines.flatMap((line) => {
    const values = csvFields(line)
    const field = (name: string) => values[columns.indexOf(name)]!
    const file = `${field('instance')}.rpp`
    if (!files.has(file)) return []
    const open = field('open_walk')
    return [
      {
        name: field('instance'),
        family: field('family'),
        graph: readRpp(readFileSync(new URL(`instances/${file}`, FOLDER), 'utf8')),
        requiredLength: Number(field('required_length')),
        requiredCount: Number(field('required')),
        closed: Number(field('optimum')),
        open: open === '' ? undefined : Number(open),
        fixed: Number(field('walk_1_to_V')),
      },
    ]
  })
}
