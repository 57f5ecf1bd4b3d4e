import type { Point } from '../geometry/point.ts'
import { inches } from '../units.ts'
import { DEFAULTS } from './defaults.ts'
import { withDrawnMotifs } from './drawn-catalog.ts'
import type { Entry } from './entry.ts'
import { lengthsApart } from './length.ts'
import { LIMITS } from './limits.ts'
import type { BandPlan, Plan } from './plan.ts'
import { show } from './problems.ts'
import { settleBand } from './settle-band.ts'
import { settleDrawn } from './settle-drawn.ts'
import { settleFabric } from './settle-fabric.ts'
import { nameFiller, settleKnown } from './settle-filler.ts'
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
  const bands = items.map((item, index) =>
    settleBand(item, { index, isOutermost: index === items.length - 1, binding }),
  )
  refuseTwins(root.at('bands'), bands)
  const size = finishedSize(centre, { bands, binding })
  refuseLargeQuilt(root, size)
  return {
    title: root.at('title').text() ?? DEFAULTS.title,
    units: root.desk.units,
    centre,
    bands,
    motifs,
    binding,
    bindingFabric: root.at('bindingFabric').colour(DEFAULTS.bindingFabric),
    machine: settleMachine(root.at('machine')),
    stitch: settleStitch(root.at('stitch')),
    thread: settleThread(root.at('thread')),
    batting: settleBatting(root.at('batting')),
    spacing: root.at('spacing').choice(['own', 'auto'], DEFAULTS.spacing),
    density: root.at('density').choice(['light', 'medium', 'dense'], DEFAULTS.density),
    route: settleRoute(root.at('route'), bands),
    avoid: settleAvoid(root.at('avoid'), size),
    measured: settleMeasured(root.at('measured'), bands),
    seed: root.at('seed').number({ whole: true, greatest: LIMITS.seed, fallback: DEFAULTS.seed }),
  }
}

function settleCentre(entry: Entry): Plan['centre'] {
  const filler = entry.at('filler')
  const named = filler.isGiven && filler.value !== 'none' ? nameFiller(filler) : undefined
  return {
    width: entry.at('width').length({ fallback: inches(1) }),
    height: entry.at('height').length({ fallback: inches(1) }),
    fabric: settleFabric(entry.at('fabric'), DEFAULTS.centreFabric),
    filler: named && settleKnown(named, entry.desk.catalog.centreFillers),
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

/** Width and height of the finished quilt, mm. */
function finishedSize(
  { width, height }: Plan['centre'],
  { bands, binding }: { bands: readonly BandPlan[]; binding: number },
): Point {
  const added = (a: 'top' | 'left', b: 'bottom' | 'right') =>
    bands.reduce((sum, band) => sum + band.width[a] + band.width[b], 2 * binding)
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
