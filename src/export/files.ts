import type { Drawing } from './drawing.ts'
import { asciiText } from './escape.ts'
import type { Content, Exporter } from './exporter.ts'
import { exportDrawing, exporterOf } from './index.ts'
import { pathUnits } from './path/machine-path.ts'
import { passDrawings } from './path/passes.ts'

/** A file to be written: its name without a folder, and its content. */
export interface OutputFile {
  readonly name: string
  readonly content: Content
}

type Given = Readonly<Record<string, unknown>>

/**
 * All files of a machine path: one a frame pass, and for each its run round the bounds with the needle up. The names say
 * the unit, because not every format can.
 *
 * @throws PlanError as `exportDrawing`
 */
export async function machineFiles(id: string, drawing: Drawing, given: Given = {}): Promise<OutputFile[]> {
  const exporter = exporterOf(id)
  const passes = passDrawings(drawing).filter((pass) => pass.lines.length > 0)
  const files: OutputFile[] = []
  for (const [i, pass] of passes.entries()) {
    const stem = machineStem(exporter, drawing, { given, pass: passes.length > 1 ? `-pass-${i + 1}` : '' })
    files.push({
      name: `${stem}.${exporter.extension}`,
      content: await exportDrawing(id, pass, { ...given, run: 'line' }),
    })
    files.push({ name: `${stem}-bounds.${exporter.extension}`, content: await boundsRun(id, pass, given) })
  }
  return files
}

/** The run round the bounds of a machine path with the needle up, placed as the path itself would be. */
export const boundsRun = (id: string, drawing: Drawing, given: Given = {}): Promise<Content> =>
  exportDrawing(id, drawing, { ...given, run: 'bounds' })

function machineStem(
  exporter: Exporter,
  drawing: Drawing,
  { given, pass }: { given: Given; pass: string },
): string {
  const units =
    exporter.unit === 'chosen' ? `-${pathUnits((given.units ?? 'plan') as 'plan', drawing.units)}` : ''
  return `${fileStem(drawing.title)}${pass}${units}`
}

/** A title as the stem of a file's name: lower-case letters, digits and hyphens, at most 60. */
export function fileStem(title: string): string {
  const plain = asciiText(title)
    .toLowerCase()
    .replaceAll("'", '')
    .replace(/[^a-z0-9]+/g, '-')
  return plain.replace(/^-+/, '').slice(0, 60).replace(/-+$/, '') || 'quilt'
}
