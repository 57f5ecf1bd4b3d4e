import { refuseDrawing } from './drawing-fault.ts'
import { DRAWING_LIMITS } from './drawing-limits.ts'

/** What may hold signs that are no tags. */
const SKIPPED = [
  { open: '<!--', close: '-->' },
  { open: '<![CDATA[', close: ']]>' },
  { open: '<?', close: '?>' },
]

/**
 * Refuses what an XML text must not even be parsed with: a document type, which could declare entities, and elements nested
 * so deeply that a parser which calls itself for every level could exhaust the stack.
 *
 * @throws DrawingRefusal `drawing/doctype`, `drawing/too-deep`
 */
export function refuseRisky(text: string): void {
  let [depth, at] = [0, text.indexOf('<')]
  while (at >= 0) {
    const skipped = SKIPPED.find(({ open }) => text.startsWith(open, at))
    const end = skipped ? text.indexOf(skipped.close, at + skipped.open.length) : tagEnd(text, at)
    if (text.startsWith('<!', at) && !skipped) refuseDoctype(at)
    if (!skipped && text[at + 1] === '/') depth--
    else if (!skipped && text[end - 1] !== '/') depth++
    if (depth > DRAWING_LIMITS.depth)
      refuseDrawing(
        'too-deep',
        `the drawing has more than ${DRAWING_LIMITS.depth} groups within each other`,
        { offset: at },
      )
    // What never ends is broken, and the parser says so.
    if (end < 0) return
    at = text.indexOf('<', skipped ? end : end + 1)
  }
}

function refuseDoctype(offset: number): void {
  refuseDrawing('doctype', 'the drawing has a document type; it is refused, for what it could declare', {
    hint: 'save it as plain SVG, or delete the line that begins with <!DOCTYPE',
    offset,
  })
}

/** Where a tag ends; a value in quotes may hold the sign that ends it. -1 if it never does. */
function tagEnd(text: string, at: number): number {
  const signs = /[>"']/g
  signs.lastIndex = at
  for (let found = signs.exec(text); found; found = signs.exec(text)) {
    if (found[0] === '>') return found.index
    const quote = text.indexOf(found[0], found.index + 1)
    if (quote < 0) return -1
    signs.lastIndex = quote + 1
  }
  return -1
}
