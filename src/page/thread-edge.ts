/** Whether a colour is lighter than middle grey. Colours come from the plan as #rrggbb. */
function isLight(colour: string): boolean {
  const [r, g, b] = (colour.match(/^#(..)(..)(..)$/) ?? []).slice(1).map((hex) => Number.parseInt(hex, 16))
  return r !== undefined && 0.3 * r + 0.59 * g! + 0.11 * b! > 128
}

/** The edge that a thread gets so that one of the fabric's own colour can still be followed. */
export const edgeOf = (thread: string, strength: number): string =>
  isLight(thread) ? `rgba(59, 50, 48, ${strength})` : `rgba(255, 253, 248, ${strength + 0.1})`
