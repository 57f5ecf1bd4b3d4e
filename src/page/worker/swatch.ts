import { MOTIFS } from '../../../motifs/index.ts'
import { pathData } from '../../export/path-data.ts'
import type { Params, ValuesOf } from '../../motif/contract.ts'
import { defaultValues } from '../../plan/settle-filler.ts'
import type { Swatch } from './messages.ts'

/** A strip at least this many widths long is drawn, and never more than so many mm: enough to know a filler by. */
const WIDTHS = 5
const MOST_MM = 260

const drawn = new Map<string, Swatch>()
/** More than the bands of any quilt, and little enough to keep. */
const MOST_KEPT = 400

/** A filler in a straight strip of this width, as path data; one that was drawn before is not drawn again. */
export function swatchOf(name: string, width: number, values?: ValuesOf<Params>): Swatch {
  const key = JSON.stringify([name, width, values])
  const known = drawn.get(key)
  if (known) return known
  if (drawn.size >= MOST_KEPT) drawn.clear()
  const swatch = drawSwatch(name, width, values)
  drawn.set(key, swatch)
  return swatch
}

function drawSwatch(name: string, width: number, values?: ValuesOf<Params>): Swatch {
  const motif = MOTIFS[name]!
  const settled = values ?? defaultValues(motif.params, width)
  const repeat = motif.repeat(width, settled)
  const wanted = Math.min(MOST_MM, Math.max(WIDTHS * width, 2 * repeat, 90))
  const repeats = Math.max(1, Math.round(wanted / repeat))
  const length = repeats * repeat
  const { stroke } = motif.draw(
    { length, width, from: 'inner', to: 'inner', repeats, mirrorStart: false, mirrorEnd: false, seed: 1 },
    settled,
  )
  return { data: pathData(stroke, 2), width, length }
}

/** Every filler that can be drawn at this width, each with its usual values. */
export const drawAllSwatches = (width: number): Record<string, Swatch> =>
  Object.fromEntries(
    Object.entries(MOTIFS)
      .filter(([, motif]) => motif.suits.min <= width + 1e-6)
      .map(([id]) => [id, swatchOf(id, width)]),
  )
