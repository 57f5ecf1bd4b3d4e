import { exportDrawing } from '../export/index.ts'
import { reportPage } from '../report/report-page.ts'
import { summaryText } from '../report/summary.ts'
import { fromPlanFile, type OutputOptions } from './plan-file.ts'
import { pngOf } from './png.ts'

interface PlanOptions extends OutputOptions {
  readonly json?: boolean
  readonly png?: boolean
  readonly page?: boolean
}

/** `ditchline plan FILE`: plans, writes picture, report and line, and prints what a quilter wants to know first. */
export const planCommand = (
  file: string,
  options: PlanOptions,
  values: Record<string, unknown>,
): Promise<number> =>
  fromPlanFile(file, options, async ({ drawing, report }) => {
    const reportText = `${JSON.stringify(report, null, 2)}\n`
    const picture = (await exportDrawing('picture', drawing, values)) as string
    return {
      files: [
        { name: 'picture.svg', content: picture },
        { name: 'report.json', content: reportText },
        { name: 'line.json', content: await exportDrawing('line-json', drawing) },
        ...(options.png ? [{ name: 'picture.png', content: await pngOf(picture) }] : []),
        ...(options.page
          ? [{ name: 'report.html', content: reportPage(drawing, { report, pictureSvg: picture }) }]
          : []),
      ],
      say: (written) => (options.json ? reportText.trimEnd() : `${summaryText(report)}\n\n${written}`),
    }
  })
