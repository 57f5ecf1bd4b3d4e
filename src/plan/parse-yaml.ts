import {
  type Alias,
  Composer,
  type Document,
  isAlias,
  isMap,
  isNode,
  isPair,
  isScalar,
  isSeq,
  LineCounter,
  Parser,
  visit,
  type YAMLMap,
} from 'yaml'
import { PlanError, type Problem } from '../error.ts'
import { LIMITS } from './limits.ts'
import { deepBracket, deepToken } from './nesting.ts'
import { printable } from './printable.ts'
import { byPosition, type Locate, type Path, pathText, show } from './problems.ts'

/** A file's content as plain data, and where each of its parts stands. */
export interface Parsed {
  readonly data: Readonly<Record<string, unknown>>
  readonly locate: Locate
  /** Keys that are given twice: the data has the last one. */
  readonly twins: readonly Problem[]
}

const START = { line: 1, column: 1 }

const refuse = (code: string, message: string, position = START): PlanError =>
  new PlanError({ code, message, at: '', position })

/**
 * Parses YAML (JSON is YAML too).
 *
 * @throws PlanError `plan/too-large`, `plan/empty`, `plan/syntax`, `plan/too-deep`, `plan/aliases`, `plan/root`: every
 *   problem with its line and column
 */
export function parseYaml(text: string): Parsed {
  refuseLarge(text)
  const lines = new LineCounter()
  const place = (offset: number) => {
    const { line, col } = lines.linePos(offset)
    return { line: Math.max(1, line), column: Math.max(1, col) }
  }
  const document = parseText(text.replace(/^\uFEFF/, ''), { lines, place })
  refuseSyntax(document, place)
  if (document.contents === null || (isScalar(document.contents) && document.contents.value === null))
    throw refuse('plan/empty', 'the file is empty; "ditchline new FILE" writes a plan to start from')
  const twins = inspect(document, place)
  const data = plainData(document)
  if (typeof data !== 'object' || data === null || Array.isArray(data)) {
    const what = Array.isArray(data) ? 'a list' : 'a single value'
    const message = `the file holds ${what}; expected keys such as centre and bands, each on a line of its own`
    throw refuse('plan/root', message, place(startOf(document.contents) ?? 0))
  }
  const locate: Locate = (path, of) => place(offsetOf(document, path, of))
  return { data: data as Record<string, unknown>, locate, twins }
}

/** Counts bytes in UTF-8 without encoding the text. */
function refuseLarge(text: string): void {
  let bytes = text.length
  for (let i = 0; i < text.length && bytes <= LIMITS.fileBytes; i++) {
    const code = text.charCodeAt(i)
    if (code > 0x7f) bytes += code > 0x7ff && (code < 0xd800 || code > 0xdfff) ? 2 : 1
  }
  if (bytes <= LIMITS.fileBytes) return
  const allowed = `${LIMITS.fileBytes / 1024} KiB`
  throw refuse('plan/too-large', `the file has more than ${allowed}; a plan has at most ${allowed}`)
}

/**
 * The one document of a file. Its nesting is known before it is composed: the composer calls itself for every level, and a
 * stack that overflows inside it can end the whole process.
 */
function parseText(text: string, { lines, place }: { lines: LineCounter; place: Place }): Document {
  const bracket = deepBracket(text, LIMITS.depth)
  const tokens = bracket === undefined ? [...new Parser(lines.addNewLine).parse(text)] : []
  const deep = bracket ?? deepToken(tokens, LIMITS.depth)
  if (deep !== undefined) throw tooDeep(bracket === undefined ? place(deep) : placeIn(text, deep))
  const composer = new Composer({
    prettyErrors: false,
    stringKeys: true,
    uniqueKeys: false,
    resolveKnownTags: false,
    logLevel: 'error',
  })
  const documents = composer.compose(tokens, true, text.length)
  const document = documents.next().value as Document
  const second = documents.next().value
  if (second)
    throw refuse(
      'plan/syntax',
      'broken YAML: a second document begins here (---); a plan is one',
      place(second.range[0]),
    )
  return document
}

/** Line and column of an offset where lines have not been counted. */
function placeIn(text: string, offset: number): Position {
  const before = text.slice(0, offset).split('\n')
  return { line: before.length, column: before.at(-1)!.length + 1 }
}

const tooDeep = (position = START): PlanError =>
  refuse('plan/too-deep', `nested too deeply; a plan has at most ${LIMITS.depth} levels`, position)

interface Position {
  readonly line: number
  readonly column: number
}

type Place = (offset: number) => Position

/** Everything that the parser stumbled over ends the reading. */
function refuseSyntax(document: Document, place: Place): void {
  const broken = [...document.errors, ...document.warnings].map(({ code, message, pos }): Problem => {
    const position = place(pos[0])
    return { code: 'plan/syntax', at: '', message: SYNTAX_TEXT[code] ?? syntaxText(message), position }
  })
  if (broken.length > 0) throw new PlanError(distinct(broken.sort(byPosition)).slice(0, LIMITS.problems))
}

/** Problems without those that say the same of the same place as the one before. */
const distinct = (problems: readonly Problem[]): Problem[] =>
  problems.filter((problem, i) => {
    const before = problems[i - 1]
    return before?.message !== problem.message || byPosition(before, problem) !== 0
  })

/** Our words where the parser's speak of itself. */
const SYNTAX_TEXT: Readonly<Record<string, string>> = {
  NON_STRING_KEY: 'broken YAML: a key must be a word',
}

/** The first line of the parser's message, beginning small. */
function syntaxText(message: string): string {
  const [first = ''] = message.split('\n')
  const short = first.length > 160 ? `${first.slice(0, 160)}...` : first
  return printable(`broken YAML: ${short.charAt(0).toLowerCase()}${short.slice(1)}`)
}

/**
 * Looks through the whole document once.
 *
 * @returns the keys that are given twice in a group. One can go on looking: the data has the last one
 * @throws PlanError if there are too many aliases, or one of nothing
 */
function inspect(document: Document, place: Place): Problem[] {
  const twins: Problem[] = []
  let aliases = 0
  visit(document, {
    Alias(_, alias) {
      aliases++
      refuseAlias(alias, { document, aliases, position: place(startOf(alias) ?? 0) })
    },
    Map(_, map, ancestors) {
      for (const key of twinKeys(map)) {
        if (twins.length >= LIMITS.problems) return
        twins.push(twinAt([...pathTo([...ancestors, map]), keyOf(key)], place(startOf(key) ?? 0)))
      }
    },
  })
  return twins
}

/** The keys of a group that stand in it before. */
function twinKeys({ items }: YAMLMap): unknown[] {
  const seen = new Set<string>()
  return items.flatMap(({ key }) => {
    const name = keyOf(key)
    if (seen.has(name)) return [key]
    seen.add(name)
    return []
  })
}

interface AliasUse {
  readonly document: Document
  readonly aliases: number
  readonly position: Position
}

function refuseAlias(alias: Alias, { document, aliases, position }: AliasUse): void {
  if (aliases > LIMITS.aliases)
    throw refuse('plan/aliases', `more than ${LIMITS.aliases} aliases; write them out`, position)
  if (!alias.resolve(document)) {
    const name = printable(alias.source.slice(0, LIMITS.name))
    const message = `broken YAML: nothing before *${name} is named &${name}`
    throw refuse('plan/syntax', message, position)
  }
}

const twinAt = (path: Path, position: Position): Problem => ({
  code: 'plan/duplicate-key',
  at: pathText(path),
  message: `the key ${show(path.at(-1))} is given twice; give it once`,
  position,
})

const keyOf = (key: unknown): string => (isScalar(key) ? String(key.value) : '')

/** The path to the last of a chain of nodes, each of which holds the next. */
const pathTo = (chain: readonly unknown[]): Path =>
  chain.flatMap((node, i): (string | number)[] => {
    if (isPair(node)) return [keyOf(node.key)]
    return isSeq(node) && i + 1 < chain.length ? [node.items.indexOf(chain[i + 1])] : []
  })

/** @throws PlanError if aliases multiply, or the data is nested too deeply (an alias may hold itself) */
function plainData(document: Document): unknown {
  let data: unknown
  try {
    data = document.toJS({ maxAliasCount: LIMITS.aliases + 1 })
  } catch (error) {
    if (error instanceof RangeError) throw tooDeep()
    throw refuse('plan/aliases', `aliases of aliases make more than ${LIMITS.aliases} copies; write them out`)
  }
  if (isTooDeep(data, 1)) throw tooDeep()
  return data
}

const isTooDeep = (data: unknown, level: number): boolean =>
  typeof data === 'object' &&
  data !== null &&
  (level > LIMITS.depth || Object.values(data).some((child) => isTooDeep(child, level + 1)))

/** Character offset of the part at `path`, or of the nearest one around it. */
function offsetOf(document: Document, path: Path, of: 'key' | 'value'): number {
  let node: unknown = document.contents
  let offset = startOf(node) ?? 0
  for (const [i, step] of path.entries()) {
    if (isAlias(node)) node = node.resolve(document)
    if (isMap(node)) {
      const pair = node.items.filter((item) => keyOf(item.key) === String(step)).at(-1)
      if (!pair) return offset
      const isKey = (of === 'key' && i === path.length - 1) || isNothing(pair.value)
      const wanted = isKey ? undefined : startOf(pair.value)
      offset = wanted ?? startOf(pair.key) ?? offset
      node = pair.value
    } else if (isSeq(node)) {
      node = node.items[Number(step)]
      offset = startOf(node) ?? offset
    } else return offset
  }
  return offset
}

/** A key without a value stands for itself. */
const isNothing = (value: unknown): boolean => isScalar(value) && value.range?.[0] === value.range?.[1]

const startOf = (node: unknown): number | undefined => (isNode(node) ? node.range?.[0] : undefined)
