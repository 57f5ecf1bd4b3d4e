import type { Point } from '../../geometry/point.ts'
import type { Box } from '../../geometry/stroke.ts'

/** `#rrggbb` */
export type Colour = `#${string}`

/** How a line is drawn: width and dashes in mm. */
export interface Pen {
  readonly colour: Colour
  readonly width: number
  readonly dash?: readonly number[]
}

/**
 * What a page or figure is made of, drawn one after the other; mm, x right, y down, from the top left of the page. SVG
 * and PDF are two renderings of the same list.
 */
export type Shape =
  | { readonly kind: 'lines'; readonly polylines: readonly (readonly Point[])[]; readonly pen: Pen }
  | { readonly kind: 'area'; readonly points: readonly Point[]; readonly fill?: Colour; readonly pen?: Pen }
  | {
      readonly kind: 'disc'
      readonly centre: Point
      readonly radius: number
      readonly fill?: Colour
      readonly pen?: Pen
    }
  | {
      readonly kind: 'text'
      /** On the baseline: where the text starts, has its middle, or ends. */
      readonly at: Point
      readonly text: string
      /** Height of the letter box, mm. */
      readonly size: number
      readonly anchor: 'start' | 'middle' | 'end'
      readonly weight: 'regular' | 'bold'
      readonly colour: Colour
      /** Radians, clockwise on the page. */
      readonly turn?: number
    }
  | { readonly kind: 'layer'; readonly name: string; readonly shapes: readonly Shape[] }
  | { readonly kind: 'clip'; readonly box: Box; readonly shapes: readonly Shape[] }

/** A page: its size and what is on it, mm. */
export interface Page {
  readonly width: number
  readonly height: number
  readonly shapes: readonly Shape[]
}

/** How a text is set, besides its place and words. */
export interface TextStyle {
  /** mm; 3.2 if not given */
  readonly size?: number
  readonly anchor?: 'start' | 'middle' | 'end'
  readonly weight?: 'regular' | 'bold'
  readonly colour?: Colour
  readonly turn?: number
}

/** A text with the usual style for what is not given: 3.2 mm, regular, black, from its start. */
export const textShape = (at: Point, text: string, style: TextStyle = {}): Shape => ({
  kind: 'text',
  at,
  text,
  size: 3.2,
  anchor: 'start',
  weight: 'regular',
  colour: '#000000',
  ...style,
})

/** An upright rectangle. */
export const boxShape = (box: Box, look: { readonly fill?: Colour; readonly pen?: Pen }): Shape => ({
  kind: 'area',
  points: [
    [box.minX, box.minY],
    [box.maxX, box.minY],
    [box.maxX, box.maxY],
    [box.minX, box.maxY],
  ],
  ...look,
})

/** An arrow head whose tip lies on `tip`, pointing along the unit vector `along`. */
export function arrowHead(
  tip: Point,
  along: Point,
  look: { readonly size: number; readonly fill: Colour },
): Shape {
  const back: Point = [tip[0] - along[0] * look.size, tip[1] - along[1] * look.size]
  const [ox, oy] = [-along[1] * look.size * 0.38, along[0] * look.size * 0.38]
  return {
    kind: 'area',
    points: [tip, [back[0] + ox, back[1] + oy], [back[0] - ox, back[1] - oy]],
    fill: look.fill,
  }
}
