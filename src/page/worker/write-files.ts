import { fileStem, machineFiles } from '../../export/files.ts'
import { exportDrawing, exporterOf } from '../../export/index.ts'
import type { PlannedQuilt } from '../../pipeline.ts'
import { reportPage } from '../../report/report-page.ts'
import type { MadeFile, WriteWish } from './messages.ts'

/** Makes the files that were wished for: the same names and bytes as the command line's. */
export async function writeFiles(planned: PlannedQuilt, wish: WriteWish): Promise<MadeFile[]> {
  const { drawing, report } = planned
  switch (wish.what) {
    case 'picture':
      return [await oneFile(planned, { format: 'picture', name: 'picture.svg' })]
    case 'line':
      return [await oneFile(planned, { format: 'line-json', name: 'line.json' })]
    case 'report':
      return [
        {
          name: 'report.json',
          mediaType: 'application/json',
          content: `${JSON.stringify(report, null, 2)}\n`,
        },
      ]
    case 'report-page': {
      const pictureSvg = (await exportDrawing('picture', drawing)) as string
      const content = reportPage(drawing, { report, pictureSvg })
      return [{ name: 'report.html', mediaType: 'text/html', content }]
    }
    case 'order-pdf':
    case 'order-svg': {
      const name = `${fileStem(drawing.title)}-order.${exporterOf(wish.what).extension}`
      return [await oneFile(planned, { format: wish.what, name })]
    }
    case 'sheets': {
      const name = `${fileStem(drawing.title)}-sheets.pdf`
      return [await oneFile(planned, { format: 'sheets', name, options: wish.options })]
    }
    case 'path': {
      const { mediaType } = exporterOf(wish.format)
      const files = await machineFiles(wish.format, drawing, wish.options)
      return files.map((file) => ({ ...file, mediaType }))
    }
  }
}

interface OneFile {
  readonly format: string
  readonly name: string
  readonly options?: Readonly<Record<string, unknown>>
}

async function oneFile({ drawing }: PlannedQuilt, { format, name, options }: OneFile): Promise<MadeFile> {
  const content = await exportDrawing(format, drawing, options)
  return { name, mediaType: exporterOf(format).mediaType, content }
}
