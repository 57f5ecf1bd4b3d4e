/**
 * A number as text: at most `decimals` digits behind the point, no exponent, no trailing zeros, never "-0".
 *
 * @param decimals  0 to 6
 */
export function numberText(value: number, decimals: number): string {
  const power = 10 ** decimals
  const rounded = Math.round(value * power) / power
  return rounded === 0 ? '0' : String(rounded)
}
