import type { Entry } from './entry.ts'
import type { FabricColour } from './plan.ts'

/** A fabric: one colour, or the colours of a print with shares that add up to at most 1. */
export function settleFabric(entry: Entry, fallback: string): readonly FabricColour[] {
  if (!Array.isArray(entry.value)) return [{ colour: entry.colour(fallback), share: 1 }]
  const colours = entry.items().map((item) => ({
    colour: item.at('colour').colour(fallback),
    // A share that was refused isn't held against the sum as well.
    share: item.at('share').share({ fallback: Number.NaN }),
  }))
  const sum = colours.reduce((total, { share }) => total + share, 0)
  if (sum > 1 + 1e-9) {
    const percent = Number((sum * 100).toFixed(2))
    entry.refuse({
      code: 'plan/shares',
      message: `the shares add up to ${percent} %; allowed: at most 100 %`,
    })
  }
  if (sum === 0 && colours.length > 0)
    entry.refuse({ code: 'plan/shares', message: 'the shares add up to 0 %; one must be above 0' })
  return colours
}
