import {
  closeSync,
  existsSync,
  fsyncSync,
  lstatSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
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
 * @throws PlanError `file/...` if it isn't there, is a folder, is too large or can't be read
 */
export function readText(path: string, most: number): string {
  const problem = (code: string, message: string): PlanError => new PlanError({ code, message, at: '' })
  let size: number
  try {
    const stat = statSync(path)
    if (stat.isDirectory()) throw problem('file/is-a-folder', `${path} is a folder; give a plan file`)
    if (!stat.isFile()) throw problem('file/not-a-file', `${path} is not a file`)
    size = stat.size
  } catch (error) {
    if (error instanceof PlanError) throw error
    throw problem('file/unreadable', reasonOf(error, path))
  }
  if (size > most) throw problem('file/too-large', `${path} has ${size} bytes; at most ${most} are read`)
  try {
    return readFileSync(path, 'utf8')
  } catch (error) {
    throw problem('file/unreadable', reasonOf(error, path))
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
  const waiting: { from: string; to: string }[] = []
  const made = !existsSync(folder)
  try {
    mkdirSync(folder, { recursive: true })
    for (const { file, path } of targets) {
      const from = join(dirname(path), `.${basename(path)}.${process.pid}.part`)
      waiting.push({ from, to: path })
      writeFlushed(from, file.content)
    }
    for (const { from, to } of waiting) renameSync(from, to)
  } catch (error) {
    for (const { from } of waiting) rmSync(from, { force: true })
    if (made) removeIfEmpty(folder)
    throw new PlanError({
      code: 'file/unwritable',
      message: `nothing was written: ${reasonOf(error, folder)}`,
      at: '',
    })
  }
  return targets.map((t) => t.path)
}

function refusalOf(path: string, folder: string, { replace }: { replace: boolean }): Problem[] {
  if (dirname(path) !== resolve(folder)) {
    return [{ code: 'file/outside', message: `${path} would lie outside ${folder}`, at: '' }]
  }
  const stat = lstatSync(path, { throwIfNoEntry: false })
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

function removeIfEmpty(folder: string): void {
  try {
    rmSync(folder, { recursive: false, force: true })
  } catch {
    // Not empty, or never made: nothing of ours is left in it.
  }
}
