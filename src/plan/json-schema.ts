import * as z from 'zod'
import { allOverFillers, type Catalog, type Known } from './catalog.ts'
import { formatOf, type Vocabulary } from './format.ts'
import { exactCentre } from './format-centre.ts'
import { DRAWN_NAME, fillerFormat, length, name, optional } from './format-parts.ts'

/** The JSON Schema (draft 7) of a plan file, for editors: every key, and the names and values of the catalog. */
export const planJsonSchema = (catalog: Catalog): unknown =>
  z.toJSONSchema(formatOf(vocabularyOf(catalog)), { io: 'input', target: 'draft-7' })

function vocabularyOf(catalog: Catalog): Vocabulary {
  const names = (known: readonly string[]) => z.enum(known as [string, ...string[]])
  const { motifs, centreFillers = [], cornerMotifs = [], patchFillers = [], units = {} } = catalog
  const byPatch = z
    .record(z.string(), fillerFormat(patchFillers, ['none']))
    .describe('a filler for each patch name')
  return {
    bandFiller: z.union([fillerFormat(motifs as Known, ['none', 'auto']), ...OWN, byPatch]),
    sideFiller: z.union([fillerFormat(motifs as Known, ['none']), ...OWN]),
    centre: exactCentre(fillerFormat(centreFillers, ['none', 'auto'])),
    allOver: fillerFormat(allOverFillers(catalog), ['none']),
    cornerMotif: names(['none', ...cornerMotifs]),
    unit: z.union([names([...Object.keys(units), 'own']), name]),
  }
}

/** A motif that the plan draws itself, with or without its one value. */
const OWN = [
  z.string().regex(DRAWN_NAME).describe('a motif of your own'),
  z.record(z.string().regex(DRAWN_NAME), z.strictObject({ repeat: optional(length, 'Repeat, a length') })),
] as const
