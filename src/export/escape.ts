/**
 * Text for SVG and HTML, between tags or in quoted attributes. Control characters that XML 1.0 forbids are dropped.
 *
 * @source XML 1.0, 2.2 Char and 2.4
 */
export function escapeXml(text: string): string {
  return dropForbidden(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;')
}

function dropForbidden(text: string): string {
  let kept = ''
  for (const character of text) {
    const code = character.codePointAt(0)!
    const allowed = code >= 0x20 || code === 0x09 || code === 0x0a || code === 0x0d
    if (allowed && !(code >= 0xd800 && code <= 0xdfff) && code !== 0xfffe && code !== 0xffff)
      kept += character
  }
  return kept
}

/** Signs that have a plain spelling. */
const PLAIN: Readonly<Record<string, string>> = {
  '\u00bc': ' 1/4',
  '\u00bd': ' 1/2',
  '\u00be': ' 3/4',
  '\u215b': ' 1/8',
  '\u215c': ' 3/8',
  '\u215d': ' 5/8',
  '\u215e': ' 7/8',
  '\u2033': '"',
  '\u2032': "'",
  '\u2192': '->',
  '\u2190': '<-',
  '\u2013': '-',
  '\u2014': '-',
  '\u2018': "'",
  '\u2019': "'",
  '\u201c': '"',
  '\u201d': '"',
  '\u2026': '...',
  '\u00d7': 'x',
  '\u00b0': ' degrees',
  '\u00df': 'ss',
  '\u00e6': 'ae',
  '\u00f8': 'o',
}

/** Characters beyond Latin-1 that WinAnsi has. @source ISO 32000-1, Annex D.2 */
const WIN_ANSI = new Set(
  '\u20ac\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u017d\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u017e\u0178',
)

const isAscii = (c: string): boolean => c >= ' ' && c <= '~'
const isWinAnsi = (c: string): boolean =>
  isAscii(c) || WIN_ANSI.has(c) || (c >= '\u00a0' && c <= '\u00ff' && c !== '\u00ad')

/** Text in the characters that a PDF's standard fonts have; a sign without a spelling becomes "?". */
export const winAnsiText = (text: string): string => spell(text, isWinAnsi)

/** Text in printable ASCII, on one line; a sign without a spelling becomes "?". */
export const asciiText = (text: string): string => spell(text, isAscii)

function spell(text: string, known: (character: string) => boolean): string {
  let spelled = ''
  for (const character of text.normalize('NFC').replace(/\s+/g, ' ')) {
    if (known(character)) spelled += character
    else spelled += PLAIN[character] ?? withoutAccents(character, known)
  }
  return spelled
}

function withoutAccents(character: string, known: (character: string) => boolean): string {
  const bare = [...character.normalize('NFKD')].filter(known).join('')
  if (bare) return bare
  return /\p{Cc}|\p{Cf}|\p{M}/u.test(character) ? '' : '?'
}

/**
 * Lines of at most `length` characters, broken at spaces; a longer word is cut.
 */
export function wrapText(text: string, length: number): string[] {
  const lines: string[] = []
  let current = ''
  for (const word of text.split(' ').flatMap((w) => chop(w, length))) {
    if (current && current.length + 1 + word.length > length) {
      lines.push(current)
      current = word
    } else current = current ? `${current} ${word}` : word
  }
  return current ? [...lines, current] : lines
}

function chop(word: string, length: number): string[] {
  const pieces: string[] = []
  for (let i = 0; i < word.length; i += length) pieces.push(word.slice(i, i + length))
  return pieces
}

/**
 * Comment lines for RS-274: printable ASCII, no bracket inside, at most 80 characters with their brackets. A space
 * keeps a text that starts with "MSG," from being taken for a message.
 *
 * @source NISTIR 6556 3.3.4: comments don't nest and end on their line
 */
export function gcodeComments(text: string): string[] {
  const plain = asciiText(text)
    .replaceAll('(', '[')
    .replaceAll(')', ']')
    .replaceAll('%', ' percent')
    .replaceAll(';', ',')
  return wrapText(plain, 77).map((line) => `(${/^msg/i.test(line) ? ' ' : ''}${line})`)
}

/** Values for group code 999 of DXF: printable ASCII, at most 80 characters each. */
export const dxfComments = (text: string): string[] => wrapText(asciiText(text), 80)
