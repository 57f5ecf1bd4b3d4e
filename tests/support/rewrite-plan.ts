import type { PlanFile } from '../../src/plan/schema.ts'

/** How many of a unit an inch has. @source 1 in = 2.54 cm exactly (international yard and pound agreement, 1959) */
const PER_INCH = { cm: 2.54, mm: 25.4 } as const

/** A plan of `anyPlan` (bare numbers in inches) with its bare lengths in another unit. */
export function inUnits(file: PlanFile, units: 'cm' | 'mm'): PlanFile {
  const one = <T>(value: T): T => (typeof value === 'number' ? ((value * PER_INCH[units]) as T) : value)
  const each = <T extends object>(values: T): T =>
    Object.fromEntries(Object.entries(values).map(([key, value]) => [key, one(value)])) as T
  const { centre, bands, binding, machine, stitch, batting } = file
  return {
    ...file,
    units,
    centre: { ...centre, width: one(centre.width), height: one(centre.height) },
    bands: bands.map((band) => ({
      ...band,
      ...(band.width !== undefined && {
        width: typeof band.width === 'object' ? each(band.width) : one(band.width),
      }),
    })),
    ...(binding !== undefined && { binding: binding === 0 ? 0 : one(binding) }),
    ...(machine && {
      machine: {
        ...machine,
        ...(machine.reach && { reach: [one(machine.reach[0]), one(machine.reach[1])] }),
      },
    }),
    ...(stitch && {
      stitch: { ...stitch, ...(stitch.length !== undefined && { length: one(stitch.length) }) },
    }),
    ...(batting && { batting: each(batting) }),
  } as PlanFile
}

/** The same data with the keys of every group in another order. */
export function shuffleKeys<T>(data: T, seed: number): T {
  let state = seed >>> 0
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state
  }
  const walk = (at: unknown): unknown => {
    if (Array.isArray(at)) return at.map(walk)
    if (typeof at !== 'object' || at === null) return at
    const entries = Object.entries(at).map((entry) => ({ entry, rank: next() }))
    entries.sort((a, b) => a.rank - b.rank)
    return Object.fromEntries(entries.map(({ entry: [key, value] }) => [key, walk(value)]))
  }
  return walk(data) as T
}
