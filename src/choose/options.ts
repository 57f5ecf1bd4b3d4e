import type { CentreFiller } from '../motif/centre-contract.ts'
import type { Motif, Params, ValuesOf } from '../motif/contract.ts'
import type { PatchFiller } from '../pieces/patch-fillers/contract.ts'
import type { FillerChoice } from '../plan/plan.ts'
import { defaultValues } from '../plan/settle-filler.ts'
import type { LengthUnit } from '../units.ts'
import { closeValues, type Steps } from './close-values.ts'
import type { Measured } from './measure.ts'
import type { Option } from './slot.ts'

/** Anything that fills cloth, as far as its values go. */
type Known = Pick<Motif, 'title' | 'params' | 'closeness'> &
  (Motif | CentreFiller | PatchFiller) & { readonly suits?: Motif['suits'] }

/** What the options of one filler are made from. */
export interface Basis {
  readonly known: Known
  readonly filler: FillerChoice
  /** What decides its defaults: the band's mean width, mm. */
  readonly width: number
  readonly units: LengthUnit
  /** The greatest gap allowed, mm. */
  readonly limit: number
  /** Undefined: the filler keeps its own values. */
  readonly steps: Steps | undefined
  /** Measures it with all its values. */
  readonly measure: (values: ValuesOf<Params>) => Measured
}

/** A filler with each value that its open parameter may have; one option alone where the plan leaves nothing open. */
export function optionsOf({ known, filler, width, units, limit, steps, measure }: Basis): Option[] {
  const { title, params, closeness } = known
  const suits = 'suits' in known ? known.suits : undefined
  const usual = { ...defaultValues(params, width), ...filler.values }
  const base = { title: title.toLowerCase(), suits, open: undefined, ofUsual: 1 }
  const param = closeness === undefined ? undefined : params[closeness]
  if (!steps || closeness === undefined || param?.kind !== 'length' || filler.given.includes(closeness))
    return [{ ...base, filler: { ...filler, values: usual }, measured: measure(usual) }]
  const usually = usual[closeness] as number
  return closeValues(param, { usual: usually, limit, units, steps }).map((value) => {
    const values = { ...usual, [closeness]: value }
    return {
      ...base,
      open: { key: closeness, label: param.label.toLowerCase() },
      ofUsual: Math.abs(value - usually) < 1e-5 ? 1 : value / usually,
      filler: { ...filler, values, given: [...filler.given, closeness].sort() },
      measured: measure(values),
    }
  })
}
