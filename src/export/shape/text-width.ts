/** Widths of the characters from space to "~", in thousandths of the size. @source Adobe's font metrics for Helvetica */
const WIDTHS = {
  regular: `278 278 355 556 556 889 667 191 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 278 278
    584 584 584 556 1015 667 667 722 722 667 611 778 722 278 500 667 556 833 722 778 667 778 722 667 611 722 667 944 667 667
    611 278 278 278 469 556 333 556 556 500 556 556 278 556 556 222 222 500 222 833 556 556 556 556 333 500 278 556 500 722
    500 500 500 334 260 334 584`,
  bold: `278 333 474 556 556 889 722 238 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 333 333 584
    584 584 611 975 722 722 722 722 667 611 778 722 278 556 722 611 833 722 778 667 778 722 667 611 722 667 944 667 667 611
    333 278 333 584 556 333 556 611 556 611 556 333 611 611 278 278 556 278 889 611 611 611 611 389 556 333 611 556 778 556
    556 500 389 280 389 584`,
}
const TABLES = {
  regular: WIDTHS.regular.split(/\s+/).map(Number),
  bold: WIDTHS.bold.split(/\s+/).map(Number),
}

/** What a character outside the table is taken for, thousandths. */
const OTHER = 600

/** What the width of a text depends on. */
export interface Lettering {
  readonly size: number
  readonly weight: 'regular' | 'bold'
}

/** How wide a text in Helvetica is, in the unit of `size`. An accented letter is as wide as the bare one. */
export function textWidth(
  text: string,
  { size, weight }: { size: number; weight: 'regular' | 'bold' },
): number {
  let sum = 0
  for (const character of text) {
    const code = character.normalize('NFD').charCodeAt(0)
    sum += TABLES[weight][code - 32] ?? OTHER
  }
  return (sum * size) / 1000
}

/** The text in lines no wider than `width`, broken at spaces; a single longer word stays whole. */
export function wrapToWidth(text: string, width: number, style: Lettering): string[] {
  const lines: string[] = []
  let current = ''
  for (const word of text.split(/\s+/)) {
    const longer = current ? `${current} ${word}` : word
    if (current && textWidth(longer, style) > width) {
      lines.push(current)
      current = word
    } else current = longer
  }
  return current ? [...lines, current] : lines
}

/** The text, or as much of its beginning as fits into `width` with "..." behind it. */
export function fitText(text: string, width: number, style: Lettering): string {
  if (textWidth(text, style) <= width) return text
  let kept = [...text]
  while (kept.length > 0 && textWidth(`${kept.join('')}...`, style) > width) kept = kept.slice(0, -1)
  return `${kept.join('').trimEnd()}...`
}
