import { LIBRARY } from '../motifs/library.ts'
import { catalogOf } from '../src/engine-input.ts'
import { fillQuilt, lineTaskOf } from '../src/pipeline.ts'
import { readPlan } from '../src/plan/read-plan.ts'
import { tieNet } from '../src/pieces/net.ts'
import { askDitches } from '../src/pieces/ask-ditches.ts'
import { routeGraph } from '../src/pieces/route-graph.ts'
import { lapOrders } from '../src/pieces/lap-orders.ts'
import { placeVertex } from '../src/pieces/place-vertex.ts'
import { UnionFind } from '../src/route/union-find.ts'
const CATALOG = catalogOf(LIBRARY)
const text = `{"units":"mm","centre":{"width":165.1,"height":155.575,"filler":"echo-rails"},"bands":[{"width":66.675,"pieced":{"unit":"square-on-point"},"filler":{"diamond":"spiral","triangle":"spiral"}},{"width":{"top":88.89999999999999,"right":79.375,"bottom":76.19999999999999,"left":85.725},"filler":"echo-rails","corners":"butted","fabric":"#3f6f86","sides":{"top":"s-echo","right":"crosshatch"}},{"width":{"top":73.02499999999999,"right":76.19999999999999,"bottom":76.19999999999999,"left":82.55},"filler":"none","corners":"cornerstone","fabric":"navy","sides":{"top":"none","right":"echo-rails"},"cornerstone":"echo-square"}],"title":"x","machine":{"kind":"domestic","reach":[300,300]},"route":{"start":{"band":"band 2","side":"right"},"end":{"band":"band 1","side":"left"},"order":"any","work":"laps","ditch":"all"},"measured":[{"band":"band 1","across":[299.84999999999997,296.84999999999997,299.55],"down":[286.725,287.425,285.925]}],"seed":3}`
const filled = fillQuilt(readPlan(text, CATALOG).plan, CATALOG)
const task = lineTaskOf(filled)
const { quilt, pieces, wishes } = task
const net = askDitches(tieNet(quilt, pieces), pieces, wishes.ditch)
const graph = routeGraph(net, pieces)
const start = placeVertex(wishes.start, { quilt, pieces, net }, 's')!
const end = placeVertex(wishes.end, { quilt, pieces, net }, 'e')!
for (const x of [start, end]) { console.log(x, net.positions[x]); graph.edges.forEach((e, i) => { if (e.u === x || e.v === x) console.log(' ', i, e, i < net.fills.length ? pieces.pieces[i]!.band : net.seams[i - net.fills.length]) }) }
const uf = new UnionFind(graph.vertexCount); graph.edges.forEach(e => uf.union(e.u, e.v))
const roots = new Map(); graph.edges.forEach((e, i) => { if (e.required) { const r = uf.find(e.u); roots.set(r, [...(roots.get(r) ?? []), i]) } })
console.log([...roots].map(([r, es]) => [r, es.length]), uf.find(start), uf.find(end))
console.log(lapOrders(pieces, net, wishes.order).map(o => o.map(a => [Array.isArray(a) ? a.length : a, (a as number[]).slice(0,2).map(i => i < net.fills.length ? pieces.pieces[i]!.band : 'seam')])).map(x => JSON.stringify(x)))
import { ditchesFirst } from '../src/pieces/ask-ditches.ts'
import { solveByAreas } from '../src/route/index.ts'
const orders = lapOrders(pieces, net, wishes.order)
const firsts = ditchesFirst(orders, net, wishes.ditch)
console.log(wishes.ditch, wishes.ditchOrder, firsts.map(o => o.map(a => (a as number[]).length)))
for (const [n, plans] of Object.entries({ orders, firsts })) for (const plan of plans) for (const ends of [{}, { start }, { end }, { start, end }]) {
  try { const r = solveByAreas(graph, { plans: [plan], seed: 1, ...ends }); console.log(n, Object.keys(ends), r.walks.length, r.cost) } catch (e) { console.log(n, Object.keys(ends), (e as Error).message) }
}
