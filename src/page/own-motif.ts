import { readDrawing } from '../drawn/read-drawing.ts'
import { readDrawnRepeat } from '../drawn/read-repeat.ts'
import { pathData } from '../export/path-data.ts'

/** A motif as the plan says it, or why the drawing is none. */
export type DrawnHere = { readonly path: string } | { readonly problem: string }

/** Small drawings are drawn in small units: parts of a thousandth of one still matter. */
const DECIMALS = 5

/** The repeat that an SVG drawing holds, to be written into the plan itself: a page has no files beside it. */
export function motifFromDrawing(svg: string): DrawnHere {
  const read = readDrawnRepeat(svg)
  if ('shape' in read)
    return {
      path: readDrawing(svg)
        .map(({ stroke, isClosed }) => `${pathData(stroke, DECIMALS)}${isClosed ? 'Z' : ''}`)
        .join(''),
    }
  const at = read.position ? `Line ${read.position.line}, column ${read.position.column}: ` : ''
  return { problem: `${at}${read.message}${read.hint ? `; ${read.hint}` : ''}` }
}

/** A name for the motif in a file: small letters, digits and hyphens, and none of those taken. */
export function motifNameFor(file: string, isTaken: (name: string) => boolean): string {
  const stem = file
    .replace(/\.[^.]*$/, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
  const plain = stem.replace(/^[-0-9]+|-+$/g, '').slice(0, LONGEST) || 'drawing'
  for (let i = 1; ; i++) {
    const name = i === 1 ? plain : `${plain}-${i}`
    if (!isTaken(name)) return name
  }
}

/** Leaves room for a number within the 40 letters that a name may have. */
const LONGEST = 36
