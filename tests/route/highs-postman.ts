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

function program(graph: RouteGraph, cuts: readonly string[]): string {
  const terms = graph.edges.map((edge, e) => `${edge.length * edge.price!} x${e}`)
  const parity = Array.from({ length: graph.vertexCount }, (_, x) => {
    const at = graph.edges.flatMap((edge, e) =>
      edge.u === edge.v || (edge.u !== x && edge.v !== x) ? [] : [e],
    )
    const degree = graph.edges.reduce(
      (sum, edge) => sum + (edge.required ? Number(edge.u === x) + Number(edge.v === x) : 0),
      0,
    )
    return at.length > 0 ? ` p${x}: ${at.map((e) => `x${e}`).join(' + ')} - 2 z${x} = ${-degree}` : ''
  })
  const bounds = graph.edges.map((edge, e) => ` 0 <= x${e} <= ${edge.required ? 1 : 2}`)
  const general = [...graph.edges.keys()]
    .map((e) => `x${e}`)
    .concat(Array.from({ length: graph.vertexCount }, (_, x) => `z${x}`))
  const rows = [...parity.filter((row) => row !== ''), ...cuts]
  return `Minimize\n obj: ${terms.join(' + ')}\nSubject To\n${rows.join('\n')}\nBounds\n${bounds.join('\n')}\nGeneral\n ${general.join(' ')}\nEnd\n`
}

/**
 * The least extra of a closed walk by integer programming: parity at every vertex, and a cut for every piece that a
 * solution leaves apart, until none is.
 *
 * @source Corberán & Sanchis, EJOR 79 (1994); solved by HiGHS, gap 0
 */
export function closedExtraByProgram(highs: Highs, graph: RouteGraph): number {
  const on = new Set(graph.edges.flatMap((edge) => (edge.required ? [edge.u, edge.v] : [])))
  const cuts: string[] = []
  for (;;) {
    const solved = highs.solve(program(graph, cuts), { mip_rel_gap: 0, mip_abs_gap: 0 })
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
