import {
  gapTaskOf,
  type PlannedQuilt,
  reckonQuilt,
  type ThreadedQuilt,
  tellQuilt,
} from '../../src/pipeline.ts'
import { findGaps } from '../../src/report/find-gaps.ts'

/** A quilt whose line is threaded, reckoned and told. */
export function finishQuilt(threaded: ThreadedQuilt): PlannedQuilt {
  const gapTask = gapTaskOf(threaded)
  return tellQuilt(reckonQuilt(threaded, gapTask), { gaps: findGaps(gapTask), warnings: [] })
}
