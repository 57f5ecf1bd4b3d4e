import { fileStem } from '../export/files.ts'
import { exportDrawing } from '../export/index.ts'
import { fromPlanFile, type OutputOptions } from './plan-file.ts'

/** `ditchline sheets FILE`: the line at full size on sheets of paper, to trace. */
export const sheetsCommand = (
  file: string,
  options: OutputOptions,
  values: Record<string, unknown>,
): Promise<number> =>
  fromPlanFile(file, options, async ({ drawing }, progress) => {
    progress.say('Drawing tracing sheets ...')
    const content = await exportDrawing('sheets', drawing, values)
    return {
      files: [{ name: `${fileStem(drawing.title)}-sheets.pdf`, content }],
      say: (written) => `${written}\nPrint at 100 percent and measure the test square before you trace.`,
    }
  })
