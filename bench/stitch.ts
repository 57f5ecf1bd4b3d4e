import { gapsInField } from '../src/check/largest-gap.ts'
import { measureOverlap } from '../src/check/overlap.ts'
import { countRepositions } from '../src/check/repositions.ts'
import { layField } from '../src/check/stitch-field.ts'
import type { Point } from '../src/geometry/point.ts'
import { StrokeBuilder } from '../src/geometry/stroke.ts'
import { placeBobbinChanges, seamStretchesOf } from '../src/stitch/bobbin-changes.ts'
import { layStitches } from '../src/stitch/lay-stitches.ts'
import type { Line, LinePart } from '../src/stitch/line.ts'
import { STITCH_DEFAULTS } from '../src/stitch/settings.ts'
import { reckonThread, THREAD_DEFAULTS } from '../src/stitch/thread-use.ts'
import { reckonTime, TIME_DEFAULTS } from '../src/stitch/time.ts'

// Reckons quilts of 125 thousand to a million stitches, all of it: stitches, thread, bobbins, time, gap, repositions,
// overlap. The bounds: a million stitches in 2 s and 500 MB without overlap, and time that grows like the quilt. The
// stitching is equally dense everywhere, the hardest case for the gap search.
// Run: npx tsx bench/stitch.ts

const ROW_GAP = 6

/** A square quilt of `rows` wavy rows there and back, half of them arcs, half cubics, joined by straight travel. */
function wavyQuilt(rows: number): Line {
  const width = rows * ROW_GAP
  const parts: LinePart[] = []
  let at: Point = [0, ROW_GAP / 2]
  for (let row = 0; row < rows; row++) {
    const y = (row + 0.5) * ROW_GAP
    const builder = new StrokeBuilder(at).lineTo([row % 2 === 0 ? 0 : width, y])
    const waves = Math.round(width / 20)
    for (let i = 1; i <= waves; i++) {
      const [x0, x1] = [i - 1, i].map((k) => (row % 2 === 0 ? k : waves - k) * (width / waves)) as [
        number,
        number,
      ]
      if (row % 4 < 2) builder.arcTo([x1, y], i % 2 === 0 ? 2 : -2)
      else builder.cubicTo([x0 + (x1 - x0) / 3, y - 4], [x1 - (x1 - x0) / 3, y + 4], [x1, y])
    }
    parts.push({ kind: 'fill', area: 0, band: row % 9, stroke: builder.build() })
    at = builder.at
  }
  return { parts, thread: 'cream' }
}

/** Time that the machine spent on this program, whatever else it does, ms. */
const millis = () => {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1000
}

/** The least time of each step over some rounds: what is left when other programs disturb it least. */
class Stopwatch {
  readonly #best = new Map<string, number>()

  time<T>(what: string, work: () => T): T {
    const start = millis()
    const value = work()
    this.#best.set(what, Math.min(this.#best.get(what) ?? Infinity, millis() - start))
    return value
  }

  get sum(): number {
    return [...this.#best.values()].reduce((sum, ms) => sum + ms, 0)
  }

  print(): void {
    for (const [what, ms] of this.#best) console.log(`  ${what.padEnd(16)} ${ms.toFixed(0).padStart(6)} ms`)
  }
}

/** Everything but the overlap, which the bound leaves out. */
function reckon(watch: Stopwatch, line: Line, side: number) {
  const ring: Point[] = [
    [0, 0],
    [side, 0],
    [side, side],
    [0, side],
  ]
  const box = { minX: 0, minY: 0, maxX: side, maxY: side }
  const stitches = watch.time('stitches', () => layStitches(line, STITCH_DEFAULTS))
  watch.time('thread', () => reckonThread([stitches]))
  const bobbin = { ...THREAD_DEFAULTS, capacityM: 75, moveBackShare: 0.1 }
  const starts = [{ stitches, seams: seamStretchesOf(line) }]
  const changes = watch.time('bobbin changes', () => placeBobbinChanges(starts, bobbin))
  const work = {
    starts: [stitches],
    repositions: 0,
    bobbinChanges: changes.length,
    frameAdvances: 0,
    threadChanges: 0,
    turns: 0,
  }
  watch.time('time', () => reckonTime(work, TIME_DEFAULTS))
  const field = watch.time('field for gaps', () => layField([stitches], box))
  const gaps = watch.time('largest gaps', () => gapsInField(field, { rings: [ring] }, { within: 0.2 }))
  watch.time('repositions', () => countRepositions([stitches], { width: 300, height: 300 }))
  return { stitches, changes, gaps }
}

const ROUNDS = 4

function bench(rows: number): { count: number; ms: number } {
  const line = wavyQuilt(rows)
  const side = rows * ROW_GAP
  const watch = new Stopwatch()
  const overlapWatch = new Stopwatch()
  for (let round = 1; round < ROUNDS; round++) reckon(watch, line, side)
  const { stitches, changes, gaps } = reckon(watch, line, side)
  overlapWatch.time('overlap beside', () => measureOverlap([stitches]))
  console.log(`${stitches.count} stitches, ${(side / 1000).toFixed(2)} m square, ${changes.length} bobbins`)
  console.log(
    `  largest gap ${gaps.circle.sizeMm.toFixed(3)} mm, proved at most ${gaps.circle.atMostMm.toFixed(3)}`,
  )
  watch.print()
  overlapWatch.print()
  return { count: stitches.count, ms: watch.sum }
}

const results = [220, 312, 442, 628].map(bench)
const [first, last] = [results[0]!, results.at(-1)!]
const growth = Math.log(last.ms / first.ms) / Math.log(last.count / first.count)
const resident = process.resourceUsage().maxRSS / 1024
const perMillion = (last.ms / last.count) * 1e6
console.log(
  `a million stitches: ${perMillion.toFixed(0)} ms (bound 2000), peak ${resident.toFixed(0)} MB (bound 500)`,
)
console.log(`time grows with the ${growth.toFixed(2)}th power of the number of stitches (1 is linear)`)
