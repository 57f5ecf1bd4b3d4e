import { type CST, Lexer } from 'yaml'

/**
 * Where brackets first stand deeper in each other than `most` levels. It reads no further than that, so that a file of
 * nothing but brackets costs nothing.
 *
 * @returns the offset in the text, or undefined if they never do
 */
export function deepBracket(text: string, most: number): number | undefined {
  let [depth, offset, isScalar] = [0, 0, false]
  for (const source of new Lexer().lex(text)) {
    if (isMark(source)) {
      isScalar = source === SCALAR
      continue
    }
    if (!isScalar && (source === '[' || source === '{')) depth++
    if (!isScalar && (source === ']' || source === '}')) depth--
    if (depth > most) return offset
    offset += source.length
    isScalar = false
  }
  return undefined
}

/** The lexer's own marks, which are no part of the text: document, end of flow, and that a scalar follows. */
const SCALAR = '\u001f'
const isMark = (source: string): boolean => source === '\u0002' || source === '\u0018' || source === SCALAR

/**
 * Where a file is first nested deeper than `most` levels. Keeps a list of its own instead of calling itself, so that no depth
 * can exhaust the stack.
 *
 * @returns the offset in the text, or undefined if it never is
 */
export function deepToken(tokens: readonly CST.Token[], most: number): number | undefined {
  const waiting = tokens.map((token) => ({ token, depth: 0 }))
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const { token, depth } = next
    if (token.type === 'document' && token.value) waiting.push({ token: token.value, depth })
    if (!('items' in token)) continue
    if (depth >= most) return token.offset
    for (const { key, value } of token.items) {
      if (key) waiting.push({ token: key, depth: depth + 1 })
      if (value) waiting.push({ token: value, depth: depth + 1 })
    }
  }
  return undefined
}
