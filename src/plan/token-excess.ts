import type { CST } from 'yaml'

/** Nesting or length beyond what is allowed, and where it begins in the text. */
export interface Excess {
  readonly of: 'depth' | 'entries'
  readonly offset: number
}

/**
 * Where nesting first goes deeper than `depth` levels, or a list or group of keys is longer than `entries`. Keeps a list of
 * its own instead of calling itself, so that no depth can exhaust the stack.
 */
export function tokenExcess(
  tokens: readonly CST.Token[],
  most: { readonly depth: number; readonly entries: number },
): Excess | undefined {
  const waiting = tokens.map((token) => ({ token, depth: 0 }))
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const { token, depth } = next
    if (token.type === 'document' && token.value) waiting.push({ token: token.value, depth })
    if (!('items' in token)) continue
    if (depth >= most.depth) return { of: 'depth', offset: token.offset }
    if (token.items.length > most.entries) return { of: 'entries', offset: token.offset }
    for (const { key, value } of token.items) {
      if (key) waiting.push({ token: key, depth: depth + 1 })
      if (value) waiting.push({ token: value, depth: depth + 1 })
    }
  }
  return undefined
}
