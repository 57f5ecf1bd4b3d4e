import type { Place, RoutePlan } from './plan.ts'
import type { Path } from './problems.ts'
import type { PlanFile } from './schema.ts'
import type { Settling } from './settling.ts'

type RouteFile = NonNullable<PlanFile['route']>

interface Context {
  /** The names of the bands. */
  readonly bands: readonly string[]
  readonly settling: Settling
}

/** Where the line begins and ends, and how the quilt is worked. */
export const settleRoute = (written: RouteFile = {}, context: Context): RoutePlan => ({
  start: settlePlace(written.start, ['route', 'start'], context),
  end: settlePlace(written.end, ['route', 'end'], context),
  order: written.order ?? 'any',
  work: written.work ?? 'areas',
})

const CORNERS = ['top-left', 'top-right', 'bottom-right', 'bottom-left']
const SIDES = ['top', 'right', 'bottom', 'left']

function settlePlace(written: RouteFile['start'], path: Path, { bands, settling }: Context): Place {
  if (written === undefined || written === 'any') return { kind: 'anywhere' }
  if (typeof written !== 'string') {
    const { band, side } = written
    if (!bands.includes(band))
      settling.refuseName('plan/place', [...path, 'band'], { name: band, known: bands })
    return { kind: 'side', band, side: SIDES.indexOf(side) }
  }
  const corner = CORNERS.indexOf(written)
  if (corner >= 0) return { kind: 'corner', corner }
  const known = ['any', ...CORNERS]
  settling.refuseName('plan/place', path, { name: written, known, or: ', or { band, side }' })
  return { kind: 'anywhere' }
}
