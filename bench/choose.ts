// How well spacings are chosen: on random plans, how many keep the batting's limit, how even neighbours come out, and
// what the choosing costs beside filling the same quilt with nothing left to choose.
// npx tsx bench/choose.ts [plans] [seed]
import fc from 'fast-check'
import { LIBRARY } from '../motifs/library.ts'
import { catalogOf } from '../src/engine-input.ts'
import { fillQuilt, planQuilt } from '../src/pipeline.ts'
import { readPlan } from '../src/plan/read-plan.ts'
import { openPlan } from '../tests/support/open-plans.ts'

const [count = 200, seed = 1] = process.argv.slice(2).map(Number)
const catalog = catalogOf(LIBRARY)
const plans = fc.sample(openPlan(6), { numRuns: count, seed })

/** Plans of which nothing but sizes is given. */
const isAllOpen = ({ centre, bands, machine }: (typeof plans)[number]): boolean =>
  centre.filler === 'auto' && bands.every(({ filler }) => filler === 'auto') && machine.foot === 'free-motion'

const cpuMs = (work: () => void): number => {
  const before = process.cpuUsage().user
  work()
  return (process.cpuUsage().user - before) / 1000
}

/** Every so many plans the choosing is timed, and what has been found so far is shown. */
const [TIMED, SHOWN] = [4, 20]
const allOpen = { plans: 0, within: 0 }
const tally = { within: 0, told: 0, untold: 0, even: 0, unevenTold: 0, unevenUntold: 0 }
const reasons = new Map<string, number>()
const times: number[] = []
let worst = 1
for (const [index, file] of plans.entries()) {
  const { plan } = readPlan(JSON.stringify(file), catalog)
  const { report, plan: settled } = planQuilt(plan, { catalog })
  const { gap, choices, evenness } = report
  if (isAllOpen(file)) {
    allOpen.plans++
    if (gap.withinLimit) allOpen.within++
  }
  if (gap.withinLimit) tally.within++
  else if (choices?.overLimit.some(({ at, why }) => at === 'quilt' && why !== '')) tally.told++
  else tally.untold++
  for (const { why } of choices?.overLimit ?? []) {
    const kind = why.replaceAll(/"[^"]*"|[\d/ ]+in\b/g, '..')
    reasons.set(kind, (reasons.get(kind) ?? 0) + 1)
  }
  const ratio = evenness.worstRatio ?? 1
  worst = Math.max(worst, ratio)
  if (ratio <= evenness.limit) tally.even++
  else if (choices?.uneven.every(({ why }) => why !== '')) tally.unevenTold++
  else tally.unevenUntold++
  if (index % TIMED === 0) {
    const open = cpuMs(() => fillQuilt(plan, catalog))
    const alone = cpuMs(() => fillQuilt(settled, catalog))
    times.push(open / Math.max(10, alone))
  }
  if ((index + 1) % SHOWN === 0) console.error(`${index + 1} plans: ${JSON.stringify(tally)}`)
}
const middle = times.sort((a, b) => a - b)
console.log(`${count} plans, seed ${seed}`)
console.log(
  `largest gap: ${tally.within} within the limit, ${tally.told} over it and told why, ${tally.untold} not told`,
)
console.log(
  `${allOpen.within} of the ${allOpen.plans} plans that leave the centre and every filler open, for free motion, keep it`,
)
console.log(
  `evenness: ${tally.even} under 3, ${tally.unevenTold} over it and told why, ${tally.unevenUntold} not told; worst ratio ${worst.toFixed(1)}`,
)
console.log(
  `time over that of filling alone: median ${middle[Math.floor(middle.length / 2)]!.toFixed(1)}, most ${middle.at(-1)!.toFixed(1)}`,
)
for (const [why, times] of [...reasons].sort((a, b) => b[1] - a[1]).slice(0, 20))
  console.log(String(times).padStart(5), why)
