import { MM_PER } from '../../units.ts'
import type { Drawing } from '../drawing.ts'
import { FRAME_CAUTIONS, LABELS, lengthText } from '../labels.ts'
import { numberText } from '../number-text.ts'
import { hasThreads, threadName } from '../thread-name.ts'
import type { MachinePath } from './machine-path.ts'
import type { TableValues } from './path-options.ts'

/** The feed that makes the set stitch length at the set stitches a minute, in the path's unit a minute. */
export const feedOf = (drawing: Drawing, units: 'mm' | 'in'): number =>
  (drawing.spm * drawing.stitchLengthMm) / MM_PER[units]

/** What stands at the head of every machine path: what it is, its unit and axes, its size, and the cautions. */
export function pathNotes(drawing: Drawing, path: MachinePath, values: TableValues): string[] {
  const { path: say } = LABELS
  const size = (length: number) => lengthText(length * MM_PER[path.units], path.units)
  const origin = say.origin(values.origin, values.box)
  return [
    path.needleDown ? say.made : say.bounds,
    say.quilt(drawing.title),
    say.frame(path.units, values.yAxis, origin),
    say.size(size(path.box.maxX - path.box.minX), size(path.box.maxY - path.box.minY)),
    say.speed(drawing.spm, `${numberText(feedOf(drawing, path.units), 2)} ${path.units}`),
    ...threadNotes(drawing, path),
    ...FRAME_CAUTIONS,
  ]
}

/** Which thread each start is stitched with, if there are several. */
function threadNotes(drawing: Drawing, { colours, needleDown }: MachinePath): string[] {
  if (!needleDown || !hasThreads(drawing)) return []
  const { path: say } = LABELS
  return colours.map((thread, i) => say.threadOf(i + 1, colours.length, threadName(drawing, thread)))
}
