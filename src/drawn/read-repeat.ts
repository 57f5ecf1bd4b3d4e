import { DrawingRefusal } from './drawing-fault.ts'
import { readDrawing } from './read-drawing.ts'
import { readPath } from './read-path.ts'
import type { RepeatShape } from './repeat-shape.ts'
import { shapeRepeat } from './shape-repeat.ts'

/** What a drawing was read as: a repeat, or why not and where. */
export type RepeatRead =
  | { readonly shape: RepeatShape }
  | {
      readonly code: string
      readonly message: string
      readonly hint?: string
      /** Line and column in the drawing's text, both from 1; left out if it is about the whole. */
      readonly position?: { readonly line: number; readonly column: number }
    }

/** Reads the one path of an SVG drawing as a repeat. */
export const readDrawnRepeat = (svg: string): RepeatRead => attempt(svg, () => shapeRepeat(readDrawing(svg)))

/** Reads SVG path data as a repeat. */
export const readPathRepeat = (data: string): RepeatRead => attempt(data, () => shapeRepeat(readPath(data)))

function attempt(text: string, read: () => RepeatShape): RepeatRead {
  try {
    return { shape: read() }
  } catch (error) {
    if (!(error instanceof DrawingRefusal)) throw error
    const { code, message, hint, offset } = error.fault
    return {
      code,
      message,
      ...(hint !== undefined && { hint }),
      ...(offset !== undefined && { position: placeIn(text, offset) }),
    }
  }
}

function placeIn(text: string, offset: number): { line: number; column: number } {
  const before = text.slice(0, offset).split(/\r\n|\r|\n/)
  return { line: before.length, column: before.at(-1)!.length + 1 }
}
