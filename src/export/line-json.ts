import * as z from 'zod'
import type { Point } from '../geometry/point.ts'
import { flattenStroke } from '../geometry/stroke.ts'
import type { Line } from '../stitch/line.ts'
import type { Drawing } from './drawing.ts'
import { defineExporter } from './exporter.ts'

/** The greatest distance between the line and its chords in line.json, mm. */
export const LINE_TOLERANCE = 0.05

const part = z.strictObject({
  kind: z.enum(['fill', 'travel', 'crossing', 'ditch', 'tie-off']).describe('what this part is for'),
  band: z
    .string()
    .nullable()
    .describe(
      "the band's name, 'centre', 'all over' if one filler goes over the whole quilt, or null for a seam",
    ),
  area: z.number().int().min(1).describe('the area in which it is stitched, in the order of work, from 1'),
  region: z.string().optional().describe('the region kept free of stitching along whose edge it runs'),
  from: z.number().int().min(0).describe('index of its first point'),
  to: z.number().int().min(0).describe('index of its last point; the next part begins there'),
})

/** The public format of line.json. */
export const lineFormat = z.strictObject({
  $schema: z.string(),
  version: z.literal(1),
  title: z.string(),
  unit: z.literal('mm'),
  toleranceMm: z.number().positive().describe('how far the chords may lie from the curves'),
  lines: z.array(
    z.strictObject({
      thread: z.string().describe('CSS colour'),
      points: z
        .array(z.tuple([z.number(), z.number()]))
        .min(1)
        .describe('x to the right, y down, from the top left corner'),
      parts: z.array(part),
    }),
  ),
})

export type LineFile = z.infer<typeof lineFormat>

/** The JSON Schema of line.json. */
export const lineJsonSchema = (): unknown => z.toJSONSchema(lineFormat, { target: 'draft-7' })

/** The line itself, with what each part is: the public format for other tools. */
export default defineExporter({
  title: 'Line',
  purpose: 'report',
  extension: 'json',
  mediaType: 'application/json',
  unit: 'mm',
  options: {},
  write(drawing) {
    const file: LineFile = {
      $schema: 'line.schema.json',
      version: 1,
      title: drawing.title,
      unit: 'mm',
      toleranceMm: LINE_TOLERANCE,
      lines: drawing.lines.map((line) => lineEntry(line, drawing)),
    }
    return `${jsonText(file)}\n`
  },
})

type LineEntry = LineFile['lines'][number]

function lineEntry(line: Line, drawing: Drawing): LineEntry {
  const points: [number, number][] = []
  const parts: LineEntry['parts'] = []
  for (const { kind, band, area, region, stroke } of line.parts) {
    const chords = flattenStroke(stroke, LINE_TOLERANCE)
    if (points.length === 0) points.push(rounded(chords[0]!))
    const from = points.length - 1
    for (const p of chords.slice(1)) points.push(rounded(p))
    const edge = region === undefined ? {} : { region: drawing.quilt.regions![region]!.name }
    parts.push({ kind, band: bandName(band, drawing), area: area + 1, ...edge, from, to: points.length - 1 })
  }
  return { thread: line.thread, points, parts }
}

const rounded = ([x, y]: Point): [number, number] => [
  Math.round(x * 1000) / 1000,
  Math.round(y * 1000) / 1000,
]

function bandName(band: number | undefined, drawing: Drawing): string | null {
  if (band === undefined) return null
  if (band < 0) return drawing.allOver === undefined ? 'centre' : 'all over'
  return drawing.quilt.bands[band]?.name ?? null
}

/** JSON with one point list a line: readable, and small. The lists, which are nearly all of it, are put in last. */
function jsonText(file: LineFile): string {
  const lists: string[] = []
  const rest = JSON.stringify(
    file,
    (key, value) => (key === 'points' ? String(lists.push(JSON.stringify(value)) - 1) : value),
    1,
  )
  return rest.replaceAll(/"points": "(\d+)"/g, (_, list) => `"points": ${lists[list]}`)
}
