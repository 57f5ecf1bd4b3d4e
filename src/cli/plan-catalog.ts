import { realpathSync } from 'node:fs'
import { dirname, join, sep } from 'node:path'
import { LIBRARY } from '../../motifs/library.ts'
import { DRAWING_LIMITS } from '../drawn/drawing-limits.ts'
import { catalogOf } from '../engine-input.ts'
import { PlanError } from '../error.ts'
import type { Catalog } from '../plan/catalog.ts'
import { readText, reasonOf } from './files.ts'

/** All that a plan file may name: the library, and files in the folder in which it lies. */
export const catalogBeside = (file: string): Catalog => ({
  ...catalogOf(LIBRARY),
  readFile: (name) => readBeside(file, name),
})

/**
 * Reads a text file that lies in a plan file's folder or below it, links followed.
 *
 * @throws PlanError `file/...` if it can't be read or lies elsewhere
 */
function readBeside(file: string, name: string): string {
  const path = realPath(join(dirname(file), name), name)
  if (!path.startsWith(withSeparator(realPath(dirname(file), dirname(file)))))
    throw new PlanError({
      code: 'file/outside',
      message: `${name} lies outside the folder of the plan`,
      at: '',
    })
  return readText(path, DRAWING_LIMITS.bytes, name)
}

function realPath(path: string, name: string): string {
  try {
    return realpathSync(path)
  } catch (error) {
    throw new PlanError({ code: 'file/unreadable', message: reasonOf(error, name), at: '' })
  }
}

const withSeparator = (folder: string): string => (folder.endsWith(sep) ? folder : folder + sep)
