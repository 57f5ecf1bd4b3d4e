import { Document, isCollection, isMap, isPair, isScalar, type Node, Scalar } from 'yaml'
import { type PlanFile, planFormat } from './schema.ts'

/** Groups of keys in one line are at most this long. */
const LINE = 110

/**
 * A plan as canonical YAML: keys in the order of the format, small groups in one line, a band a line. Reading what was
 * written gives the same plan, and writing that again the same text.
 */
export function writePlan(file: PlanFile): string {
  const document = new Document(planFormat.parse(file))
  const root = document.contents
  if (isMap(root)) {
    for (const { key, value } of root.items) {
      if (isScalar(key) && key.value === 'bands' && isCollection(value)) value.items.forEach(layOut)
      else layOut(value)
    }
  }
  return document.toString({ lineWidth: 0, flowCollectionPadding: true })
}

/** Puts a group in one line if it fits; colours in quotes, as they begin with the sign of a comment. */
function layOut(node: unknown): void {
  if (isScalar(node) && typeof node.value === 'string' && node.value.startsWith('#'))
    node.type = Scalar.QUOTE_DOUBLE
  if (!isCollection(node)) return
  for (const item of node.items) layOut(isPair(item) ? item.value : item)
  node.flow = JSON.stringify((node as Node).toJSON()).length < LINE
}
