import { fileStem } from '../export/files.ts'
import { exportDrawing, exporterOf } from '../export/index.ts'
import { fromPlanFile, type OutputOptions } from './plan-file.ts'

/** `ditchline order FILE`: the order of work, one area a figure. */
export const orderCommand = (
  file: string,
  options: OutputOptions & { format: 'svg' | 'pdf' },
): Promise<number> =>
  fromPlanFile(file, options, async ({ drawing }, progress) => {
    progress.say('Drawing the order of work ...')
    const id = `order-${options.format}`
    const name = `${fileStem(drawing.title)}-order.${exporterOf(id).extension}`
    return { files: [{ name, content: await exportDrawing(id, drawing) }], say: (written) => written }
  })
