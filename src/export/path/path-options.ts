import type { ExportValues } from '../exporter.ts'
import { MIRRORS, ORIGINS } from './placement.ts'

/** Options that every machine path has. */
export const COMMON_OPTIONS = {
  run: { kind: 'choice', label: 'What to run', default: 'line', of: ['line', 'bounds'] },
  units: {
    kind: 'choice',
    label: 'Units (plan: inches if the plan is in inches)',
    default: 'plan',
    of: ['plan', 'mm', 'in'],
  },
  mirror: { kind: 'choice', label: 'Mirror', default: 'none', of: MIRRORS },
  turn: { kind: 'count', label: 'Turn clockwise, degrees', default: 0, min: -360, max: 360 },
  points: { kind: 'choice', label: 'Points', default: 'path', of: ['path', 'stitches'] },
  deviation: { kind: 'length', label: 'Greatest deviation from the line', default: 0.1, min: 0.005, max: 2 },
  maxPoints: {
    kind: 'count',
    label: 'Most points in one file (0: no limit)',
    default: 0,
    min: 0,
    max: 10_000_000,
  },
  decimals: { kind: 'count', label: 'Decimals', default: 4, min: 2, max: 6 },
} as const

/** Options of the paths that lie on a machine's table, besides the common ones. */
export const TABLE_OPTIONS = {
  ...COMMON_OPTIONS,
  box: { kind: 'choice', label: 'The origin is a corner of', default: 'quilt', of: ['quilt', 'line'] },
  origin: { kind: 'choice', label: 'Origin', default: 'bottom-left', of: ORIGINS },
  yAxis: { kind: 'choice', label: 'Direction of y', default: 'up', of: ['up', 'down'] },
} as const

export type TableValues = ExportValues<typeof TABLE_OPTIONS>
