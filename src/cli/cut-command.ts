import { piecingOf, polygonSizeOf, shapeOf, sizeOf } from '../engine-input.ts'
import { LIMITS } from '../plan/limits.ts'
import { readPlan } from '../plan/read-plan.ts'
import { cuttingList } from '../quilt/cutting/cutting-list.ts'
import { cuttingText } from '../quilt/cutting/cutting-text.ts'
import type { Piecing, SettingTriangles } from '../quilt/pieced-band.ts'
import { readText } from './files.ts'
import { catalogBeside } from './plan-catalog.ts'
import { attempt, terminal } from './run.ts'

/** `ditchline cut FILE`: what to cut for the bands, the binding, the backing and the batting. */
export function cutCommand(file: string, { json = false }: { json?: boolean }): Promise<number> {
  const work = () => {
    const { plan } = readPlan(readText(file, LIMITS.fileBytes), catalogBeside(file))
    const piecings = plan.bands.map((band, index): Piecing | SettingTriangles | undefined => {
      const piecing = piecingOf(band, index)
      return piecing && !('cornerstoneFabric' in piecing) ? piecing : undefined
    })
    const shape = shapeOf(plan)
    const size = shape ? polygonSizeOf(plan, shape) : sizeOf(plan)
    const list = cuttingList({ size, piecings, measured: plan.measured, unit: plan.units })
    terminal.out(json ? JSON.stringify(list, null, 2) : cuttingText(list, plan.units).join('\n'))
  }
  return attempt(work, { file, to: terminal })
}
