/** What a picture is drawn with: chosen for cloth and thread. */
export const INK = '#3b3230'
export const PAPER = '#fffdf8'
/** A largest place without stitching, and one that the batting does not allow. */
export const GAP = '#5b3f8c'
export const TOO_LARGE = '#b3262b'

/** Whether a #rrggbb colour is lighter than middle grey; a named colour is taken for dark. */
export function isLight(colour: string): boolean {
  const [r, g, b] = (colour.match(/^#(..)(..)(..)$/) ?? []).slice(1).map((hex) => Number.parseInt(hex, 16))
  return r !== undefined && 0.3 * r + 0.59 * g! + 0.11 * b! > 128
}
