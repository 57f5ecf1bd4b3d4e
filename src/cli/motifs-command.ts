import { basename, extname } from 'node:path'
import { MOTIFS } from '../../motifs/index.ts'
import { LIBRARY } from '../../motifs/library.ts'
import { DRAWING_LIMITS } from '../drawn/drawing-limits.ts'
import { drawnMotif } from '../drawn/drawn-motif.ts'
import { readDrawnRepeat } from '../drawn/read-repeat.ts'
import { PlanError } from '../error.ts'
import type { Motif, Param } from '../motif/contract.ts'
import { DRAWN_SUITS } from '../plan/settle-drawn.ts'
import { nearestName } from '../plan/suggest.ts'
import { toInches } from '../units.ts'
import { readText, writeFiles } from './files.ts'
import { Progress } from './progress.ts'
import { attempt, terminal } from './run.ts'

interface MotifsOptions {
  readonly json?: boolean
  /** The folder that the gallery goes into. */
  readonly gallery?: string
  readonly png?: boolean
  readonly replace?: boolean
}

/** `ditchline motifs [NAME or DRAWING.svg]`: the fillers, their widths and values; with `--gallery` drawn and measured. */
export function motifsCommand(name: string | undefined, options: MotifsOptions): Promise<number> {
  const { json = false, gallery } = options
  const work = async () => {
    const chosen = chosenBy(name)
    if (gallery !== undefined) return writeGallery({ name, chosen }, gallery, options)
    const entries = Object.entries(chosen)
    if (json)
      terminal.out(
        JSON.stringify(Object.fromEntries(entries.map(([id, motif]) => [id, dataOf(motif)])), null, 2),
      )
    else terminal.out(name === undefined ? listText(entries) : describe(...entries[0]!))
  }
  return attempt(work, { to: terminal, ...(name !== undefined && { file: name }) })
}

/** All motifs, the one of this name, or the one drawn in this file. */
function chosenBy(name: string | undefined): Readonly<Record<string, Motif>> {
  if (name === undefined) return MOTIFS
  return /\.svg$/i.test(name) ? drawnIn(name) : { [name]: motifOf(name) }
}

async function writeGallery(
  { name, chosen }: { name: string | undefined; chosen: Readonly<Record<string, Motif>> },
  folder: string,
  { png = false, replace = false }: MotifsOptions,
): Promise<void> {
  const progress = new Progress()
  progress.say('Drawing and measuring the fillers ...')
  const { galleryFiles } = await import('./gallery-files.ts')
  const shown = name === undefined ? LIBRARY : { motifs: chosen, centres: {}, corners: {} }
  const files = await galleryFiles(shown, { png }).finally(() => progress.done())
  writeFiles(folder, files, { replace })
  terminal.out(`Wrote ${files.map((file) => file.name).join(', ')} to ${folder}`)
}

/** A drawing by itself, as a plan would take it. @throws PlanError with its place in the drawing */
function drawnIn(file: string): Readonly<Record<string, Motif>> {
  const read = readDrawnRepeat(readText(file, DRAWING_LIMITS.bytes))
  if (!('shape' in read)) {
    const { code, message, hint, position } = read
    throw new PlanError({
      code,
      message,
      at: '',
      position: position ?? { line: 1, column: 1 },
      ...(hint && { hint }),
    })
  }
  const name = basename(file, extname(file))
  return { [name]: drawnMotif({ name, shape: read.shape, suits: DRAWN_SUITS }) }
}

function motifOf(name: string): Motif {
  const motif = Object.hasOwn(MOTIFS, name) ? MOTIFS[name] : undefined
  if (motif) return motif
  const known = Object.keys(MOTIFS)
  const near = nearestName(name, known)
  throw new PlanError({
    code: 'motif/unknown',
    at: '',
    message: `there is no filler "${name}"; there are: ${known.join(', ')}`,
    ...(near ? { hint: `did you mean ${near}?` } : {}),
  })
}

const dataOf = ({ title, source, params, suits, ends }: Motif) => ({ title, source, suits, ends, params })

const inchText = (mm: number): string => `${Number(toInches(mm).toFixed(2))}`
const suitsText = ({ suits }: Motif): string =>
  suits.max > 1000 ? `${inchText(suits.min)} in and up` : `${inchText(suits.min)} - ${inchText(suits.max)} in`

function listText(entries: readonly (readonly [string, Motif])[]): string {
  const width = Math.max(...entries.map(([id]) => id.length))
  return entries
    .map(
      ([id, motif]) =>
        `${id.padEnd(width)}  ${suitsText(motif).padEnd(14)}  ${Object.keys(motif.params).join(', ')}`,
    )
    .join('\n')
}

function describe(id: string, motif: Motif): string {
  const values = Object.entries(motif.params).map(
    ([key, param]) => `  ${key}: ${param.label.toLowerCase()}; ${rangeText(param)}`,
  )
  return [
    `${id}: ${motif.title}`,
    `suits bands of ${suitsText(motif)}`,
    `shape: ${motif.source}`,
    'values:',
    ...values,
  ].join('\n')
}

function rangeText(param: Param): string {
  switch (param.kind) {
    case 'choice':
      return `${param.of.join(' or ')}; ${param.default} unless said`
    case 'length': {
      const usual =
        typeof param.default === 'number'
          ? `${inchText(param.default)} in`
          : `${param.default.widths} x the band's width`
      return `${inchText(param.min)} to ${inchText(param.max)} in; ${usual} unless said`
    }
    default:
      return `${param.min} to ${param.max}; ${param.default} unless said`
  }
}
