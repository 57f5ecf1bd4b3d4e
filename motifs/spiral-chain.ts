import { type Stroke, transformStroke } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawnFree, type FreeStrip, freeStrip, LedLine } from '../src/motif/free-end.ts'
import { angleTo, closeAtMitre, follow, frameFor, mitreNest } from '../src/motif/spiral-row.ts'
import { inches } from '../src/units.ts'

const DEGREE = Math.PI / 180

export default defineMotif({
  title: 'Spiral chain',
  source: 'running scroll of equal Archimedean double spirals, r = b theta; common practice',
  params: {
    spacing: {
      kind: 'length',
      label: 'Between lines',
      default: { widths: 0.12 },
      min: inches(0.12),
      max: inches(1),
    },
  },
  suits: { min: inches(1), max: inches(6) },
  ends: 'free',
  bend: 'corner',
  joints: 'smooth',
  repeat: (width) => 1.02 * width,
  draw: (strip, { spacing }) => drawnFree(strip, chain(freeStrip(strip), spacing)),
  drawToMitre: (strip, { spacing }) => drawnFree(strip, chain(freeStrip(strip), spacing)),
})

/** Every spiral is entered on its left going up, and left on its right going up. */
function chain(strip: FreeStrip, spacing: number): Stroke {
  const { width, returns, lean } = strip
  const s = Math.min(0.17 * width, Math.max(0.08 * width, spacing))
  const frame = frameFor(strip, s, { end: width / 2 + 0.8 * s, pitch: width - 0.9 * s, give: 0.5 * s })
  const { big, centres, length } = frame
  const line = new LedLine({ at: [0, 0], heading: 0 })
  centres.forEach((centre, i) => {
    const isLast = i === centres.length - 1
    const outAt = !isLast
      ? -30 * DEGREE
      : lean !== 0
        ? angleTo(centre, mitreNest(frame).centre) - 25 * DEGREE
        : (returns ? -80 : -15) * DEGREE
    follow(line, { centre, radius: big, spacing: s, inAt: (i === 0 ? 165 : 150) * DEGREE, outAt, turn: -1 })
  })
  if (lean !== 0) closeAtMitre(line, frame, returns)
  else line.to({ at: [length, returns ? 0 : width], heading: 0 })
  return transformStroke(line.build(), { a: strip.length / length, b: 0, c: 0, d: 1, e: 0, f: 0 })
}
