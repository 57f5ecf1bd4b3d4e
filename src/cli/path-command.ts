import { machineFiles } from '../export/files.ts'
import { FRAME_CAUTIONS } from '../export/labels.ts'
import { fromPlanFile, type OutputOptions } from './plan-file.ts'

/** `ditchline path FILE --format gcode`: the machine path, and its run round the bounds with the needle up. */
export const pathCommand = (
  file: string,
  options: OutputOptions & { format: string },
  values: Record<string, unknown>,
): Promise<number> =>
  fromPlanFile(file, options, async ({ drawing }, progress) => {
    progress.say('Writing the machine path ...')
    const files = await machineFiles(options.format, drawing, values)
    return { files, say: (written) => [written, '', ...FRAME_CAUTIONS].join('\n') }
  })
