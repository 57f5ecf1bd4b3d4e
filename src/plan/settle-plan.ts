import type { Point } from '../geometry/point.ts'
import { DEFAULTS } from './defaults.ts'
import { withDrawnMotifs } from './drawn-catalog.ts'
import type { Entry } from './entry.ts'
import { lengthsApart } from './length.ts'
import { LIMITS } from './limits.ts'
import type { BandPlan, Plan } from './plan.ts'
import { show } from './problems.ts'
import { isSetting, outlineInside } from './setting-bands.ts'
import { settleAllOver } from './settle-all-over.ts'
import { settleBand } from './settle-band.ts'
import { boxOf, settleCentre } from './settle-centre.ts'
import { settleDrawn } from './settle-drawn.ts'
import { CENTRE_NAME, settleAvoid, settleMeasured } from './settle-ground.ts'
import { settleMachine, settleStitch } from './settle-machine.ts'
import { settleRoute } from './settle-route.ts'
import { settleBatting, settleThread } from './settle-thread.ts'

/** Brings a file of the right shape into millimetres and fills in what it leaves out; what is wrong is noted. */
export function settlePlan(file: Entry): Plan {
  const motifs = settleDrawn(file.at('motifs'))
  const root = file.knowing(withDrawnMotifs(file.desk.catalog, motifs))
  const binding = root.at('binding').length({ least: 0, greatest: 100, fallback: DEFAULTS.binding })
  const centre = settleCentre(root.at('centre'))
  const items = root.at('bands').items().slice(0, LIMITS.bands)
  const bands: BandPlan[] = []
  items.forEach((item, index) => {
    const round = { outline: outlineInside({ centre, bands }, index), inside: flatsOf(centre, bands) }
    bands.push(settleBand(item, { ...round, index, isOutermost: index === items.length - 1, binding }))
  })
  refuseTwins(root.at('bands'), bands)
  const size = finishedSize(centre, { bands, binding })
  refuseLargeQuilt(root, size)
  const machine = settleMachine(root.at('machine'))
  return {
    title: root.at('title').text() ?? DEFAULTS.title,
    units: root.desk.units,
    centre,
    bands,
    allOver: settleAllOver(root, { centre, bands }),
    motifs,
    binding,
    bindingFabric: root.at('bindingFabric').colour(DEFAULTS.bindingFabric),
    machine,
    stitch: settleStitch(root.at('stitch')),
    thread: settleThread(root.at('thread')),
    batting: settleBatting(root.at('batting')),
    spacing: root.at('spacing').choice(['own', 'auto'], DEFAULTS.spacing),
    density: root.at('density').choice(['light', 'medium', 'dense'], DEFAULTS.density),
    route: settleRoute(root.at('route'), { centre, bands, machine }),
    avoid: settleAvoid(root.at('avoid'), size),
    measured: settleMeasured(root.at('measured'), { centre, bands }),
    seed: root.at('seed').number({ whole: true, greatest: LIMITS.seed, fallback: DEFAULTS.seed }),
  }
}

/** Names tell bands apart; that of the centre is taken. */
function refuseTwins(entry: Entry, bands: readonly BandPlan[]): void {
  const seen = new Map<string, number>()
  bands.forEach(({ name }, index) => {
    const first =
      name === CENTRE_NAME ? 'the centre' : seen.has(name) ? `bands[${seen.get(name)}]` : undefined
    if (first === undefined) seen.set(name, index)
    else
      entry
        .at(index)
        .at('name')
        .refuse({ code: 'plan/duplicate-name', message: `is ${show(name)}; ${first} has that name already` })
  })
}

/** The size of an outline that is no rectangle from flat to flat, bands included, mm; not minding setting triangles. */
const flatsOf = (centre: Plan['centre'], bands: readonly BandPlan[]): number =>
  bands.reduce((sum, { width }) => sum + 2 * width.top, centre.across ?? 0)

/** Width and height of the finished quilt, mm. */
function finishedSize(
  centre: Plan['centre'],
  { bands, binding }: { bands: readonly BandPlan[]; binding: number },
): Point {
  const setting = bands.findIndex(isSetting)
  const shaped = centre.shape === 'rectangle' ? 0 : setting < 0 ? bands.length : setting
  const [outline, upright] = [bands.slice(0, shaped), bands.slice(setting < 0 ? shaped : shaped + 1)]
  const isUpright = centre.shape === 'rectangle' || setting >= 0
  const flats = flatsOf(centre, outline) + (isUpright ? 0 : 2 * binding)
  const [width, height] =
    centre.across === undefined ? [centre.width, centre.height] : boxOf(centre.shape, flats)
  const added = (a: 'top' | 'left', b: 'bottom' | 'right') =>
    upright.reduce((sum, band) => sum + band.width[a] + band.width[b], isUpright ? 2 * binding : 0)
  return [width + added('left', 'right'), height + added('top', 'bottom')]
}

function refuseLargeQuilt(root: Entry, finished: Point): void {
  const largest = Math.max(...finished)
  if (!(largest > LIMITS.greatest)) return
  const { units } = root.desk
  const [size, most] = lengthsApart([largest, LIMITS.greatest], units)
  const message = `the quilt is ${size} long with all its bands; allowed: at most ${most}`
  root.at('bands').refuse({ code: 'plan/quilt-too-large', message })
}
