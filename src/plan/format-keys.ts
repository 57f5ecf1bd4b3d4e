import type { Path } from './problems.ts'
import { planFormat } from './schema.ts'

interface Inner {
  readonly description?: string | undefined
  readonly def?: {
    readonly type?: string
    readonly innerType?: unknown
    readonly element?: unknown
    readonly items?: readonly unknown[]
    readonly valueType?: unknown
    readonly options?: readonly unknown[]
    readonly shape?: Readonly<Record<string, unknown>>
  }
}

/** The keys that the plan format knows at a place. */
export const keysAt = (path: Path): string[] => [
  ...new Set(formatsAt(path).flatMap((format) => Object.keys(format.def?.shape ?? {}))),
]

/** What the plan format says that a place is for. */
export const describeAt = (path: Path): string | undefined =>
  written(path)
    .map(descriptionOf)
    .find((text) => text !== undefined)

const descriptionOf = (format: Inner): string | undefined =>
  format.description ??
  (format.def?.type === 'optional' ? descriptionOf(format.def.innerType as Inner) : undefined)

/** The forms that a place may have, with unions and optional parts taken apart. */
const formatsAt = (path: Path): Inner[] => written(path).flatMap(formsOf)

/** The forms as they are declared. */
const written = (path: Path): Inner[] =>
  path.reduce<Inner[]>(
    (formats, step) => formats.flatMap(formsOf).flatMap((format) => partOf(format, step)),
    [planFormat as Inner],
  )

function partOf({ def }: Inner, step: string | number): Inner[] {
  if (def?.type === 'object' && def.shape && Object.hasOwn(def.shape, step))
    return [def.shape[step as string] as Inner]
  if (def?.type === 'record') return [def.valueType as Inner]
  if (def?.type === 'array') return [def.element as Inner]
  if (def?.type === 'tuple') return def.items?.[Number(step)] ? [def.items[Number(step)] as Inner] : []
  return []
}

function formsOf(format: Inner): Inner[] {
  const { def } = format
  if (def?.type === 'optional' || def?.type === 'nullable') return formsOf(def.innerType as Inner)
  if (def?.type === 'union') return (def.options ?? []).flatMap((option) => formsOf(option as Inner))
  return [format]
}
