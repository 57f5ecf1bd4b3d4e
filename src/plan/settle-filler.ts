import type { Motif, Param, Params, ValuesOf } from '../motif/contract.ts'
import { type Known, namesOf, paramsOf } from './catalog.ts'
import type { Entry } from './entry.ts'
import { lengthsApart } from './length.ts'
import type { FillerChoice } from './plan.ts'
import { listNames, show } from './problems.ts'
import { didYouMean } from './suggest.ts'

/** A filler's name and the group of its values; undefined if none can be made out. */
export interface NamedFiller {
  readonly name: string
  readonly at: Entry
  readonly values: Entry | undefined
}

/** Reads `name` or `{ name: { ...values } }`. */
export function nameFiller(entry: Entry): NamedFiller | undefined {
  const text = entry.text()
  if (text !== undefined) return { name: text, at: entry, values: undefined }
  const names = entry.keys()
  const [name] = names
  if (name !== undefined && names.length === 1) return { name, at: entry, values: entry.at(name) }
  if (!entry.isGiven) return undefined
  const message =
    names.length === 0 ? 'names no filler; give one, or none' : `names ${names.length} fillers; give one`
  const hint = names.length > 1 ? 'a filler for each patch needs pieced: { unit: ... }' : undefined
  return entry.refuse({ code: 'plan/filler', message, hint })
}

/** The filler of a strip of band: `widths` are those of the sides that it fills, mm; `mean` decides its defaults. */
export interface StripWidths {
  readonly mean: number
  readonly widths: readonly number[]
}

/** A band's filler with every value, checked against the widths that the motif suits. */
export function settleMotif({ name, at, values }: NamedFiller, strip: StripWidths): FillerChoice | undefined {
  const { motifs } = at.desk.catalog
  const motif = Object.hasOwn(motifs, name) ? motifs[name] : undefined
  if (!motif) return refuseFiller({ name, at, values }, Object.keys(motifs))
  checkSuits({ name, motif, at }, strip)
  const given = settleValues(motif.params, values)
  const settled = { ...defaultValues(motif.params, strip.mean), ...given }
  return { name, values: settled as ValuesOf<Params>, given: Object.keys(given).sort() }
}

/** A filler for the centre or a patch, with the values that are given. */
export function settleKnown(
  { name, at, values }: NamedFiller,
  known: Known | undefined,
): FillerChoice | undefined {
  const names = namesOf(known)
  if (!names.includes(name)) return refuseFiller({ name, at, values }, names)
  const given = settleValues(paramsOf(known, name), values)
  return { name, values: given as ValuesOf<Params>, given: Object.keys(given).sort() }
}

function refuseFiller({ name, at, values }: NamedFiller, known: readonly string[]): undefined {
  const allowed = ['none', ...known]
  const fault = {
    code: 'plan/unknown-filler',
    message: `is ${show(name)}; allowed: ${listNames(allowed)}`,
    hint: didYouMean(name, allowed),
  }
  return values ? values.refuse({ ...fault, of: 'key' }) : at.refuse(fault)
}

/**
 * A motif's values for a band of this width: its defaults, with lengths given in widths made mm and kept within limits.
 *
 * @param width  mm
 */
export const defaultValues = (params: Params, width: number): ValuesOf<Params> =>
  Object.fromEntries(
    Object.entries(params).map(([key, param]) => [key, defaultOf(param, width)]),
  ) as ValuesOf<Params>

function defaultOf(param: Param, width: number): number | string {
  if (param.kind !== 'length') return param.default
  if (typeof param.default === 'number') return param.default
  return Math.min(param.max, Math.max(param.min, param.default.widths * width))
}

function settleValues(params: Params, group: Entry | undefined): Record<string, number | string> {
  if (!group || group.value === null || group.value === undefined) return {}
  if (!group.isGroup || Array.isArray(group.value)) {
    group.refuse({
      code: 'plan/value',
      message: `is ${show(group.value)}; expected the filler's values, each with its key`,
    })
    return {}
  }
  const settled = group.keys().flatMap((key) => {
    const value = settleNamed(key, params, group.at(key))
    return value === undefined ? [] : [[key, value] as const]
  })
  return Object.fromEntries(settled)
}

function settleNamed(key: string, params: Params, entry: Entry): number | string | undefined {
  const param = Object.hasOwn(params, key) ? params[key] : undefined
  if (param) return settleValue(param, entry)
  const known = Object.keys(params)
  const message = `unknown value ${show(key)}; allowed: ${listNames(known)}`
  return entry.refuse({ code: 'plan/unknown-value', message, hint: didYouMean(key, known), of: 'key' })
}

function settleValue(param: Param, entry: Entry): number | string | undefined {
  if (param.kind === 'choice') {
    const found = param.of.find((choice) => choice === String(entry.value))
    return found ?? entry.refuseName('plan/choice', param.of)
  }
  const bounds = { least: param.min, greatest: param.max, fallback: undefined }
  if (param.kind === 'length') return entry.length(bounds)
  return entry.number(param.kind === 'count' ? { ...bounds, whole: true } : bounds)
}

/** Widths this close to a limit are within it, mm. */
const SLACK = 1e-6

/** Too narrow is refused, too wide is said. */
function checkSuits(
  { name, motif, at }: { name: string; motif: Motif; at: Entry },
  { widths }: StripWidths,
): void {
  const { units, catalog } = at.desk
  const [narrowest, widest] = [Math.min(...widths), Math.max(...widths)]
  const { min, max } = motif.suits
  const suiting = () => namesThatSuit(catalog.motifs, { min: narrowest, max: widest })
  if (narrowest < min - SLACK) {
    const [wide, needed] = lengthsApart([narrowest, min], units)
    const others = suiting()
    at.refuse({
      code: 'plan/band-too-narrow',
      message: `the band is ${wide} wide; ${name} needs ${needed} or more`,
      hint: others.length > 0 ? `${others.join(', ')} would suit` : 'leave it unquilted: none',
    })
  } else if (widest > max + SLACK) {
    const [wide, most] = lengthsApart([widest, max], units)
    const others = suiting()
    at.warn({
      code: 'plan/band-wide',
      message: `the band is ${wide} wide; ${name} suits up to ${most}`,
      hint: others.length > 0 ? `${others.join(', ')} would suit` : undefined,
    })
  }
}

/** The motifs that suit all widths of a band, mm. */
const namesThatSuit = (
  motifs: Readonly<Record<string, Motif>>,
  band: { min: number; max: number },
): string[] =>
  Object.entries(motifs)
    .filter(([, { suits }]) => suits.min <= band.min + SLACK && suits.max >= band.max - SLACK)
    .map(([name]) => name)
