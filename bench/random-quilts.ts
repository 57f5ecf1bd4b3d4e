// Random bordered quilts: starts, overlap and travel beside their proven bounds, moves beside the area that is stitched.
// Run: npx tsx bench/random-quilts.ts [quilts] [seed] [pieced bands of eight] [chunk]
// Quilts come in chunks of ten, each from a seed of its own; a chunk's number alone plans that chunk and shows its plans.
import fc from 'fast-check'
import { LIBRARY } from '../motifs/library.ts'
import { catalogOf, reachOf } from '../src/engine-input.ts'
import { distance, type Point } from '../src/geometry/point.ts'
import { planLine } from '../src/pieces/plan-line.ts'
import { fillQuilt, lineTaskOf } from '../src/pipeline.ts'
import { readPlan } from '../src/plan/read-plan.ts'
import { bandArea } from '../src/report/band-area.ts'
import { measureLines } from '../src/report/measure-line.ts'
import { lowerBound, type RouteGraph } from '../src/route/index.ts'
import { anyQuilt } from '../tests/support/random-plans.ts'

const CHUNK = 10
const count = Number(process.argv[2] ?? 100)
const seed = Number(process.argv[3] ?? 1)
const pieced = Number(process.argv[4] ?? 0)
const only = process.argv[5] === undefined ? undefined : Number(process.argv[5])

const catalog = catalogOf(LIBRARY)

type PlanFile = ReturnType<typeof anyQuilt> extends fc.Arbitrary<infer T> ? T : never

interface Result {
  /** Chunk and place in it. */
  readonly name: string
  readonly file: PlanFile
  readonly bands: number
  readonly starts: number
  readonly startsBound: number
  /** What is stitched over beyond what must be, as a share of the line. */
  readonly overlapGap: number
  readonly extra: number
  readonly moves: number
  /** Area of the whole quilt, and of its quilted bands, in areas of the reach. */
  readonly quiltAreas: number
  readonly bandAreas: number
  /** No work moves the quilt less often: so many reaches cover its outermost quilted seam or its quilted area. */
  readonly movesBound: number
  /** So often it would be moved if bands went in the best groups and every area filled the reach. */
  readonly idealMoves: number
  readonly ms: number
}

const cpuMs = (): number => process.cpuUsage().user / 1000

/** The least length that must be stitched over, whatever is travelled, mm. */
const overlapBound = ({ edges, ...graph }: RouteGraph): number =>
  lowerBound(
    { ...graph, edges: edges.map(({ price: _, ...edge }) => edge) },
    { prices: { travel: 0, overlap: 1 } },
  ).cost

type Reach = readonly [width: number, height: number]

/** How many reaches cover a ring: one a corner, the rest along its sides. A side longer than its reaches needs more. */
function reachesRound(ring: readonly Point[], [width, height]: Reach): number {
  const side = (i: number) => distance(ring[i]!, ring[(i + 1) % ring.length]!)
  const along = (length: number, reach: number) => Math.max(1, Math.ceil(length / reach - 1e-9))
  const across = along(Math.max(side(0), side(2)), width)
  const down = along(Math.max(side(1), side(3)), height)
  return across === 1 || down === 1 ? across * down : 2 * (across + down) - 4
}

/** How many reaches cover the bands `first` to `last`, in rows as deep as the reach. */
function reachesOver(
  rings: readonly (readonly Point[])[],
  [first, last]: readonly [number, number],
  reach: Reach,
): number {
  const outer = rings[last + 1]!
  if (reachesRound(outer, reach) === 1) return 1
  const inner = rings[first]!
  const far = (k: 0 | 1) => inner.map((p, i) => Math.abs(p[k] - outer[i]![k]))
  const rows = Math.ceil(Math.max(...far(0), ...far(1)) / Math.min(...reach) - 1e-9)
  return rows * reachesRound(outer, reach)
}

/**
 * The moves if bands side by side went in the best groups of odd number and every area filled the reach. It is what groups
 * worked there and back can come to, not a bound on all work.
 */
function idealMovesOf(
  rings: readonly (readonly Point[])[],
  stitched: ReadonlySet<number>,
  reach: Reach,
): number {
  const least: number[] = [0]
  const count = rings.length - 1
  for (let end = 1; end <= count; end++) {
    least[end] = stitched.has(end - 1) ? Number.POSITIVE_INFINITY : least[end - 1]!
    for (let first = end - 1; first >= 0 && stitched.has(first); first -= 2) {
      least[end] = Math.min(least[end]!, least[first]! + reachesOver(rings, [first, end - 1], reach))
      if (first === 0 || !stitched.has(first - 1)) break
    }
  }
  return least[count]! - 1
}

function resultOf(file: PlanFile, name: string): Result {
  const { plan } = readPlan(JSON.stringify(file), catalog)
  const start = cpuMs()
  const filled = fillQuilt(plan, catalog)
  const { graph, route, lines } = planLine(lineTaskOf(filled))
  const ms = cpuMs() - start
  const figures = measureLines(lines, { reach: reachOf(plan) })
  const [width, height] = reachOf(plan)
  const stitched = new Set(filled.pieces.pieces.map(({ band }) => band))
  const area = [...stitched].reduce((sum, band) => sum + bandArea(filled.quilt, band), 0)
  const { quilt } = filled
  return {
    name,
    file,
    bands: stitched.size,
    starts: route.walks.length,
    startsBound: route.startsBound,
    overlapGap: (route.overlapMm - overlapBound(graph)) / figures.lengthMm,
    extra: (figures.overlapMm + figures.travelMm) / figures.lengthMm,
    moves: figures.repositions.length,
    quiltAreas: (quilt.widthMm * quilt.heightMm) / (width * height),
    bandAreas: area / (width * height),
    movesBound:
      Math.max(
        reachesRound(quilt.rings[Math.max(...stitched) + 1]!, [width, height]),
        Math.ceil(area / (width * height)),
      ) - 1,
    idealMoves: idealMovesOf(quilt.rings, stitched, [width, height]),
    ms,
  }
}

const median = (values: readonly number[]): number => {
  const order = [...values].sort((a, b) => a - b)
  const half = order.length / 2
  return order.length % 2 === 1 ? order[Math.floor(half)]! : (order[half - 1]! + order[half]!) / 2
}
const percent = (share: number, digits = 2): string => (100 * share).toFixed(digits)
const share = (results: readonly Result[], holds: (result: Result) => boolean): number =>
  results.filter(holds).length / results.length

const perQuilt = ({ moves, quiltAreas }: Result): number => moves / quiltAreas
const perBands = ({ moves, bandAreas }: Result): number => moves / bandAreas
const ideal = ({ idealMoves, quiltAreas }: Result): number => idealMoves / quiltAreas
const perBound = ({ moves, movesBound }: Result): number => moves / Math.max(1, movesBound)

const HEADS = [
  'quilted bands',
  'quilts',
  'starts at the bound',
  'worst overlap over the bound, %',
  'median travel and overlap, %',
  'moves / quilt area',
  'moves / quilted area',
  'moves / bound',
  'the same, areas full / quilt area',
  'median ms',
] as const

function classRow(name: string, results: readonly Result[]): void {
  if (results.length === 0) return
  const cells = [
    name,
    results.length,
    `${percent(
      share(results, (r) => r.starts === r.startsBound),
      0,
    )} %`,
    percent(Math.max(...results.map((r) => r.overlapGap))),
    percent(median(results.map((r) => r.extra))),
    ...[perQuilt, perBands, perBound, ideal].map((of) => median(results.map(of)).toFixed(2)),
    median(results.map((r) => r.ms)).toFixed(0),
  ]
  console.log(`| ${cells.join(' | ')} |`)
}

const CLASSES: readonly (readonly [name: string, least: number, most: number])[] = [
  ['1', 1, 1],
  ['2', 2, 2],
  ['3 and 4', 3, 4],
  ['5 to 8', 5, 8],
  ['9 to 14', 9, 14],
  ['all', 1, 99],
]

function table(results: readonly Result[]): void {
  console.log(`| ${HEADS.join(' | ')} |\n|${' --- |'.repeat(HEADS.length)}`)
  for (const [name, least, most] of CLASSES)
    classRow(
      name,
      results.filter(({ bands }) => bands >= least && bands <= most),
    )
}

const figuresOf = (r: Result): string =>
  `${r.name} (${r.bands} bands): starts ${r.starts}/${r.startsBound}, overlap +${percent(r.overlapGap)} %, ` +
  `travel and overlap ${percent(r.extra)} %, moves ${r.moves} = ${perQuilt(r).toFixed(2)} of the quilt, ` +
  `${perBands(r).toFixed(2)} of the bands, bound ${r.movesBound}, ${r.ms.toFixed(0)} ms`

const WORST = 6
function worst(results: readonly Result[], what: string, by: (result: Result) => number): void {
  console.log(`\nWorst by ${what}, chunk:place`)
  for (const r of [...results].sort((a, b) => by(b) - by(a)).slice(0, WORST)) console.log(figuresOf(r))
}

const results: Result[] = []
const chunks = Math.ceil(count / CHUNK)
for (let chunk = 0; chunk < chunks; chunk++) {
  if (only !== undefined && chunk !== only) continue
  const files = fc.sample(anyQuilt({ pieced }), {
    seed: seed + chunk,
    numRuns: Math.min(CHUNK, count - CHUNK * chunk),
  })
  files.forEach((file, place) => {
    const name = `${chunk}:${place}`
    try {
      const result = resultOf(file, name)
      results.push(result)
      if (only !== undefined) console.log(`${JSON.stringify(file)}\n${figuresOf(result)}`)
    } catch (error) {
      console.log(`${name} FAILED: ${error}\n${JSON.stringify(file)}`)
    }
  })
  console.error(
    `seed ${seed} + ${chunk}: ${results.length} of ${count}, moves ${median(results.map(perQuilt)).toFixed(2)}`,
  )
}
table(results)
worst(results, 'overlap', (r) => r.overlapGap)
worst(results, 'travel and overlap', (r) => r.extra)
worst(results, 'moves', perQuilt)
worst(results, 'time', (r) => r.ms)
const short = results.filter((r) => r.starts !== r.startsBound)
console.log(`\nMore starts than must be: ${short.map((r) => r.name).join(', ') || 'none'}`)
