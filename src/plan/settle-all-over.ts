import { outlineText } from '../quilt/outline-names.ts'
import { allOverFillers } from './catalog.ts'
import type { Entry } from './entry.ts'
import type { BandPlan, FillerChoice, Plan } from './plan.ts'
import { outlineInside } from './setting-bands.ts'
import { nameFiller, settleKnown } from './settle-filler.ts'

/** Reads the filler that goes over the whole quilt; all that it leaves no room for is refused. */
export function settleAllOver(
  root: Entry,
  { centre, bands }: { readonly centre: Plan['centre']; readonly bands: readonly BandPlan[] },
): FillerChoice | undefined {
  const entry = root.at('allOver')
  if (!entry.isGiven || entry.value === 'none') return undefined
  const named = nameFiller(entry)
  const filler = named && settleKnown(named, allOverFillers(entry.desk.catalog))
  refuseFillers(root)
  refuseWays(root.at('route'))
  refuse(root, 'avoid', 'regions cannot be kept free of an all-over')
  const outline = outlineInside({ centre, bands }, bands.length)
  if (outline !== 'rectangle')
    entry.refuse({
      code: 'plan/contradiction',
      message: `fills a rectangle, but the quilt is ${outlineText(outline)}`,
    })
  return filler
}

/** Refuses a key that says anything. */
function refuse(entry: Entry, key: string, why: string): void {
  const { value } = entry.at(key)
  const isNothing = value === 'none' || value === 'any' || (Array.isArray(value) && value.length === 0)
  if (!entry.has(key) || isNothing) return
  entry.at(key).refuse({ code: 'plan/contradiction', message: `is given, but ${why}`, of: 'key' })
}

const ONE = 'one filler goes over the whole quilt (allOver)'

/** Bands and the centre have no fillers beside one that goes over all. */
function refuseFillers(root: Entry): void {
  refuse(root.at('centre'), 'filler', ONE)
  for (const band of root.at('bands').items())
    for (const key of ['filler', 'sides', 'cornerstone', 'thread']) refuse(band, key, ONE)
}

/** It is worked in rows from a corner. */
function refuseWays(route: Entry): void {
  const rows = 'an all-over (allOver) is worked in rows from a corner'
  if (route.at('start').isGroup) refuse(route, 'start', `${rows}; give a corner`)
  for (const key of ['end', 'order', 'ditch']) refuse(route, key, rows)
  if (route.at('work').value === 'laps') refuse(route, 'work', rows)
}
