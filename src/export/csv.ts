import { bandName } from './band-name.ts'
import { asciiText } from './escape.ts'
import { defineExporter } from './exporter.ts'
import { numberText } from './number-text.ts'
import { machinePath } from './path/machine-path.ts'
import { pathNotes } from './path/path-notes.ts'
import { TABLE_OPTIONS } from './path/path-options.ts'

/**
 * A machine path as a table: notes behind "#", then a header, then one row a point.
 *
 * @source RFC 4180 for the table (CRLF, quotes doubled); the notes before it are an addition
 */
export default defineExporter({
  title: 'CSV table of points',
  purpose: 'machine-path',
  extension: 'csv',
  mediaType: 'text/csv',
  unit: 'chosen',
  options: TABLE_OPTIONS,
  write(drawing, options) {
    const path = machinePath(drawing, options, 'flatten')
    const number = (v: number) => numberText(v, options.decimals)
    const rows = pathNotes(drawing, path, options).map((note) => `# ${asciiText(note)}`)
    rows.push(`thread,point,x_${path.units},y_${path.units},needle,kind,band,area`)
    path.threads.forEach((runs, thread) => {
      let point = 0
      const row = ([x, y]: readonly [number, number], what: string) => {
        point += 1
        rows.push(`${thread + 1},${point},${number(x)},${number(y)},${what}`)
      }
      const whatOf = (run: (typeof runs)[number]) =>
        `${run.kind},${quote(path.needleDown ? bandName(drawing, run.band) : '')},${run.area + 1}`
      row(runs[0]!.stroke.start, `up,${whatOf(runs[0]!)}`)
      for (const run of runs)
        for (const { to } of run.stroke.segments) row(to, `${path.needleDown ? 'down' : 'up'},${whatOf(run)}`)
    })
    return `${rows.join('\r\n')}\r\n`
  },
})

/** A leading sign that a spreadsheet would take for a formula is set behind an apostrophe. */
function quote(text: string): string {
  const safe = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe
}
