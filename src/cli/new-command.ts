import { basename, dirname } from 'node:path'
import { starterPlan } from '../plan/starter.ts'
import { writeFiles } from './files.ts'
import { attempt, terminal } from './run.ts'

/** `ditchline new FILE`: writes a commented plan file. */
export function newCommand(file: string, { replace = false }: { replace?: boolean }): Promise<number> {
  const work = () => {
    writeFiles(dirname(file), [{ name: basename(file), content: starterPlan() }], { replace })
    terminal.out(`Wrote ${file}. Change it, then: ditchline plan ${file}`)
  }
  return attempt(work, { file, to: terminal })
}
