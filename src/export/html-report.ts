import type { Drawing } from './drawing.ts'
import { escapeXml } from './escape.ts'
import { LABELS } from './labels.ts'
import { drawFigurePicture } from './order/figure-shapes.ts'
import { type OrderFigure, orderFigures } from './order/order-figures.ts'
import { pageSvg } from './shape/shape-svg.ts'

/** A table of texts. */
export interface ReportTable {
  readonly caption: string
  readonly head: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

/** What the page shows, besides the drawing's own title and order of work. Every text is shown as it is, markup and all. */
export interface HtmlReport {
  readonly drawing: Drawing
  /** A whole SVG document. It is shown as an image: nothing in it runs. */
  readonly pictureSvg: string
  /** Rows of label and value: line, stitches, thread, time, gap. */
  readonly figures: readonly { readonly label: string; readonly value: string }[]
  /** Further tables: the bands, the bobbin changes. */
  readonly tables?: readonly ReportTable[]
  readonly warnings: readonly { readonly code: string; readonly message: string; readonly at: string }[]
  readonly cautions: readonly string[]
}

/**
 * The report as one web page that needs no other file and no script, fit to be printed.
 *
 * @returns the same text for the same input
 */
export function htmlReport(report: HtmlReport): string {
  const { drawing } = report
  const title = escapeXml(drawing.title)
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">`,
    `<title>${title}</title>`,
    `<style>${STYLE}</style>`,
    '</head>',
    '<body>',
    '<main>',
    `<h1>${title}</h1>`,
    `<img class="quilt" alt="${escapeXml(LABELS.html.picture(drawing.title))}" src="${dataUri(report.pictureSvg)}">`,
    warningsSection(report.warnings),
    section(LABELS.html.figures, figuresTable(report.figures)),
    ...(report.tables ?? []).map((table) => section(table.caption, tableHtml(table))),
    orderSection(drawing),
    ...(report.cautions.length > 0 ? [section(LABELS.html.cautions, list(report.cautions))] : []),
    '</main>',
    '</body>',
    '</html>',
    '',
  ].join('\n')
}

/** A lone half of a surrogate pair can't be written in a URI and is replaced. */
const dataUri = (svg: string): string =>
  `data:image/svg+xml,${encodeURIComponent(svg.replace(/\p{Cs}/gu, '\ufffd')).replaceAll("'", '%27')}`

const section = (heading: string, content: string): string =>
  `<section>\n<h2>${escapeXml(heading)}</h2>\n${content}\n</section>`

const list = (texts: readonly string[]): string =>
  `<ul>\n${texts.map((t) => `<li>${escapeXml(t)}</li>`).join('\n')}\n</ul>`

function warningsSection(warnings: HtmlReport['warnings']): string {
  const { html: say } = LABELS
  if (warnings.length === 0) return section(say.warnings, `<p>${escapeXml(say.noWarnings)}</p>`)
  const items = warnings.map(({ code, message, at }) => {
    const place = at ? ` <span class="at">${escapeXml(say.at(at))}</span>` : ''
    return `<li>${escapeXml(message)}${place} <code>${escapeXml(code)}</code></li>`
  })
  return section(say.warnings, `<ul class="warnings">\n${items.join('\n')}\n</ul>`)
}

function figuresTable(figures: HtmlReport['figures']): string {
  const rows = figures.map(
    ({ label, value }) => `<tr><th scope="row">${escapeXml(label)}</th><td>${escapeXml(value)}</td></tr>`,
  )
  return `<table>\n<tbody>\n${rows.join('\n')}\n</tbody>\n</table>`
}

function tableHtml({ head, rows }: ReportTable): string {
  const cells = (texts: readonly string[]) => texts.map((t) => `<td>${escapeXml(t)}</td>`).join('')
  const heads = head.map((t) => `<th scope="col">${escapeXml(t)}</th>`).join('')
  const body = rows.map((row) => `<tr>${cells(row)}</tr>`).join('\n')
  return `<div class="wide"><table>\n<thead><tr>${heads}</tr></thead>\n<tbody>\n${body}\n</tbody>\n</table></div>`
}

function orderSection(drawing: Drawing): string {
  const figures = orderFigures(drawing)
  if (figures.length === 0) return ''
  const { order: say } = LABELS
  const content = `<p>${escapeXml(say.legend)}</p>\n<div class="order">\n${figures.map((f) => figureHtml(drawing, f)).join('\n')}\n</div>`
  return section(say.heading, content)
}

function figureHtml(drawing: Drawing, figure: OrderFigure): string {
  const drawn = drawFigurePicture(drawing.quilt, figure, { width: 110, tallest: 0.85 })
  const steps = figure.now.map((step) => `<li>${escapeXml(step.words)}</li>`).join('\n')
  return [
    '<figure>',
    `<figcaption><b>${escapeXml(figure.title)}</b><br>${escapeXml(figure.summary)}</figcaption>`,
    pageSvg(drawn, figure.title).trimEnd(),
    `<ol>\n${steps}\n</ol>`,
    '</figure>',
  ].join('\n')
}

const STYLE = `
:root { color-scheme: light; --ink: #1b1b1b; --quiet: #595959; --rule: #cfc8ba; --guide: #1f4e79 }
body { margin: 0; background: #fff; color: var(--ink); font: 16px/1.5 system-ui, Helvetica, Arial, sans-serif }
main { max-width: 60rem; margin: 0 auto; padding: 1.5rem 1.25rem 3rem }
h1 { font-size: 2rem; line-height: 1.2; margin: 0 0 1rem; overflow-wrap: anywhere }
h2 { font-size: 1.25rem; margin: 2rem 0 .5rem; padding-bottom: .25rem; border-bottom: 1px solid var(--rule) }
.quilt { display: block; max-width: 100%; max-height: 90vh; height: auto; margin: 0 auto; border: 1px solid var(--rule) }
table { border-collapse: collapse; font-variant-numeric: tabular-nums }
th, td { text-align: left; vertical-align: top; padding: .25rem 1.5rem .25rem 0; border-bottom: 1px solid #ece7dc }
th { font-weight: 600 }
.wide { overflow-x: auto }
.warnings li { margin: .25rem 0; padding-left: .25rem }
.at, code { color: var(--quiet) }
code { font-size: .85em }
.order { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(22rem, 100%), 1fr)); gap: 1.5rem 2rem }
figure { margin: 0; break-inside: avoid; position: relative }
figure svg { display: block; width: 100%; height: auto; overflow: visible }
figcaption { position: absolute; top: .25rem; left: 0; line-height: 1.35 }
figure ol { margin: .5rem 0 0; padding-left: 1.75rem; font-size: .9rem }
figure li::marker { font-weight: 700; color: var(--guide) }
@page { margin: 14mm }
@media print {
  main { max-width: none; padding: 0 }
  body { font-size: 10.5pt }
  .quilt { max-height: 170mm }
  h2 { break-after: avoid }
  section { break-inside: auto }
  tr, li, table { break-inside: avoid }
  figure ol { font-size: 9pt }
  .order { grid-template-columns: 1fr 1fr }
}
`
