import type { Point } from '../geometry/point.ts'
import { sideWords } from './side-words.ts'

/** The outlines that a centre and the bands round it may have: their sides and corners by name, clockwise. */
export const OUTLINES = {
  rectangle: {
    sides: ['top', 'right', 'bottom', 'left'],
    corners: ['top-left', 'top-right', 'bottom-right', 'bottom-left'],
  },
  hexagon: {
    sides: ['top', 'upper-right', 'lower-right', 'bottom', 'lower-left', 'upper-left'],
    corners: ['top-left', 'top-right', 'right', 'bottom-right', 'bottom-left', 'left'],
  },
  octagon: {
    sides: ['top', 'upper-right', 'right', 'lower-right', 'bottom', 'lower-left', 'left', 'upper-left'],
    corners: [
      'top-left',
      'top-right',
      'right-top',
      'right-bottom',
      'bottom-right',
      'bottom-left',
      'left-bottom',
      'left-top',
    ],
  },
  'on-point': {
    sides: ['upper-left', 'upper-right', 'lower-right', 'lower-left'],
    corners: ['left', 'top', 'right', 'bottom'],
  },
} as const satisfies Readonly<Record<string, Outline>>

interface Outline {
  readonly sides: readonly string[]
  readonly corners: readonly string[]
}

export type OutlineName = keyof typeof OUTLINES
export const OUTLINE_NAMES = Object.keys(OUTLINES) as [OutlineName, ...OutlineName[]]

/** The name of a side of any outline. */
export type AnySide = (typeof OUTLINES)[OutlineName]['sides'][number]
export const ANY_SIDE = [
  ...new Set(Object.values(OUTLINES).flatMap(({ sides }): readonly AnySide[] => sides)),
] as [AnySide, ...AnySide[]]

/** What an outline is called in a sentence. */
export const outlineText = (outline: OutlineName): string =>
  ({
    rectangle: 'a rectangle',
    hexagon: 'a hexagon',
    octagon: 'an octagon',
    'on-point': 'a square on point',
  })[outline]

/** The names of an outline's sides and corners, as a plan gives them, by the way its sides face. */
export function namesOf(ring: readonly Point[]): Outline {
  const sides = ring.map((_, side) => sideWords(ring, side).replace(' ', '-'))
  const known = Object.values(OUTLINES).find((outline: Outline) => outline.sides.join() === sides.join())
  return known ?? { sides, corners: [] }
}
