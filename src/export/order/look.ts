import type { Pen } from '../shape/shape.ts'

/** Colours of the figures. */
export const INK = '#161616'
export const DITCH = '#a8481c'
export const DONE = '#b9b9b9'
export const SEAM = '#d9d3c7'
export const PLATE = '#1f4e79'
export const FRAME = { colour: '#8f8f8f', width: 0.2 } as const satisfies Pen
