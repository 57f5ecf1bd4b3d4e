import type { ThreadChoice, ThreadVerdict } from './thread-choice.ts'

/** How many threads a ranking lists. */
const LISTED = 5
/** How many bands stand side by side in the table. */
const COLUMNS = 10

/** What `ditchline thread` prints: the scale, both rankings, and every thread on every band. */
export function threadText(choice: ThreadChoice): string {
  const { blending, showing, planned, bands } = choice
  const byName = new Map(blending.map((verdict) => [verdict.name, verdict]))
  const shown = showing.map((name) => byName.get(name)!)
  const width = Math.max(planned.name.length, ...blending.map(({ name }) => name.length))
  const ranking = (heading: string, list: readonly ThreadVerdict[]) => [
    heading,
    ...list.slice(0, LISTED).map((verdict, i) => `  ${i + 1}. ${verdictText(verdict, width)}`),
  ]
  return [
    `${choice.title}: threads against the fabrics of ${bands.length === 1 ? '1 band' : `${bands.length} bands`} (${choice.candidates})`,
    '',
    'The figure is the CIEDE2000 colour difference, the mean over the bands by their area. About 1 is the least that',
    'a trained eye sees side by side.',
    ...scaleLines(choice),
    '',
    `     ${verdictText(planned, width)}`,
    '',
    ...ranking('Best to blend', blending),
    '',
    ...ranking('Best to show', shown),
    '',
    ...tables(choice, width),
  ].join('\n')
}

function scaleLines({ scale }: ThreadChoice): string[] {
  return scale.map(({ below, visibility, meaning }, i) => {
    const range = below === null ? `from ${scale[i - 1]?.below ?? 0}` : `below ${below}`
    return `  ${range.padEnd(8)}  ${visibility}: ${meaning}`
  })
}

function verdictText({ name, difference, visibility, strongest }: ThreadVerdict, width: number): string {
  const most = `most on ${strongest.band} (${strongest.difference.toFixed(1)}, ${strongest.visibility})`
  return `${name.padEnd(width)}  ${difference.toFixed(1).padStart(5)}  ${visibility.padEnd(12)}  ${most}`
}

/** Every thread on every band, some bands at a time. */
function tables({ bands, blending, planned }: ThreadChoice, width: number): string[] {
  const blocks: string[] = []
  for (let first = 0; first < bands.length; first += COLUMNS) {
    const some = bands.slice(first, first + COLUMNS)
    if (first > 0) blocks.push('')
    blocks.push('On each band')
    some.forEach(({ name }, i) => blocks.push(`  ${String(first + i + 1).padStart(3)} = ${name}`))
    blocks.push(`  ${' '.repeat(width)}${some.map((_, i) => String(first + i + 1).padStart(6)).join('')}`)
    for (const thread of [planned, ...blending]) {
      const cells = thread.bands.slice(first, first + COLUMNS)
      blocks.push(
        `  ${thread.name.padEnd(width)}${cells.map(({ difference }) => difference.toFixed(1).padStart(6)).join('')}`,
      )
    }
  }
  return blocks
}
