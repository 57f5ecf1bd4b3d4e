import type { Box } from '../geometry/stroke.ts'
import type { Reach } from './pieces.ts'

/** The box of nothing. */
export const NO_BOX: Box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity }

export const unionOf = (a: Box, b: Box): Box => ({
  minX: Math.min(a.minX, b.minX),
  minY: Math.min(a.minY, b.minY),
  maxX: Math.max(a.maxX, b.maxX),
  maxY: Math.max(a.maxY, b.maxY),
})

/** Whether a box can be stitched without moving the quilt. */
export const fitsWithin = ({ minX, minY, maxX, maxY }: Box, [width, height]: Reach): boolean =>
  maxX - minX <= width && maxY - minY <= height
