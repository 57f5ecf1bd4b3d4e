import type { Path } from './plan-text.ts'

/** A place of the plan as problems name it: `bands[2].filler`. */
export const pathText = (path: Path): string =>
  path.map((step, i) => (typeof step === 'number' ? `[${step}]` : i === 0 ? step : `.${step}`)).join('')

/** A place with every position left open: `bands[].filler`. */
export const patternOf = (path: Path): string => pathText(path).replaceAll(/\[\d+\]/g, '[]')

/** A place as an id in the page. */
export const idOf = (path: Path): string => path.join('-').replaceAll(/[^\w-]/g, '_')

/** What a plan file says at a place. */
export const valueAt = (file: unknown, path: Path): unknown =>
  path.reduce<unknown>(
    (value, step) =>
      typeof value === 'object' && value !== null
        ? (value as Record<string | number, unknown>)[step]
        : undefined,
    file,
  )
