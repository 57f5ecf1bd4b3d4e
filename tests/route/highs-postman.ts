import type highsLoader from 'highs'
import type { RouteGraph } from '../../src/route/index.ts'

type Highs = Awaited<ReturnType<typeof highsLoader>>

/** The pieces of the required edges and the extra passes, as a label per vertex. */
function labels(graph: RouteGraph, passes: readonly number[]): number[] {
  const label = Array.from({ length: graph.vertexCount }, (_, x) => x)
  graph.edges.forEach((edge, e) => {
    if (!edge.required && passes[e] === 0) return
    const [from, to] = [label[edge.u]!, label[edge.v]!]
    label.forEach((l, x) => {
      if (l === from) label[x] = to
    })
  })
  return label
}

/** Parity at every vertex that has edges, as a row each: extra passes and required degree together are even. */
function parityRows(graph: RouteGraph): Map<number, string> {
  const terms = new Map<number, string[]>()
  const degrees = new Map<number, number>()
  graph.edges.forEach(({ u, v, required }, e) => {
    if (u === v) return
    for (const x of [u, v]) {
      const at = terms.get(x)
      if (at) at.push(`x${e}`)
      else terms.set(x, [`x${e}`])
      degrees.set(x, (degrees.get(x) ?? 0) + Number(required))
    }
  })
  return new Map(
    [...terms].map(([x, at]) => [x, ` p${x}: ${at.join(' + ')} - 2 z${x} = ${-degrees.get(x)!}`]),
  )
}

/** The program without the cuts: its objective and rows before them, and its bounds after. */
function programAround(graph: RouteGraph): [before: string, after: string] {
  const terms = graph.edges.map((edge, e) => `${edge.length * edge.price!} x${e}`)
  const parity = parityRows(graph)
  const bounds = graph.edges.map((edge, e) => ` 0 <= x${e} <= ${edge.required ? 1 : 2}`)
  const general = [...graph.edges.map((_, e) => `x${e}`), ...[...parity.keys()].map((x) => `z${x}`)]
  return [
    `Minimize\n obj: ${terms.join(' + ')}\nSubject To\n${[...parity.values()].join('\n')}\n`,
    `Bounds\n${bounds.join('\n')}\nGeneral\n ${general.join(' ')}\nEnd\n`,
  ]
}

/**
 * The least extra of a closed walk by integer programming: parity at every vertex, and a cut for every piece that a
 * solution leaves apart, until none is.
 *
 * @param rows  further conditions on the extra passes `x` by the number of the edge
 * @source Corberán & Sanchis, EJOR 79 (1994); solved by HiGHS, gap 0
 */
export function closedExtraByProgram(highs: Highs, graph: RouteGraph, rows: readonly string[] = []): number {
  const on = new Set(graph.edges.flatMap((edge) => (edge.required ? [edge.u, edge.v] : [])))
  const [before, after] = programAround(graph)
  const cuts = [...rows]
  for (;;) {
    const solved = highs.solve(`${before}${cuts.join('\n')}\n${after}`, { mip_rel_gap: 0, mip_abs_gap: 0 })
    if (solved.Status !== 'Optimal') throw new Error(`HiGHS ended with ${solved.Status}`)
    const columns = solved.Columns as Record<string, { Primal: number }>
    const passes = graph.edges.map((_, e) => Math.round(columns[`x${e}`]!.Primal))
    const label = labels(graph, passes)
    const pieces = new Set([...on].map((x) => label[x]!))
    if (pieces.size <= 1) return solved.ObjectiveValue
    for (const piece of pieces) {
      const across = graph.edges.flatMap((edge, e) =>
        (label[edge.u] === piece) !== (label[edge.v] === piece) ? [`x${e}`] : [],
      )
      cuts.push(` c${cuts.length}: ${across.join(' + ')} >= 2`)
    }
  }
}

/** No solution passes again over an edge of this price. */
const NEVER = 1e6

/** The least extra of a walk between two given vertices: that of a closed walk which comes back by an edge of its own. */
export const extraBetweenByProgram = (
  highs: Highs,
  graph: RouteGraph,
  [u, v]: readonly [number, number],
): number =>
  closedExtraByProgram(highs, {
    ...graph,
    edges: [...graph.edges, { u, v, length: 1, required: true, price: NEVER }],
  })

/**
 * The least extra of a walk that may begin and end anywhere: that of a closed walk which passes once, at no cost, by a
 * vertex joined to all that have required edges.
 */
export function openExtraByProgram(highs: Highs, graph: RouteGraph): number {
  const on = new Set(graph.edges.flatMap((edge) => (edge.required ? [edge.u, edge.v] : [])))
  const joins = [...on].map((v) => ({ u: graph.vertexCount, v, length: 1, required: false, price: 0 }))
  const once = joins.map((_, i) => `x${graph.edges.length + i}`).join(' + ')
  const joined = { vertexCount: graph.vertexCount + 1, edges: [...graph.edges, ...joins] }
  return closedExtraByProgram(highs, joined, [` once: ${once} = 2`])
}
