import type { Point } from '../geometry/point.ts'
import type { Rectangle } from './centre-contract.ts'
import type { Grid } from './tree-walk.ts'

/** The number of columns and of rows, two fine cells each, that suit a distance between lines. */
export const centreGrid = ({ width, height }: Rectangle, spacing: number): Grid => ({
  columns: Math.max(1, Math.round(width / spacing / 2)),
  rows: Math.max(1, Math.round(height / spacing / 2)),
})

/** The size of one fine cell, mm. */
export const fineCell = ({ width, height }: Rectangle, { columns, rows }: Grid): Point => [
  width / (2 * columns),
  height / (2 * rows),
]
