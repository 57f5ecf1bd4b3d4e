import { basename, extname } from 'node:path'
import { MOTIFS } from '../../motifs/index.ts'
import { exportDrawing } from '../export/index.ts'
import { planFromText } from '../pipeline.ts'
import { LIMITS } from '../plan/limits.ts'
import { summaryText } from '../report/summary.ts'
import { readText, writeFiles } from './files.ts'
import { Progress } from './progress.ts'
import { attempt, terminal } from './run.ts'

interface PlanOptions {
  readonly out?: string
  readonly replace?: boolean
  readonly json?: boolean
}

/** `ditchline plan FILE`: plans, writes picture, report and line, and prints what a quilter wants to know first. */
export function planCommand(
  file: string,
  { out, replace = false, json = false }: PlanOptions,
): Promise<number> {
  const progress = new Progress()
  const work = async () => {
    const text = readText(file, LIMITS.fileBytes)
    progress.say(`Planning ${file} ...`)
    const planned = planFromText(text, { motifs: MOTIFS })
    const folder = out ?? basename(file, extname(file))
    const report = `${JSON.stringify(planned.report, null, 2)}\n`
    const written = writeFiles(
      folder,
      [
        { name: 'picture.svg', content: await exportDrawing('picture', planned.drawing) },
        { name: 'report.json', content: report },
        { name: 'line.json', content: await exportDrawing('line-json', planned.drawing) },
      ],
      { replace },
    )
    progress.done()
    terminal.out(
      json
        ? report.trimEnd()
        : `${summaryText(planned.report)}\n\nWrote ${written.map((path) => basename(path)).join(', ')} to ${folder}`,
    )
  }
  return attempt(work, { file, to: terminal }).finally(() => progress.done())
}
