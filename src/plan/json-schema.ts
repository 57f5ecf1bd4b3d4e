import * as z from 'zod'
import { allOverFillers, type Catalog, type Known } from './catalog.ts'
import { formatOf, type Vocabulary } from './format.ts'
import { exactCentre } from './format-centre.ts'
import { fillerFormat, name } from './format-parts.ts'

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
    bandFiller: z.union([fillerFormat(motifs as Known, ['none', 'auto']), byPatch]),
    sideFiller: fillerFormat(motifs as Known, ['none']),
    centre: exactCentre(fillerFormat(centreFillers, ['none', 'auto'])),
    allOver: fillerFormat(allOverFillers(catalog), ['none']),
    cornerMotif: names(['none', ...cornerMotifs]),
    unit: z.union([names([...Object.keys(units), 'own']), name]),
  }
}
