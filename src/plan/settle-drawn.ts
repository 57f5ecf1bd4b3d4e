import { type RepeatRead, readDrawnRepeat, readPathRepeat } from '../drawn/read-repeat.ts'
import type { RepeatShape } from '../drawn/repeat-shape.ts'
import { PlanError } from '../error.ts'
import { inches } from '../units.ts'
import type { Entry } from './entry.ts'
import { DRAWN_NAME } from './format-parts.ts'
import { LIMITS } from './limits.ts'
import type { DrawnMotifPlan } from './plan.ts'
import { show } from './problems.ts'

/** Finished widths that a drawn motif suits unless said, mm. */
export const DRAWN_SUITS = { min: inches(0.5), max: inches(8) }

/** Words that mean something else where a filler is named. */
const TAKEN = ['none', 'auto']

/** Reads the motifs that a plan draws itself. One that cannot be read is stood in for, so that its name is known. */
export function settleDrawn(entry: Entry): DrawnMotifPlan[] {
  const names = entry.keys()
  if (names.length > LIMITS.drawnMotifs)
    entry.refuse({
      code: 'plan/size',
      message: `has ${names.length} motifs; allowed: at most ${LIMITS.drawnMotifs}`,
    })
  return names
    .sort()
    .slice(0, LIMITS.drawnMotifs)
    .map((name) => settleOne(name, entry.at(name)))
}

function settleOne(name: string, entry: Entry): DrawnMotifPlan {
  refuseName(name, entry)
  const [drawing, path] = [entry.at('drawing').text(), entry.at('path').text()]
  const from = drawing !== undefined ? { drawing } : { path: path ?? '' }
  const shape = settleShape(entry) ?? STAND_IN
  return { name, ...from, shape, suits: settleSuits(entry.at('suits')) }
}

/** What the file or the path draws: one of the two. */
function settleShape(entry: Entry): RepeatShape | undefined {
  const [hasDrawing, hasPath] = [entry.has('drawing'), entry.has('path')]
  if (hasDrawing !== hasPath) return hasDrawing ? fromFile(entry.at('drawing')) : fromPath(entry.at('path'))
  if (!entry.isGroup) return undefined
  const message = hasPath ? 'has both drawing (a file) and path' : 'has neither drawing (a file) nor path'
  return entry.refuse({ code: 'plan/contradiction', message: `${message}; give one of them` })
}

function refuseName(name: string, entry: Entry): void {
  if (Object.hasOwn(entry.desk.catalog.motifs, name) || TAKEN.includes(name))
    entry.refuse({
      code: 'plan/name-taken',
      message: `${show(name)} is a filler already; give yours another name`,
      of: 'key',
    })
  else if (!DRAWN_NAME.test(name))
    entry.refuse({
      code: 'plan/name',
      message: `${show(name)} is no name for a motif; use small letters, digits and hyphens, at most 40, such as harbour-wave`,
      of: 'key',
    })
}

function settleSuits(entry: Entry): DrawnMotifPlan['suits'] {
  const bounds = { least: LIMITS.least, greatest: LIMITS.greatest }
  const min = entry.at(0).length({ ...bounds, fallback: DRAWN_SUITS.min })
  const max = entry.at(1).length({ ...bounds, fallback: DRAWN_SUITS.max })
  if (min < max) return { min, max }
  entry.refuse({ code: 'plan/order', message: 'ends before it begins; give the narrowest width first' })
  return DRAWN_SUITS
}

/** A name in the plan's own folder, or below it. */
const NAME = /^[^\p{C}\\/:*?"<>|]+(?:\/[^\p{C}\\/:*?"<>|]+)*\.svg$/u

function fromFile(entry: Entry): RepeatShape | undefined {
  const name = entry.text()
  if (name === undefined) return undefined
  if (!NAME.test(name) || name.split('/').some((part) => /^\.+$/.test(part)))
    return entry.refuse({
      code: 'plan/drawing',
      message: `is ${show(name)}; expected the name of an SVG file beside the plan, such as wave.svg`,
    })
  const { readFile } = entry.desk.catalog
  if (!readFile)
    return entry.refuse({
      code: 'plan/drawing',
      message: `is ${show(name)}; files beside the plan cannot be read here`,
      hint: 'write the drawing\'s path into the plan: { path: "M0 20 C ..." }',
    })
  let svg: string
  try {
    svg = readFile(name)
  } catch (error) {
    if (!(error instanceof PlanError)) throw error
    return entry.refuse({ code: 'plan/drawing', message: error.problems[0]!.message })
  }
  return accept(readDrawnRepeat(svg), entry, (place) =>
    place ? `${name}:${place.line}:${place.column}` : name,
  )
}

function fromPath(entry: Entry): RepeatShape | undefined {
  const path = entry.text()
  if (path === undefined) return undefined
  return accept(readPathRepeat(path), entry, (place) => {
    if (!place) return ''
    return place.line === 1 ? `character ${place.column}` : `line ${place.line}, character ${place.column}`
  })
}

type Place = { readonly line: number; readonly column: number }

function accept(
  read: RepeatRead,
  entry: Entry,
  placeText: (place: Place | undefined) => string,
): RepeatShape | undefined {
  if ('shape' in read) return read.shape
  const place = placeText(read.position)
  return entry.refuse({
    code: read.code,
    message: place ? `${place}: ${read.message}` : read.message,
    hint: read.hint,
  })
}

/** What is taken for a motif that cannot be read: a zigzag. */
const STAND_IN: RepeatShape = {
  kind: 'alternate',
  length: 2,
  rise: { start: [0, 0], segments: [{ kind: 'line', to: [1, 1] }] },
  fall: { start: [1, 1], segments: [{ kind: 'line', to: [2, 0] }] },
  joints: 'cusped',
}
