import { basename, extname } from 'node:path'
import { type PlannedQuilt, planWithGaps } from '../pipeline.ts'
import { LIMITS } from '../plan/limits.ts'
import { type OutputFile, readText, writeFiles } from './files.ts'
import { GapSearch } from './gap-search.ts'
import { catalogBeside } from './plan-catalog.ts'
import { Progress } from './progress.ts'
import { attempt, terminal } from './run.ts'

/** What every command that writes files takes. */
export interface OutputOptions {
  readonly out?: string
  readonly replace?: boolean
}

/** What a command makes of a planned quilt: the files to write, and what to say when they are written. */
export interface Made {
  readonly files: readonly OutputFile[]
  say(written: string): string
}

/**
 * The frame of every command that turns a plan file into files: read, plan, make, write all or nothing, say so.
 *
 * @returns the exit status
 */
export function fromPlanFile(
  file: string,
  { out, replace = false }: OutputOptions,
  make: (planned: PlannedQuilt, progress: Progress) => Promise<Made>,
): Promise<number> {
  const progress = new Progress()
  const gaps = new GapSearch()
  const work = async () => {
    const text = readText(file, LIMITS.fileBytes)
    progress.say(`Planning ${file} ...`)
    const planned = await planWithGaps(text, {
      catalog: catalogBeside(file),
      search: (task) => gaps.find(task),
    })
    const made = await make(planned, progress)
    const folder = out ?? folderFor(file)
    const written = writeFiles(folder, made.files, { replace })
    progress.done()
    terminal.out(made.say(`Wrote ${written.map((path) => basename(path)).join(', ')} to ${folder}`))
  }
  return attempt(work, { file, to: terminal }).finally(() => {
    progress.done()
    return gaps.stop()
  })
}

/** The folder named after a plan file. Dots alone are no name: `...yaml` would be the folder above. */
function folderFor(file: string): string {
  const stem = basename(file, extname(file))
  return /^\.*$/.test(stem) ? 'quilt' : stem
}
