import { Composer, type Document, isAlias, isScalar, LineCounter, Parser, visit } from 'yaml'
import { PlanError, type Problem } from '../error.ts'
import { LIMITS } from './limits.ts'
import { offsetOf } from './node-offset.ts'
import { printable } from './printable.ts'
import type { Path, Place } from './problems.ts'
import { tokenExcess } from './token-excess.ts'

/** A file's content as plain data, and where each of its parts stands. */
export interface Parsed {
  readonly data: unknown
  /** The place of the value at `path`, or of the nearest part around it that is there. */
  positionOf(path: Path): Place
  /** The place of a key. */
  positionOfKey(path: Path): Place
}

/**
 * Parses YAML (JSON is YAML too).
 *
 * @throws PlanError `plan/too-large`, `plan/too-deep`, `plan/aliases`, `plan/empty`, `plan/twin-key`, `plan/syntax`: every
 *   problem with its line and column
 */
export function parseYaml(text: string): Parsed {
  if (text.length > LIMITS.fileBytes)
    refuse('plan/too-large', `${text.length} characters; a plan has at most ${LIMITS.fileBytes}`)
  const lines = new LineCounter()
  const place = (offset: number): Place => {
    const { line, col } = lines.linePos(offset)
    return { line: Math.max(1, line), column: Math.max(1, col) }
  }
  const document = compose(text.replace(/^\uFEFF/, ''), { lines, place })
  if (document.contents === null || (isScalar(document.contents) && document.contents.value === null))
    refuse('plan/empty', 'the file is empty; "ditchline new FILE" writes one to start from', place(0))
  refuseAliases(document, place)
  refuseProto(document, place)
  return {
    data: document.toJS({ maxAliasCount: -1 }),
    positionOf: (path) => place(offsetOf(document, path, 'value')),
    positionOfKey: (path) => place(offsetOf(document, path, 'key')),
  }
}

function refuse(code: string, message: string, position?: Place): never {
  throw new PlanError({ code, at: '', message, ...(position && { position }) })
}

/** The one document of a file. Its depth is known before it is composed, because the composer calls itself. */
function compose(
  text: string,
  { lines, place }: { lines: LineCounter; place: (offset: number) => Place },
): Document {
  const tokens = [...new Parser(lines.addNewLine).parse(text)]
  const excess = tokenExcess(tokens, LIMITS)
  if (excess?.of === 'depth')
    refuse('plan/too-deep', `nested deeper than the ${LIMITS.depth} levels of a plan`, place(excess.offset))
  if (excess) refuse('plan/too-large', `has more than ${LIMITS.entries} entries`, place(excess.offset))
  const composer = new Composer({ prettyErrors: false, uniqueKeys: true, logLevel: 'silent' })
  const documents = [...composer.compose(tokens, true, text.length)]
  const hint = hashHint(text)
  const problems = documents.flatMap(({ errors, warnings }) =>
    [...errors, ...warnings].map(({ code, message, pos }): Problem => {
      const position = place(pos[0])
      if (code === 'DUPLICATE_KEY')
        return {
          code: 'plan/twin-key',
          at: '',
          message: `the key ${keyAt(text, pos[0])} is there twice`,
          position,
        }
      return {
        code: 'plan/syntax',
        at: '',
        message: printable(message.split('\n')[0]!),
        position,
        ...(hint && { hint }),
      }
    }),
  )
  const [document, second] = documents
  if (second)
    problems.push({
      code: 'plan/syntax',
      at: '',
      message: 'a second document begins here; a plan file holds one',
      position: place(second.range[0]),
    })
  if (problems.length > 0) throw new PlanError(problems.slice(0, LIMITS.problems))
  return document!
}

/** A colour without quotes is a comment, and swallows the rest of its line. */
function hashHint(text: string): string | undefined {
  const index = text.split('\n').findIndex((line) => /^[^#"']*:\s+#[0-9a-f]{3,8}\b/i.test(line))
  return index < 0 ? undefined : `line ${index + 1}: a colour that begins with # needs quotes`
}

const keyAt = (text: string, offset: number): string =>
  printable(JSON.stringify(/^["']?([^"':,{}[\]\n]{0,60})/.exec(text.slice(offset, offset + 80))![1]!.trim()))

/** Aliases are few, lead somewhere, and never into themselves: what they repeat is bounded before it is written out. */
function refuseAliases(document: Document, place: (offset: number) => Place): void {
  let count = 0
  visit(document, {
    Alias(_, alias, around) {
      const at = place(alias.range![0])
      const name = printable(alias.source.slice(0, LIMITS.word))
      const target = alias.resolve(document)
      if (!target) refuse('plan/aliases', `*${name} stands for nothing`, at)
      if (around.includes(target)) refuse('plan/aliases', `*${name} holds itself`, at)
      if (++count > LIMITS.aliases) refuse('plan/aliases', `more than ${LIMITS.aliases} aliases`, at)
      let nested = 0
      visit(target, () => {
        nested++
      })
      if (holdsAlias(target) || nested > LIMITS.aliasNodes)
        refuse('plan/aliases', `*${name} repeats too much`, at)
    },
  })
}

/** The one name that JavaScript doesn't keep as an ordinary key. */
function refuseProto(document: Document, place: (offset: number) => Place): void {
  visit(document, {
    Pair(_, { key }) {
      if (isScalar(key) && key.value === '__proto__')
        refuse('plan/unknown-key', 'unknown key "__proto__"', place(key.range![0]))
    },
  })
}

function holdsAlias(node: Parameters<typeof visit>[0]): boolean {
  let found = false
  visit(node, (_, inner) => {
    found ||= isAlias(inner)
    return found ? visit.BREAK : undefined
  })
  return found
}
