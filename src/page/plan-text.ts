import { type Document, isMap, isScalar, isSeq, parseDocument } from 'yaml'
import { parseLength } from '../plan/length.ts'
import type { Option } from '../plan/options.ts'
import { type LengthUnit, MM_PER } from '../units.ts'
import type { PlanFile, Written } from './plan-file.ts'

/** A place in the plan file: keys and list positions from the root. */
export type Path = readonly (string | number)[]

/** A plan file as it is written, with as much of its content as can be read. */
export interface PlanText {
  readonly text: string
  /** Undefined when it is no plan at all: then only its text can be edited. */
  readonly file: PlanFile | undefined
}

const parse = (text: string): Document => parseDocument(text, { prettyErrors: false, logLevel: 'silent' })

/** Reads what can be shown in controls. Whether the values are right is for the planner to say. */
export function readPlanText(text: string): PlanText {
  const document = parse(text)
  if (document.errors.length > 0) return { text, file: undefined }
  const data = document.toJS() as PlanFile | null
  const isPlan = isMap(document.get('centre')) && isSeq(document.get('bands'))
  const isWhole = isPlan && data!.bands.every((band) => typeof band === 'object' && band !== null)
  return { text, file: isWhole ? data! : undefined }
}

/** Changes the plan file's text in one place, keeping its comments and its order. */
export function editPlanText(text: string, change: (document: Document) => void): string {
  const document = parse(text)
  change(document)
  return document.toString({ lineWidth: 110, flowCollectionPadding: true })
}

/** Writes a value at a place; undefined takes the key away, and the groups that are empty without it. */
export function setAt(document: Document, path: Path, value: unknown): void {
  if (value === undefined) {
    takeAway(document, path)
    return
  }
  makeRoom(document, path)
  const present = document.getIn(path, true)
  if (isScalar(present) && typeof value !== 'object') present.value = value
  else document.setIn(path, typeof value === 'object' ? flowNode(document, value) : value)
}

function takeAway(document: Document, path: Path): void {
  if (document.hasIn(path)) document.deleteIn(path)
  const above = path.slice(0, -1)
  const group = above.length > 0 ? document.getIn(above) : undefined
  if ((isMap(group) || isSeq(group)) && group.items.length === 0 && typeof above.at(-1) === 'string')
    takeAway(document, above)
}

/** A key that has nothing, or a single word, where a group is needed gets the group. */
function makeRoom(document: Document, path: Path): void {
  for (let i = 1; i < path.length; i++) {
    const above = path.slice(0, i)
    const node = document.getIn(above)
    if (isMap(node) || isSeq(node)) continue
    document.setIn(above, document.createNode(typeof path[i] === 'number' ? [] : {}, { flow: i > 1 }))
  }
}

const flowNode = (document: Document, value: unknown): unknown => document.createNode(value, { flow: true })

/** What a person typed as a plan file writes it: a number where it is one, otherwise the text itself. */
export function writtenValue(typed: string): Written {
  const text = typed.trim()
  return /^\d+(\.\d+)?$/.test(text) ? Number(text) : text
}

/** A new band outside band `after` (-1: next to the centre), as wide as its neighbour. */
export function addBand(document: Document, after: number): void {
  const bands = bandsOf(document)
  const neighbour = (document.toJS() as PlanFile).bands[Math.max(0, after)]
  const band = {
    name: freeName(document, 'border'),
    width: neighbour?.width ?? 2,
    filler: 'scallop',
    fabric: '#c9bda4',
  }
  bands.items.splice(after + 1, 0, flowNode(document, band))
}

/** A copy of a band outside of it. */
export function duplicateBand(document: Document, index: number): void {
  const band = (document.toJS() as PlanFile).bands[index]!
  const copy = { ...band, name: freeName(document, band.name ?? 'border') }
  bandsOf(document).items.splice(index + 1, 0, flowNode(document, copy))
}

export function removeBand(document: Document, index: number): void {
  bandsOf(document).items.splice(index, 1)
}

/** Puts a band in the place of another; those between move up. */
export function moveBand(document: Document, from: number, to: number): void {
  const { items } = bandsOf(document)
  items.splice(to, 0, ...items.splice(from, 1))
}

const bandsOf = (document: Document): { items: unknown[] } => document.get('bands') as { items: unknown[] }

function freeName(document: Document, wanted: string): string {
  const names = new Set((document.toJS() as PlanFile).bands.map((band) => band.name))
  const stem = wanted.replace(/ \d+$/, '')
  let [name, n] = [stem, 2]
  while (names.has(name)) name = `${stem} ${n++}`
  return name
}

/** What the plan file's format says of its keys, and which values of a filler are lengths. */
export interface Lengths {
  readonly options: Readonly<Record<string, Option>>
  readonly ofFiller: (filler: string) => readonly string[]
}

/** Writes every bare length of the plan in another unit: the quilt stays as it is. */
export function changeUnits(document: Document, to: LengthUnit, lengths: Lengths): void {
  const from = ((document.get('units') as LengthUnit | undefined) ?? 'in') satisfies LengthUnit
  if (from === to) return
  const file = document.toJS() as Record<string, unknown>
  for (const [key, option] of Object.entries(lengths.options))
    for (const path of lengthPaths(file[key], { path: [key], option, lengths })) {
      const value = document.getIn(path)
      if (typeof value !== 'number' && !(typeof value === 'string' && /[\d¼½¾⅛⅜⅝⅞⅓⅔]$/.test(value))) continue
      const mm = parseLength(value, from)
      if (mm !== undefined) setAt(document, path, Number((mm / MM_PER[to]).toFixed(4)))
    }
  document.set('units', to)
}

interface LengthPlace {
  readonly path: Path
  readonly option: Option
  readonly lengths: Lengths
}

const isGroup = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null

/** The places of all lengths within a value of the plan file that may be written in the plan's unit. */
function lengthPaths(value: unknown, { path, option, lengths }: LengthPlace): Path[] {
  if (value === undefined || value === null) return []
  const within = (key: string | number, part: Option) =>
    lengthPaths((value as Record<string | number, unknown>)[key], {
      path: [...path, key],
      option: part,
      lengths,
    })
  switch (option.kind) {
    case 'length':
      return [path]
    case 'length-of-sides':
      return isGroup(value) ? Object.keys(value).map((side) => [...path, side]) : [path]
    case 'group':
      return isGroup(value) ? Object.entries(option.of).flatMap(([key, part]) => within(key, part)) : []
    case 'list':
      return Array.isArray(value) ? value.flatMap((_, i) => within(i, option.of)) : []
    case 'row':
      return Array.isArray(value) ? option.of.flatMap((part, i) => within(i, part)) : []
    case 'by-name':
      if (option.of.kind === 'anything') return fillerPaths(value, path, lengths)
      return isGroup(value) ? Object.keys(value).flatMap((name) => within(name, option.of)) : []
    case 'either':
      return option.of
        .filter((way) => suits(value, way))
        .flatMap((way) => lengthPaths(value, { path, option: way, lengths }))
    default:
      return []
  }
}

/** Whether a value is written in one of several ways: as one value, as a list, or as a group. */
const suits = (value: unknown, { kind }: Option): boolean =>
  Array.isArray(value)
    ? kind === 'list' || kind === 'row'
    : isGroup(value)
      ? kind === 'group' || kind === 'by-name'
      : !['list', 'row', 'group', 'by-name'].includes(kind)

/** The places of the lengths among the values of a filler, or of the fillers of several patches. */
function fillerPaths(value: unknown, path: Path, lengths: Lengths): Path[] {
  if (!isGroup(value)) return []
  return Object.entries(value).flatMap(([name, values]) => {
    const keys = lengths.ofFiller(name)
    const own = isGroup(values) ? keys.filter((key) => key in values).map((key) => [...path, name, key]) : []
    return [...own, ...(keys.length === 0 ? fillerPaths(values, [...path, name], lengths) : [])]
  })
}
