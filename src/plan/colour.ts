import { formatHex, parse } from 'culori'

/** A CSS colour as `#rrggbb`, or undefined if it is none. Transparency is dropped: cloth has none. */
export const formatColour = (written: string): string | undefined => {
  const colour = parse(written.trim())
  return colour && formatHex(colour)
}
