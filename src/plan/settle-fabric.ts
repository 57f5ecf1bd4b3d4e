import { RANGES } from './limits.ts'
import type { FabricColour } from './plan.ts'
import type { Path } from './problems.ts'
import type { PlanFile } from './schema.ts'
import type { Settling } from './settling.ts'

/** A fabric's colours and their shares. */
export function settleFabric(
  written: PlanFile['centre']['fabric'],
  path: Path,
  { settling, fallback }: { settling: Settling; fallback: string },
): FabricColour[] {
  if (written === undefined || typeof written === 'string')
    return [{ colour: settling.colour(written, path, fallback), share: 1 }]
  const colours = written.map(({ colour, share }, i) => ({
    colour: settling.colour(colour, [...path, i, 'colour'], fallback),
    share: settling.number(share, [...path, i, 'share'], { range: RANGES.share, fallback: 0 }),
  }))
  const sum = colours.reduce((total, { share }) => total + share, 0)
  if (sum > 1 + 1e-9) {
    const text = `the shares add up to ${Number(sum.toFixed(4))}; allowed: at most 1`
    settling.problems.add('plan/shares', path, text)
  }
  return colours
}
