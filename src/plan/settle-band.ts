import type { Sides } from '../quilt/layout.ts'
import type { Corners } from '../quilt/quilt.ts'
import { inches } from '../units.ts'
import { RANGES } from './limits.ts'
import type { BandPlan } from './plan.ts'
import type { Path } from './problems.ts'
import type { PlanFile } from './schema.ts'
import { settleFabric } from './settle-fabric.ts'
import { settleFiller } from './settle-filler.ts'
import type { Settling } from './settling.ts'

type BandFile = PlanFile['bands'][number]

/** Seam allowance, mm. @source 1/4 in: common practice; cut = finished + 1/2 in, allpeoplequilt.com "Border and corner blocks" */
export const SEAM_ALLOWANCE = inches(0.25)

/** Completes one band. `lost` is what sewing takes off a cut width, mm. */
export function settleBand(
  written: BandFile,
  index: number,
  { lost, settling }: { lost: number; settling: Settling },
): BandPlan {
  const path: Path = ['bands', index]
  const width = settleWidth(written, path, { lost, settling })
  return {
    name: written.name ?? `band ${index + 1}`,
    width: width ?? evenly(inches(1)),
    filler:
      written.filler === undefined
        ? undefined
        : settleFiller(written.filler, { path: [...path, 'filler'], width, settling }),
    fabric: settleFabric(written.fabric, [...path, 'fabric'], {
      settling,
      fallback: index % 2 === 0 ? '#d9c7a0' : '#8fa9b8',
    }),
    corners: cornersOf(written.corners),
  }
}

const evenly = (mm: number): Sides => ({ top: mm, right: mm, bottom: mm, left: mm })

function cornersOf(written: BandFile['corners']): Corners {
  if (typeof written === 'object') return written.butted === 'rows-first' ? 'butted-rows' : 'butted-columns'
  return written === 'butted' ? 'butted-rows' : (written ?? 'mitred')
}

/** Finished widths, mm; undefined if something is wrong with them. */
function settleWidth(
  { width, cut }: BandFile,
  path: Path,
  { lost, settling }: { lost: number; settling: Settling },
): Sides | undefined {
  const { problems } = settling
  const written = width ?? cut
  if ((width === undefined) === (cut === undefined)) {
    const what = width === undefined ? 'has neither width nor cut' : 'has both width and cut'
    problems.add('plan/width', path, `${what}; give one of them`)
  }
  const [key, comesOff] = width === undefined ? ['cut', lost] : ['width', 0]
  const range = [comesOff + RANGES.part[0], RANGES.part[1]] as const
  const at = [...path, key]
  const one = (value: number | string | undefined, place: Path) =>
    settling.length(value, place, { range, fallback: range[0] }) - comesOff
  const sides: Sides =
    typeof written === 'object'
      ? {
          top: one(written.top, [...at, 'top']),
          right: one(written.right, [...at, 'right']),
          bottom: one(written.bottom, [...at, 'bottom']),
          left: one(written.left, [...at, 'left']),
        }
      : evenly(one(written, at))
  return problems.isWithin(path) ? undefined : sides
}
