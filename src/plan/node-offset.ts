import { type Document, isAlias, isMap, isNode, isScalar, isSeq } from 'yaml'
import type { Path } from './problems.ts'

/** Character offset of the part at `path`, or of the nearest one around it. */
export function offsetOf(document: Document, path: Path, of: 'key' | 'value'): number {
  let node: unknown = document.contents
  let offset = startOf(node) ?? 0
  for (const [i, step] of path.entries()) {
    if (isAlias(node)) node = node.resolve(document)
    if (isMap(node)) {
      const pair = node.items.find(({ key }) => isScalar(key) && String(key.value) === String(step))
      if (!pair) return offset
      const isKeyWanted = of === 'key' && i === path.length - 1
      offset = startOf(isKeyWanted ? pair.key : (pair.value ?? pair.key)) ?? startOf(pair.key) ?? offset
      node = pair.value
    } else if (isSeq(node)) {
      node = node.items[Number(step)]
      offset = startOf(node) ?? offset
    } else return offset
  }
  return offset
}

const startOf = (node: unknown): number | undefined => (isNode(node) ? node.range?.[0] : undefined)
