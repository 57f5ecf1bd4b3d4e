import type { CentreFiller } from '../motif/centre-contract.ts'
import type { Motif, Params } from '../motif/contract.ts'
import type { CornerMotif } from '../motif/corner-contract.ts'

/** What a plan may name: names, or names of things with parameters. */
export type Known = readonly string[] | Readonly<Record<string, { readonly params: Params }>>

/** The fillers, corner motifs and pieced units that a plan may name. What is left out has none. */
export interface Catalog {
  readonly motifs: Readonly<Record<string, Motif>>
  readonly centreFillers?: Known
  readonly cornerMotifs?: readonly string[]
  /** The centre fillers and corner motifs themselves, for the engine. */
  readonly centres?: Readonly<Record<string, CentreFiller>>
  readonly corners?: Readonly<Record<string, CornerMotif>>
  /**
   * Reads a text file that lies beside the plan, by its name. Left out where there are no files.
   *
   * @throws PlanError if it can't be read
   */
  readonly readFile?: (name: string) => string
  /** Fillers for the patches of pieced bands. */
  readonly patchFillers?: Known
  /** The names of the patches of each pieced unit. */
  readonly units?: Readonly<Record<string, readonly string[]>>
}

export const namesOf = (known: Known = []): readonly string[] => (isList(known) ? known : Object.keys(known))

/** The parameters of what is known by a name; none if it is only a name. */
export function paramsOf(known: Known | undefined, name: string): Params {
  if (known === undefined || isList(known) || !Object.hasOwn(known, name)) return {}
  return known[name]?.params ?? {}
}

/** The fillers that can go over a whole quilt: those for the centre that can fill a strip too, with their values. */
export function allOverFillers({ centreFillers = {}, motifs }: Catalog): Known {
  if (isList(centreFillers)) return centreFillers.filter((name) => motifs[name]?.ends === 'free')
  const able = Object.entries(centreFillers).filter(([name]) => motifs[name]?.ends === 'free')
  return Object.fromEntries(able)
}

const isList = (known: Known): known is readonly string[] => Array.isArray(known)
