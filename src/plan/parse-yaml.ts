import {
  type Document,
  isAlias,
  isMap,
  isNode,
  isPair,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  parseDocument,
} from 'yaml'
import { PlanError, type Problem } from '../error.ts'
import { LIMITS } from './limits.ts'
import type { Path } from './problems.ts'

/** A file's content as plain data, and where each of its parts stands. */
export interface Parsed {
  readonly data: unknown
  /** The place of the value at `path`, or of the nearest part around it that is there. */
  positionOf(path: Path): { readonly line: number; readonly column: number }
  /** The place of a key. */
  positionOfKey(path: Path): { readonly line: number; readonly column: number }
}

/**
 * Parses YAML (JSON is YAML too).
 *
 * @throws PlanError `plan/empty`, `plan/syntax`, `plan/too-deep`, `plan/too-large`: every problem with its line and column
 */
export function parseYaml(text: string): Parsed {
  if (text.length > LIMITS.fileBytes) {
    throw new PlanError({
      code: 'plan/too-large',
      at: '',
      message: `${text.length} characters; a plan has at most ${LIMITS.fileBytes}`,
    })
  }
  refuseDeepText(text)
  const lines = new LineCounter()
  const document = parseDocument(text.replace(/^\uFEFF/, ''), {
    lineCounter: lines,
    prettyErrors: false,
    uniqueKeys: true,
    logLevel: 'silent',
  })
  const place = (offset: number) => {
    const { line, col } = lines.linePos(offset)
    return { line: Math.max(1, line), column: Math.max(1, col) }
  }
  const problems = [...document.errors, ...document.warnings].map((error): Problem => {
    return { code: 'plan/syntax', at: '', message: firstLine(error.message), position: place(error.pos[0]) }
  })
  if (problems.length > 0) throw new PlanError(problems)
  const data = plainData(document)
  return {
    data,
    positionOf: (path) => place(offsetOf(document, path, 'value')),
    positionOfKey: (path) => place(offsetOf(document, path, 'key')),
  }
}

const firstLine = (text: string): string => text.split('\n')[0] ?? text

/** Refuses nesting that no plan needs before the parser, which recurses, sees it. */
function refuseDeepText(text: string): void {
  let depth = 0
  for (const c of text) {
    if (c === '[' || c === '{') depth++
    if (c === ']' || c === '}') depth--
    if (depth > 100)
      throw new PlanError({
        code: 'plan/too-deep',
        at: '',
        message: `brackets nested more than 100 deep; a plan has at most ${LIMITS.depth} levels`,
      })
  }
  let indents = 0
  let last = -1
  for (const line of text.split('\n')) {
    const indent = line.length - line.trimStart().length
    if (line.trim() === '') continue
    indents =
      indent > last
        ? indents + 1 + (line.match(/^\s*(- )+/)?.[0].split('- ').length ?? 1) - 1
        : indent === 0
          ? 0
          : indents
    last = indent
    if (indents > 1000)
      throw new PlanError({
        code: 'plan/too-deep',
        at: '',
        message: `nested more than 1000 deep; a plan has at most ${LIMITS.depth} levels`,
      })
  }
}

function plainData(document: Document): unknown {
  if (document.contents === null)
    throw new PlanError({
      code: 'plan/empty',
      at: '',
      message: 'the file is empty; "ditchline new FILE" writes one to start from',
      position: { line: 1, column: 1 },
    })
  let data: unknown
  try {
    data = document.toJS({ maxAliasCount: LIMITS.aliases })
  } catch (error) {
    throw new PlanError({
      code: 'plan/syntax',
      at: '',
      message: firstLine((error as Error).message),
      position: { line: 1, column: 1 },
    })
  }
  if (depthOf(data) > LIMITS.depth)
    throw new PlanError({
      code: 'plan/too-deep',
      at: '',
      message: `more than ${LIMITS.depth} levels of nesting`,
    })
  return data
}

function depthOf(data: unknown): number {
  if (typeof data !== 'object' || data === null) return 0
  let deepest = 0
  const stack: { at: object; depth: number }[] = [{ at: data, depth: 1 }]
  while (stack.length > 0) {
    const { at, depth } = stack.pop()!
    deepest = Math.max(deepest, depth)
    if (depth > LIMITS.depth) return depth
    for (const child of Object.values(at))
      if (typeof child === 'object' && child !== null) stack.push({ at: child, depth: depth + 1 })
  }
  return deepest
}

/** Character offset of the part at `path`, or of the nearest one around it. */
function offsetOf(document: Document, path: Path, of: 'key' | 'value'): number {
  let node: unknown = document.contents
  let offset = startOf(node) ?? 0
  for (const [i, step] of path.entries()) {
    if (isAlias(node)) node = node.resolve(document)
    if (isMap(node)) {
      const pair = node.items.find(
        (item) => isPair(item) && isScalar(item.key) && String(item.key.value) === String(step),
      )
      if (!pair) return offset
      const isLast = i === path.length - 1
      offset =
        (isLast && of === 'key' ? startOf(pair.key) : (startOf(pair.value) ?? startOf(pair.key))) ?? offset
      node = pair.value
    } else if (isSeq(node)) {
      node = node.items[Number(step)]
      offset = startOf(node) ?? offset
    } else return offset
  }
  return offset
}

const startOf = (node: unknown): number | undefined => (isNode(node) ? (node as Node).range?.[0] : undefined)
