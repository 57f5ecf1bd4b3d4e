import { PlanError } from '../error.ts'
import csv from './csv.ts'
import type { Drawing } from './drawing.ts'
import dxf from './dxf.ts'
import { type Content, type Exporter, optionValues } from './exporter.ts'
import gcode from './gcode.ts'
import lineJson from './line-json.ts'
import orderPdf from './order-pdf.ts'
import orderSvg from './order-svg.ts'
import picture from './picture.ts'
import sheets from './sheets.ts'
import svg from './svg.ts'

/** Every output format by its id, which is its file's name. A test holds this list against the folder. */
export const EXPORTERS = {
  csv,
  dxf,
  gcode,
  'line-json': lineJson,
  'order-pdf': orderPdf,
  'order-svg': orderSvg,
  picture,
  sheets,
  svg,
} as const satisfies Readonly<Record<string, Exporter>>

export type ExporterId = keyof typeof EXPORTERS

/**
 * The exporter with this id.
 *
 * @throws PlanError `export/unknown-format`, listing those that exist
 */
export function exporterOf(id: string): Exporter {
  const found = Object.hasOwn(EXPORTERS, id) ? EXPORTERS[id as ExporterId] : undefined
  if (found) return found as unknown as Exporter
  throw new PlanError({
    code: 'export/unknown-format',
    at: '',
    message: `no such format "${id}"; there are: ${Object.keys(EXPORTERS).join(', ')}`,
  })
}

/**
 * Writes a drawing with the options given (lengths in mm) and the defaults for the rest.
 *
 * @throws PlanError if a format, an option or a value isn't known, or the drawing lacks what is asked for
 */
export async function exportDrawing(
  id: string,
  drawing: Drawing,
  given: Readonly<Record<string, unknown>> = {},
): Promise<Content> {
  const exporter = exporterOf(id)
  return exporter.write(drawing, optionValues(exporter.options, given))
}
