import {
  closeSync,
  existsSync,
  fsyncSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmdirSync,
  rmSync,
  type Stats,
  statSync,
  writeSync,
} from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { PlanError, type Problem } from '../error.ts'

/** A file to be written: its name within the folder, and its whole content. */
export interface OutputFile {
  readonly name: string
  readonly content: string | Uint8Array
}

/**
 * Reads a text file whole.
 *
 * @param most  greatest size, bytes
 * @param name  what it is called in what is refused
 * @throws PlanError `file/...` if it isn't there, is a folder, is too large, can't be read or is no text in UTF-8
 */
export function readText(path: string, most: number, name = path): string {
  const problem = (code: string, message: string): PlanError => new PlanError({ code, message, at: '' })
  let size: number
  try {
    const stat = statSync(path)
    if (stat.isDirectory()) throw problem('file/is-a-folder', `${name} is a folder; give a file`)
    if (!stat.isFile()) throw problem('file/not-a-file', `${name} is not a file`)
    size = stat.size
  } catch (error) {
    if (error instanceof PlanError) throw error
    throw problem('file/unreadable', reasonOf(error, name))
  }
  if (size > most) throw problem('file/too-large', `${name} has ${size} bytes; at most ${most} are read`)
  let bytes: Uint8Array
  try {
    bytes = readFileSync(path)
  } catch (error) {
    throw problem('file/unreadable', reasonOf(error, name))
  }
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    throw problem('file/not-text', `${name} is not text in UTF-8`)
  }
}

/** How a file system's refusal reads, in one line. */
export function reasonOf(error: unknown, path: string): string {
  const code = (error as { code?: string }).code ?? ''
  const reasons: Record<string, string> = {
    ENOENT: 'there is no such file or folder',
    EACCES: 'permission is refused',
    EPERM: 'permission is refused',
    EROFS: 'the folder is read-only',
    ENOSPC: 'the disk is full',
    EDQUOT: 'the disk quota is used up',
    ENOTDIR: 'a part of the path is not a folder',
    EEXIST: 'a file stands where a folder is needed',
    ENAMETOOLONG: 'the name is too long',
    EISDIR: 'it is a folder',
    ELOOP: 'the links lead in a circle',
  }
  return `${path}: ${reasons[code] ?? (error instanceof Error ? error.message : String(error))}`
}

/**
 * Writes files into a folder, all or none: each is first written whole under a passing name and flushed, and only then are
 * they moved into place.
 *
 * @throws PlanError `file/exists` if one is there already and `replace` is not set; `file/unwritable` for anything the file
 *   system refuses; then the files that were there before are still there, unchanged
 */
export function writeFiles(
  folder: string,
  files: readonly OutputFile[],
  { replace }: { replace: boolean },
): string[] {
  const targets = files.map((file) => ({ file, path: resolve(folder, file.name) }))
  const problems = targets.flatMap(({ path }) => refusalOf(path, folder, { replace }))
  if (problems.length > 0) throw new PlanError(problems)
  const first = makeFolder(folder)
  const moves: Move[] = targets.map(({ path }) => ({ from: passing(path, 'part'), to: path }))
  try {
    for (const { path } of targets) removeLeftovers(path)
    targets.forEach(({ file }, i) => {
      writeFlushed(moves[i]!.from, file.content)
    })
    moveAll(moves)
  } catch (error) {
    for (const { from } of moves) rmSync(from, { force: true })
    if (first !== undefined) removeEmpty(resolve(folder), first)
    throw unwritable(error, folder)
  }
  return targets.map((t) => t.path)
}

interface Move {
  readonly from: string
  readonly to: string
}

const unwritable = (error: unknown, folder: string): PlanError =>
  new PlanError({
    code: 'file/unwritable',
    message: `nothing was written: ${reasonOf(error, folder)}`,
    at: '',
  })

/** Makes a folder with those above it; the topmost that had to be made. */
function makeFolder(folder: string): string | undefined {
  try {
    return mkdirSync(folder, { recursive: true })
  } catch (error) {
    throw unwritable(error, folder)
  }
}

/** A name beside `path` that is ours while this process runs. */
const passing = (path: string, end: 'part' | 'old'): string =>
  join(dirname(path), `.${basename(path)}.${process.pid}.${end}`)

/** Moves files into place. If one can't be moved, what was there before is put back. */
function moveAll(moves: readonly Move[]): void {
  const undo: (() => void)[] = []
  const kept: string[] = []
  try {
    for (const { from, to } of moves) {
      const old = passing(to, 'old')
      const isReplaced = existsSync(to)
      if (isReplaced) {
        linkSync(to, old)
        kept.push(old)
      }
      renameSync(from, to)
      undo.push(() => (isReplaced ? renameSync(old, to) : rmSync(to, { force: true })))
    }
  } catch (error) {
    for (const back of undo.reverse()) back()
    throw error
  } finally {
    for (const old of kept) rmSync(old, { force: true })
  }
}

/** Removes what a process that was killed while it wrote this file has left. */
function removeLeftovers(path: string): void {
  const start = `.${basename(path)}.`
  for (const name of namesIn(dirname(path))) {
    const pid = name.startsWith(start) && /^(\d+)\.(part|old)$/.exec(name.slice(start.length))?.[1]
    if (pid && !isRunning(Number(pid))) rmSync(join(dirname(path), name), { force: true })
  }
}

/** The names in a folder; none if it may be written to but not read. */
function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder)
  } catch {
    return []
  }
}

function isRunning(pid: number): boolean {
  if (pid === process.pid) return false
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}

function refusalOf(path: string, folder: string, { replace }: { replace: boolean }): Problem[] {
  if (dirname(path) !== resolve(folder)) {
    return [{ code: 'file/outside', message: `${path} would lie outside ${folder}`, at: '' }]
  }
  let stat: Stats | undefined
  try {
    stat = lstatSync(path, { throwIfNoEntry: false })
  } catch (error) {
    return [{ code: 'file/unwritable', message: reasonOf(error, path), at: '' }]
  }
  if (!stat) return []
  if (!stat.isFile())
    return [{ code: 'file/exists', message: `${path} exists and is not a plain file`, at: '' }]
  if (replace) return []
  return [{ code: 'file/exists', message: `${path} exists; --replace allows it to be replaced`, at: '' }]
}

function writeFlushed(path: string, content: string | Uint8Array): void {
  const file = openSync(path, 'wx', 0o644)
  try {
    const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done)
    fsyncSync(file)
  } finally {
    closeSync(file)
  }
}

/** Removes a folder and those above it up to `first`, as long as they are empty. */
function removeEmpty(folder: string, first: string): void {
  try {
    for (let at = folder; at.startsWith(first); at = dirname(at)) rmdirSync(at)
  } catch {
    // Not empty: something of someone else's is in it.
  }
}
