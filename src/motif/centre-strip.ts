import type { CentreFill, Rectangle } from './centre-contract.ts'
import type { Motif, Params, ValuesOf } from './contract.ts'

/** Fills a rectangle with a strip's motif, from the corner [0, 0] to the corner [width, 0]. */
export function fillAsStrip<P extends Params>(
  motif: Motif<P>,
  { width, height, seed }: Rectangle,
  values: ValuesOf<P>,
): CentreFill {
  const repeats = Math.max(1, Math.round(width / motif.repeat(height, values)))
  const ends = { from: 'inner', to: 'inner', mirrorStart: false, mirrorEnd: false } as const
  const { stroke, touches } = motif.draw({ ...ends, length: width, width: height, repeats, seed }, values)
  return { stroke, touches: touches.map((t) => t.after) }
}
