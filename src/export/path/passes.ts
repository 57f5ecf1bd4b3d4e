import type { Line, LinePart } from '../../stitch/line.ts'
import type { Drawing, NeedlePoint } from '../drawing.ts'
import { LABELS } from '../labels.ts'

/**
 * One drawing a frame pass: only what is stitched in the pass's areas. What a pass interrupts becomes a start of its
 * own. Without passes, the drawing itself.
 */
export function passDrawings(drawing: Drawing): Drawing[] {
  if (!drawing.passes) return [drawing]
  return drawing.passes.map((areas, index) => {
    const inPass = new Set(areas)
    const kept = drawing.lines.flatMap((line, i) => stretchesIn(line, drawing.stitches?.[i], inPass))
    const { passes: _, ...rest } = drawing
    return {
      ...rest,
      title: LABELS.names.pass(drawing.title, index + 1, drawing.passes!.length),
      lines: kept.map((k) => k.line),
      ...(drawing.stitches ? { stitches: kept.map((k) => k.stitches) } : {}),
    }
  })
}

interface Stretch {
  readonly line: Line
  readonly stitches: readonly NeedlePoint[]
}

/** The unbroken stretches of a line that lie in the areas. */
function stretchesIn(line: Line, needle: readonly NeedlePoint[] = [], areas: ReadonlySet<number>): Stretch[] {
  return spansIn(line.parts, areas).map(([from, to]) => ({
    line: { ...line, parts: line.parts.slice(from, to) },
    stitches: needle.filter((n) => n.part >= from && n.part < to).map((n) => ({ ...n, part: n.part - from })),
  }))
}

function spansIn(parts: readonly LinePart[], areas: ReadonlySet<number>): [from: number, to: number][] {
  const spans: [number, number][] = []
  parts.forEach((part, i) => {
    if (!areas.has(part.area)) return
    const last = spans.at(-1)
    if (last && last[1] === i) last[1] = i + 1
    else spans.push([i, i + 1])
  })
  return spans.filter(([from, to]) => parts.slice(from, to).some((p) => p.stroke.segments.length > 0))
}
