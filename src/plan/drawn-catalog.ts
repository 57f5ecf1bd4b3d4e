import { drawnMotif } from '../drawn/drawn-motif.ts'
import type { Catalog } from './catalog.ts'
import type { DrawnMotifPlan } from './plan.ts'

/** The catalog with the motifs that a plan draws itself. */
export const withDrawnMotifs = (catalog: Catalog, drawn: readonly DrawnMotifPlan[]): Catalog =>
  drawn.length === 0
    ? catalog
    : {
        ...catalog,
        motifs: {
          ...catalog.motifs,
          ...Object.fromEntries(drawn.map((motif) => [motif.name, drawnMotif(motif)])),
        },
      }
