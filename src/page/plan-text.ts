import { type Document, isMap, isScalar, isSeq, parseDocument } from 'yaml'
import { parseLength } from '../plan/length.ts'
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

/** A new band outside band `after` (-1: next to the centre), as wide as its neighbour; bare under an all-over. */
export function addBand(document: Document, after: number): void {
  const bands = bandsOf(document)
  const neighbour = (document.toJS() as PlanFile).bands[Math.max(0, after)]
  const band = {
    name: freeName(document, 'border'),
    width: neighbour?.width ?? 2,
    filler: (document.get('allOver') ?? 'none') === 'none' ? 'scallop' : 'none',
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

/** Which values of a filler are lengths. */
export type LengthKeys = (filler: string) => readonly string[]

/** Writes every bare length of the plan in another unit: the quilt stays as it is. */
export function changeUnits(document: Document, to: LengthUnit, lengthKeys: LengthKeys): void {
  const from = ((document.get('units') as LengthUnit | undefined) ?? 'in') satisfies LengthUnit
  if (from === to) return
  const convert = (path: Path) => {
    const value = document.getIn(path)
    if (typeof value !== 'number' && !(typeof value === 'string' && /[\d¼½¾⅛⅜⅝⅞⅓⅔]$/.test(value))) return
    const mm = parseLength(value, from)
    if (mm !== undefined) setAt(document, path, Number((mm / MM_PER[to]).toFixed(4)))
  }
  for (const path of lengthPaths(document, lengthKeys)) convert(path)
  document.set('units', to)
}

const SIDES = ['top', 'right', 'bottom', 'left']

/** The places of all lengths that may be written in the plan's unit. */
function lengthPaths(document: Document, lengthKeys: LengthKeys): Path[] {
  const sides = (path: Path) => [path, ...SIDES.map((side) => [...path, side])]
  const { bands } = document.toJS() as PlanFile
  return [
    ['centre', 'width'],
    ['centre', 'height'],
    ['centre', 'across'],
    ...fillerPaths(document, { at: ['centre', 'filler'], lengthKeys }),
    ...fillerPaths(document, { at: ['allOver'], lengthKeys }),
    ...bands.flatMap((_, i) => [
      ...sides(['bands', i, 'width']),
      ...sides(['bands', i, 'cut']),
      ['bands', i, 'pieced', 'size'],
      ...[['filler'], ...SIDES.map((side) => ['sides', side])].flatMap((at) =>
        fillerPaths(document, { at: ['bands', i, ...at], lengthKeys }),
      ),
    ]),
    ['binding'],
    ['machine', 'reach', 0],
    ['machine', 'reach', 1],
    ['machine', 'throat'],
    ['machine', 'overlap'],
    ['stitch', 'length'],
    ['stitch', 'chordTolerance'],
    ['stitch', 'tieOff', 'length'],
    ['batting', 'limit'],
    ['batting', 'thickness'],
    ['thread', 'bobbin'],
    ['thread', 'spool'],
    ...leavesOf(document, ['motifs']).filter(([, , key]) => key === 'suits'),
    ...leavesOf(document, ['measured']),
    ...leavesOf(document, ['avoid']).filter(([, , key]) => key !== 'name' && key !== 'outline'),
  ]
}

/** The places of the lengths among the values of a filler. */
function fillerPaths(document: Document, { at, lengthKeys }: { at: Path; lengthKeys: LengthKeys }): Path[] {
  const node = document.getIn(at)
  if (!isMap(node)) return []
  const names = node.items.map(({ key }) => String(isScalar(key) ? key.value : key))
  return names.flatMap((name) => lengthKeys(name).map((key) => [...at, name, key]))
}

/** The places of all single values within a part of the plan. */
function leavesOf(document: Document, path: Path): Path[] {
  const node = document.getIn(path)
  if (isSeq(node)) return node.items.flatMap((_, i) => leavesOf(document, [...path, i]))
  if (isMap(node))
    return node.items.flatMap(({ key }) =>
      leavesOf(document, [...path, String(isScalar(key) ? key.value : key)]),
    )
  return [path]
}
