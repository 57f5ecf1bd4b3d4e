import type { Entry } from './entry.ts'
import { roundLength } from './length.ts'
import { LIMITS } from './limits.ts'
import { type PiecedPlan, SIDES, type Sides } from './plan.ts'
import { SETTING_PATCH } from './setting-bands.ts'
import type { BandFilling } from './settle-band.ts'
import { fillsByPatch, settlePatchFillers } from './settle-pieced.ts'

/**
 * How deep setting triangles are, mm; what a band has that they can't have is refused.
 *
 * @source a right triangle with two equal legs is half as high as its longest side is long (school formula)
 */
export function settingWidth(entry: Entry, { inside }: { readonly inside: number }): Sides {
  const refuse = (key: string, message: string) =>
    entry.has(key) &&
    entry.at(key).refuse({ code: 'plan/contradiction', message: `is given; ${message}`, of: 'key' })
  for (const key of ['width', 'cut'])
    refuse(key, 'the width of setting triangles follows from what they are sewn to')
  for (const key of ['corners', 'cornerstone']) refuse(key, 'setting triangles have no corners to join')
  const depth = roundLength(Math.max(LIMITS.least, inside / 2))
  return Object.fromEntries(SIDES.map((side) => [side, depth])) as Sides
}

/** What fills setting triangles: a filler for their patch, or nothing; no motif runs along them. */
export function settleSettingFillers(entry: Entry, pieced: PiecedPlan): BandFilling {
  const open = { filler: undefined, auto: false, pieced }
  if (!entry.isGiven || entry.value === 'none') return open
  if (entry.isGroup && fillsByPatch(entry, pieced))
    return {
      ...open,
      pieced: { ...pieced, fillers: settlePatchFillers(entry, { pieced, corners: 'mitred' }) },
    }
  const message = `runs along a band, and setting triangles are none; fill them as patches: { ${SETTING_PATCH}: echo }`
  entry.refuse({ code: 'plan/filler', message })
  return open
}
