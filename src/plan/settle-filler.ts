import type { Motif, Param, Params, ValuesOf } from '../motif/contract.ts'
import { type LengthUnit, MM_PER } from '../units.ts'
import { LENGTH_FORMS, parseLength } from './length.ts'
import type { FillerChoice } from './plan.ts'
import { type Path, type Problems, show } from './problems.ts'
import type { Catalog } from './settle-plan.ts'
import { nearestName } from './suggest.ts'

type Written = string | number | boolean

interface Context {
  readonly path: Path
  /** The band's widths, mm: their mean decides defaults, each must suit the motif. */
  readonly strip: { readonly mean: number; readonly widths: readonly number[] }
  readonly units: LengthUnit
  readonly catalog: Catalog
  readonly problems: Problems
  readonly warnings: Problems
}

/** Looks a filler up, fills in its values and checks that it suits the band. */
export function settleFiller(
  written: string | Record<string, Record<string, Written> | null>,
  context: Context,
): FillerChoice | undefined {
  const { path, catalog, problems } = context
  const names = typeof written === 'string' ? [written] : Object.keys(written)
  const [name] = names
  if (name === undefined || names.length > 1) {
    problems.add('plan/filler', path, `names ${names.length} fillers; give one`)
    return undefined
  }
  const motif = Object.hasOwn(catalog.motifs, name) ? catalog.motifs[name] : undefined
  if (!motif) {
    const known = Object.keys(catalog.motifs)
    const near = nearestName(name, ['none', ...known])
    problems.add(
      'plan/unknown-filler',
      path,
      `is ${show(name)}; allowed: none, ${known.join(', ')}`,
      near && `did you mean ${near}?`,
    )
    return undefined
  }
  checkSuits(name, motif, context)
  const given = typeof written === 'string' ? {} : (written[name] ?? {})
  const values = settleValues(motif.params, given, {
    ...context,
    path: typeof written === 'string' ? path : [...path, name],
  })
  return { name, values, given: Object.keys(given) }
}

/** A motif's values for a band of this width: its defaults, with lengths given in widths made mm and kept within limits. */
export function defaultValues(params: Params, width: number): ValuesOf<Params> {
  return Object.fromEntries(
    Object.entries(params).map(([key, param]) => [key, defaultOf(param, width)]),
  ) as ValuesOf<Params>
}

function defaultOf(param: Param, width: number): number | string {
  if (param.kind !== 'length') return param.default
  if (typeof param.default === 'number') return param.default
  return Math.min(param.max, Math.max(param.min, param.default.widths * width))
}

function settleValues(params: Params, given: Record<string, Written>, context: Context): ValuesOf<Params> {
  const values: Record<string, number | string> = { ...defaultValues(params, context.strip.mean) }
  for (const [key, written] of Object.entries(given)) {
    const param = Object.hasOwn(params, key) ? params[key] : undefined
    const at = [...context.path, key]
    if (!param) {
      const known = Object.keys(params)
      const near = nearestName(key, known)
      context.problems.add(
        'plan/unknown-value',
        at,
        `unknown value ${show(key)}; allowed: ${known.join(', ')}`,
        near && `did you mean ${near}?`,
      )
      continue
    }
    const value = settleValue(param, written, { ...context, path: at })
    if (value !== undefined) values[key] = value
  }
  return values as ValuesOf<Params>
}

function settleValue(
  param: Param,
  written: Written,
  { path, units, problems }: Context,
): number | string | undefined {
  const refuse = (allowed: string) => {
    problems.add('plan/filler-value', path, `is ${show(written)}; allowed: ${allowed}`)
    return undefined
  }
  if (param.kind === 'choice')
    return param.of.includes(String(written)) ? String(written) : refuse(param.of.join(', '))
  if (param.kind === 'length') {
    const mm = typeof written === 'boolean' ? undefined : parseLength(written, units)
    if (mm === undefined) return refuse(LENGTH_FORMS)
    const text = (limit: number) => `${Number((limit / MM_PER[units]).toPrecision(4))} ${units}`
    return mm >= param.min && mm <= param.max ? mm : refuse(`${text(param.min)} to ${text(param.max)}`)
  }
  const isNumber = typeof written === 'number' && (param.kind === 'ratio' || Number.isInteger(written))
  const kind = param.kind === 'count' ? 'whole numbers ' : ''
  return isNumber && written >= param.min && written <= param.max
    ? written
    : refuse(`${kind}${param.min} to ${param.max}`)
}

/** Too narrow is refused, too wide is said. */
function checkSuits(
  name: string,
  motif: Motif,
  { path, strip, units, catalog, problems, warnings }: Context,
): void {
  const narrowest = Math.min(...strip.widths)
  const widest = Math.max(...strip.widths)
  const text = (mm: number) => `${Number((mm / MM_PER[units]).toPrecision(3))} ${units}`
  const bandPath = path.slice(0, 2)
  if (narrowest < motif.suits.min - 1e-6) {
    const suiting = Object.keys(catalog.motifs).filter(
      (key) => catalog.motifs[key]!.suits.min <= narrowest + 1e-6,
    )
    const instead = suiting.length > 0 ? `; ${suiting.join(', ')} would fit` : ''
    problems.add(
      'plan/band-too-narrow',
      bandPath,
      `is ${text(narrowest)} wide; ${name} needs ${text(motif.suits.min)} or more${instead}`,
    )
  } else if (widest > motif.suits.max + 1e-6) {
    warnings.add(
      'plan/band-wide',
      bandPath,
      `is ${text(widest)} wide; ${name} suits up to ${text(motif.suits.max)}`,
    )
  }
}
