import type { Motif, Param, Params, ValuesOf } from '../motif/contract.ts'
import type { Sides } from '../quilt/layout.ts'
import { LENGTH_FORMS, lengthHint, parseLength } from './length.ts'
import type { FillerChoice } from './plan.ts'
import { type Path, show } from './problems.ts'
import type { Settling } from './settling.ts'
import { nearestName } from './suggest.ts'

type Written = string | number | boolean

interface Context {
  readonly path: Path
  /** The band's widths, mm: their mean decides defaults, each must suit the motif. Undefined if they are not known. */
  readonly width: Sides | undefined
  readonly settling: Settling
}

/** Looks a filler up, fills in its values and checks that it suits the band. `none` is undefined. */
export function settleFiller(
  written: string | Readonly<Record<string, Readonly<Record<string, Written>> | null>>,
  context: Context,
): FillerChoice | undefined {
  const { path, settling } = context
  const names = typeof written === 'string' ? [written] : Object.keys(written)
  const [name] = names
  if (name === undefined || names.length > 1) {
    settling.problems.add('plan/filler', path, `names ${names.length} fillers; give one`)
    return undefined
  }
  const given = typeof written === 'string' ? {} : (written[name] ?? {})
  const at = typeof written === 'string' ? path : [...path, name]
  if (name === 'none' && Object.keys(given).length === 0) return undefined
  const { motifs } = settling.catalog
  const motif = Object.hasOwn(motifs, name) ? motifs[name] : undefined
  if (!motif) {
    settling.refuseName('plan/unknown-filler', at, { name, known: ['none', ...Object.keys(motifs)] })
    return undefined
  }
  checkSuits(name, motif, context)
  const values = settleValues(motif.params, given, { ...context, path: at })
  return { name, values, given: Object.keys(given).sort() }
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

const meanOf = ({ top, right, bottom, left }: Sides): number => (top + right + bottom + left) / 4

function settleValues(
  params: Params,
  given: Readonly<Record<string, Written>>,
  context: Context,
): ValuesOf<Params> {
  const mean = context.width ? meanOf(context.width) : 0
  const values: Record<string, number | string> = { ...defaultValues(params, mean) }
  for (const [key, written] of Object.entries(given)) {
    const path = [...context.path, key]
    const param = Object.hasOwn(params, key) ? params[key] : undefined
    if (!param) refuseStranger(key, Object.keys(params), { ...context, path })
    else values[key] = settleValue(param, written, { ...context, path }) ?? values[key]!
  }
  return values as ValuesOf<Params>
}

function refuseStranger(key: string, known: readonly string[], { path, settling }: Context): void {
  const near = nearestName(key, known)
  const allowed = known.length > 0 ? known.join(', ') : 'none, as this filler has no values'
  settling.problems.addKey(
    'plan/unknown-value',
    path,
    `unknown value ${show(key)}; allowed: ${allowed}`,
    near && `did you mean ${near}?`,
  )
}

function settleValue(
  param: Param,
  written: Written,
  { path, settling }: Context,
): number | string | undefined {
  const refuse = (allowed: string, hint?: string) =>
    settling.problems.add('plan/filler-value', path, `is ${show(written)}; allowed: ${allowed}`, hint)
  if (param.kind === 'choice') {
    if (param.of.includes(String(written))) return String(written)
    const near = nearestName(String(written), param.of)
    refuse(param.of.join(', '), near && `did you mean ${near}?`)
    return undefined
  }
  const isLength = param.kind === 'length'
  if (typeof written === 'boolean' || (typeof written === 'string' && !isLength))
    refuse(rangeOf(param, settling))
  else {
    const value = isLength ? parseLength(written, settling.units) : Number(written) + 0
    if (value === undefined) refuse(LENGTH_FORMS, lengthHint(written))
    else if (isAllowed(param, value)) return value
    else refuse(rangeOf(param, settling))
  }
  return undefined
}

type Measured = Exclude<Param, { kind: 'choice' }>

const isAllowed = (param: Measured, value: number): boolean =>
  value >= param.min && value <= param.max && (param.kind !== 'count' || Number.isInteger(value))

function rangeOf(param: Measured, settling: Settling): string {
  if (param.kind === 'length') return `${settling.text(param.min)} to ${settling.text(param.max)}`
  return `${param.kind === 'count' ? 'whole numbers ' : ''}${param.min} to ${param.max}`
}

/** Too narrow is refused, too wide is said. */
function checkSuits(name: string, { suits }: Motif, { path, width, settling }: Context): void {
  if (!width) return
  const narrowest = Math.min(...Object.values(width))
  const widest = Math.max(...Object.values(width))
  if (narrowest < suits.min - 1e-6) {
    const { motifs } = settling.catalog
    const fitting = Object.keys(motifs).filter((key) => motifs[key]!.suits.min <= narrowest + 1e-6)
    settling.problems.add(
      'plan/band-too-narrow',
      path,
      `the band is ${settling.text(narrowest)} wide; ${name} needs ${settling.text(suits.min)} or more`,
      fitting.length > 0 ? `${fitting.join(', ')} would fit` : undefined,
    )
  } else if (widest > suits.max + 1e-6) {
    settling.warnings.add(
      'plan/band-wide',
      path,
      `the band is ${settling.text(widest)} wide; ${name} suits up to ${settling.text(suits.max)}`,
    )
  }
}
