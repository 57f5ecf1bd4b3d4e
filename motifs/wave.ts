import type { StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawHalfRepeats, drawHalvesToMitre, type HalfRepeat } from '../src/motif/half-repeats.ts'
import { inches } from '../src/units.ts'

/** Cubics to each half period: they stray from the sine by A pi^4 / (384 n^4), less than 0.01 mm in 4 in. */
const PIECES = 6

export default defineMotif({
  title: 'Wave',
  source: 'sine, v = (1 - cos(pi u / step)) width / 2',
  params: {
    repeat: { kind: 'length', label: 'Repeat', default: { widths: 2.5 }, min: inches(0.5), max: inches(16) },
  },
  closeness: 'repeat',
  suits: { min: inches(0.5), max: inches(4) },
  ends: 'alternate',
  bend: 'corner',
  joints: 'smooth',
  // A tighter wave is a ribbon.
  repeat: (width, { repeat }) => Math.max(repeat, 2 * width),
  draw: (strip) => drawHalfRepeats(strip, followSine),
  drawToMitre: (strip) =>
    drawHalvesToMitre(strip, (line, half) => (half.arrival ? passCorner : followSine)(line, half)),
})

/** Half a period by Hermite cubics: each has the sine's place and slope at both ends. */
function followSine(line: StrokeBuilder, { step, width, at }: HalfRepeat): void {
  const run = step / PIECES
  const heightAt = (i: number) => (width / 2) * (1 - Math.cos((Math.PI * i) / PIECES))
  const riseAt = (i: number) => ((width * Math.PI) / (2 * PIECES)) * Math.sin((Math.PI * i) / PIECES)
  for (let i = 0; i < PIECES; i++) {
    const u = run * i
    line.cubicTo(
      at(u + run / 3, heightAt(i) + riseAt(i) / 3),
      at(u + (2 * run) / 3, heightAt(i + 1) - riseAt(i + 1) / 3),
      i === PIECES - 1 ? at(step, width) : at(u + run, heightAt(i + 1)),
    )
  }
}

/** From a crest down to the inner corner, and past it square to the mitre. */
function passCorner(line: StrokeBuilder, { step, width, arrival, at }: HalfRepeat): void {
  const handle = Math.min(0.36 * Math.hypot(step, width), (0.6 * width) / Math.sin(arrival))
  const [x, y] = [step - handle * Math.cos(arrival), width - handle * Math.sin(arrival)]
  line.cubicTo(at(0.5 * step, 0), at(x, y), at(step, width))
}
