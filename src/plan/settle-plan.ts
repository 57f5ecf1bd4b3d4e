import { inches } from '../units.ts'
import { LIMITS, RANGES } from './limits.ts'
import type { BandPlan, Plan } from './plan.ts'
import { type Problems, show } from './problems.ts'
import type { PlanFile } from './schema.ts'
import { SEAM_ALLOWANCE, settleBand } from './settle-band.ts'
import { settleFabric } from './settle-fabric.ts'
import { settleRoute } from './settle-route.ts'
import { settleThread } from './settle-thread.ts'
import { settleBatting, settleMachine, settleStitch } from './settle-work.ts'
import { type Catalog, Settling } from './settling.ts'

export type { Catalog } from './settling.ts'

/** Brings a well-formed file into millimetres and fills in what it leaves out; what is wrong goes to `problems`. */
export function settlePlan(
  file: PlanFile,
  { catalog, problems, warnings }: { catalog: Catalog; problems: Problems; warnings: Problems },
): Plan {
  const units = file.units ?? 'in'
  const settling = new Settling(units, catalog, problems, warnings)
  const binding = settling.length(file.binding, ['binding'], {
    range: RANGES.binding,
    fallback: inches(0.25),
  })
  const centre = settleCentre(file.centre, settling)
  const bands = settleBands(file.bands, { binding, settling })
  refuseTwins(bands, problems)
  if (!problems.any) refuseGiant({ centre, bands, binding }, settling)
  return {
    title: file.title ?? 'Untitled quilt',
    units,
    centre,
    bands,
    binding,
    bindingFabric: settling.colour(file.bindingFabric, ['bindingFabric'], '#3b3230'),
    machine: settleMachine(file.machine, settling),
    stitch: settleStitch(file.stitch, settling),
    thread: settleThread(file.thread, settling),
    batting: settleBatting(file.batting, settling),
    route: settleRoute(file.route, { bands: bands.map(({ name }) => name), settling }),
    seed: (file.seed ?? 1) + 0,
  }
}

function settleCentre(
  { width, height, fabric, filler }: PlanFile['centre'],
  settling: Settling,
): Plan['centre'] {
  const size = { range: RANGES.part, fallback: RANGES.part[0] }
  if (filler !== undefined && filler !== 'none')
    settling.problems.add(
      'plan/filler',
      ['centre', 'filler'],
      `is ${show(filler)}; the centre can only be none`,
    )
  return {
    width: settling.length(width, ['centre', 'width'], size),
    height: settling.length(height, ['centre', 'height'], size),
    fabric: settleFabric(fabric, ['centre', 'fabric'], { settling, fallback: '#f4efe4' }),
    filler: undefined,
  }
}

/** A cut width loses both seam allowances; the outermost band's loses one, and what the binding covers. */
function settleBands(
  written: PlanFile['bands'],
  { binding, settling }: { binding: number; settling: Settling },
): BandPlan[] {
  return written.map((band, index) => {
    const isOutermost = index === written.length - 1
    return settleBand(band, index, {
      lost: SEAM_ALLOWANCE + (isOutermost ? binding : SEAM_ALLOWANCE),
      settling,
    })
  })
}

function refuseTwins(bands: readonly BandPlan[], problems: Problems): void {
  const seen = new Map<string, number>()
  bands.forEach(({ name }, index) => {
    const first = seen.get(name)
    if (first === undefined) seen.set(name, index)
    else
      problems.add(
        'plan/twin',
        ['bands', index, 'name'],
        `is ${show(name)}; bands[${first}] has that name already`,
      )
  })
}

function refuseGiant(
  { centre, bands, binding }: Pick<Plan, 'centre' | 'bands' | 'binding'>,
  settling: Settling,
): void {
  const sum = (of: (band: BandPlan) => number) => bands.reduce((total, band) => total + of(band), 2 * binding)
  const width = centre.width + sum(({ width: w }) => w.left + w.right)
  const height = centre.height + sum(({ width: w }) => w.top + w.bottom)
  if (Math.max(width, height) > LIMITS.quilt)
    settling.problems.add(
      'plan/quilt-size',
      ['bands'],
      `the quilt is ${settling.text(width)} by ${settling.text(height)}; allowed: at most ${settling.text(LIMITS.quilt)}`,
    )
}
