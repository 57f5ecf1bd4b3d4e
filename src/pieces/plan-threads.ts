import type { Line } from '../stitch/line.ts'
import type { Frame } from './frame-passes.ts'
import type { SeamEdge } from './net.ts'
import type { Pieces } from './pieces.ts'
import { bandOfCorner } from './place-vertex.ts'
import { planFrameThreads } from './plan-frame-threads.ts'
import { type LineTask, type PlannedLine, planLine, type Wishes } from './plan-line.ts'

/** What the lines are planned over, and which thread each band is stitched with. */
export interface ThreadedTask extends LineTask {
  /** CSS colours by band; a band without one, and the centre, have `thread`. */
  readonly bandThreads: readonly (string | undefined)[]
}

/** The work with one thread. */
export interface ThreadWork extends PlannedLine {
  readonly thread: string
  /** Number of its first area among all. */
  readonly firstArea: number
}

type Work = Omit<ThreadWork, 'firstArea'>

/** All lines of a quilt in the order of work. */
export interface PlannedLines {
  /** One a thread, or on a frame one each time that a thread is put in. */
  readonly works: readonly ThreadWork[]
  /** One entry a thread start, areas numbered through. */
  readonly lines: readonly Line[]
  readonly areaCount: number
  /** No lines over the same pieces have fewer starts. */
  readonly startsBound: number
  /** How often another thread is put in, and no work over the same pieces does so less often. */
  readonly changes: number
  readonly changesBound: number
  /** On a frame: its passes, the fewest starts that they need, and the areas in each. */
  readonly frame?: NonNullable<PlannedLine['frame']> & { readonly areasOf: readonly (readonly number[])[] }
}

/**
 * Plans a line for each thread: each thread is put in once, and its bands are stitched with as few starts as their pieces
 * and the seams between them allow. Threads follow each other from the middle outward, or as the order of work asks; a
 * wanted start or end comes in the thread of its band, which is then the first or the last.
 *
 * @throws PlanError as `planLine`
 */
export function planThreads(task: ThreadedTask): PlannedLines {
  const threads = threadsInOrder(task)
  if (threads.length < 2) {
    const thread = threads[0] ?? task.thread
    return together([{ ...planLine({ ...task, thread }), thread }], 0)
  }
  if (task.wishes.frame) return onFrame(task, threads, task.wishes.frame)
  const works = threads.map((thread) => ({ ...planLine(taskOf(thread, threads, task)), thread }))
  return together(works, threads.length - 1)
}

/** Pass by pass, each with all threads that it needs. */
function onFrame(task: ThreadedTask, threads: readonly string[], frame: Frame): PlannedLines {
  const seamThread = seamThreads(task, threads)
  const { turns, passes } = planFrameThreads(task, frame, (part) =>
    'sector' in part ? threadOf(task, part.band) : seamThread(bandOfSeam(part)),
  )
  const lines = together(turns, turns.length - 1)
  const passOf = turns.flatMap((turn) => turn.passOf)
  const startsBound = turns.reduce((sum, turn) => sum + turn.startsBound, 0)
  const areasOf = passes.map((_, pass) => passOf.flatMap((of, area) => (of === pass ? [area] : [])))
  return { ...lines, startsBound, frame: { passes, startsBound, areasOf } }
}

/** The band that a seam belongs to. */
const bandOfSeam = ({ edge, patch, corner, ring }: SeamEdge): number =>
  edge?.band ?? patch ?? corner ?? ring ?? -1

/** One work after the other. */
function together(works: readonly Work[], changesBound: number): PlannedLines {
  let areaCount = 0
  const numbered = works.map((work): ThreadWork => {
    const firstArea = areaCount
    areaCount += work.areas.length
    return { ...work, firstArea }
  })
  const lines = numbered.flatMap(({ lines: own, firstArea }) => own.map((line) => shifted(line, firstArea)))
  const frame = works.length === 1 ? works[0]!.frame : undefined
  return {
    works: numbered,
    lines,
    areaCount,
    startsBound: works.reduce((sum, { route }) => sum + route.startsBound, 0),
    changes: lines.filter(({ thread }, i) => i > 0 && thread !== lines[i - 1]!.thread).length,
    changesBound,
    ...(frame && { frame: { ...frame, areasOf: frame.passes.map((_, pass) => [pass]) } }),
  }
}

const shifted = (line: Line, by: number): Line =>
  by === 0 ? line : { ...line, parts: line.parts.map((part) => ({ ...part, area: part.area + by })) }

/** The thread that a band, or the centre (-1), is stitched with. */
const threadOf = ({ bandThreads, thread }: ThreadedTask, band: number): string => bandThreads[band] ?? thread

/** The threads that stitch anything, in the order of work. */
function threadsInOrder(task: ThreadedTask): string[] {
  const { pieces, wishes } = task
  const bands = [...new Set(pieces.pieces.map(({ band }) => band))].sort((a, b) => a - b)
  if (wishes.order === 'outside-in') bands.reverse()
  const threads = [...new Set(bands.map((band) => threadOf(task, band)))]
  const [first, last] = [wishes.start, wishes.end].map((place) => placeThread(place, task))
  const rank = (thread: string) => (thread === first ? 0 : thread === last ? 2 : 1)
  return threads.sort((a, b) => rank(a) - rank(b))
}

/** The thread of the band in which a wanted place lies. */
function placeThread(place: Wishes['start'], task: ThreadedTask): string | undefined {
  if (place.kind === 'anywhere') return undefined
  return threadOf(task, place.kind === 'side' ? place.band : (bandOfCorner(task) ?? -1))
}

/** What one thread stitches, and the wishes that concern it. */
function taskOf(thread: string, threads: readonly string[], task: ThreadedTask): LineTask {
  const { wishes } = task
  const isOwn = (band: number) => threadOf(task, band) === thread
  const ofPlace = (place: Wishes['start']): Wishes['start'] =>
    placeThread(place, task) === thread ? place : { kind: 'anywhere' }
  const seamThread = seamThreads(task, threads)
  return {
    ...task,
    thread,
    pieces: piecesIn(task, isOwn),
    wishes: {
      ...wishes,
      start: ofPlace(wishes.start),
      end: ofPlace(wishes.end),
      ditch: wishes.ditch.filter(({ band }) => seamThread(band) === thread),
    },
  }
}

/** A seam is stitched with the band it belongs to; that of a band that is not quilted, with the first thread. */
const seamThreads = (task: ThreadedTask, threads: readonly string[]) => (band: number) => {
  const own = threadOf(task, band)
  return threads.includes(own) ? own : threads[0]!
}

/** The pieces of some bands: the others are not there for the line. */
function piecesIn({ pieces, quilt }: ThreadedTask, isOwn: (band: number) => boolean): Pieces {
  const { avoided } = pieces
  return {
    ...pieces,
    pieces: pieces.pieces.filter(({ band }) => isOwn(band)),
    stretches: [],
    ditched: pieces.ditched.filter(({ patch }) => isOwn(quilt.patches![patch]!.band)),
    ...(avoided && {
      avoided: {
        ...avoided,
        edges: avoided.edges.map((edge) => ({ ...edge, isAsked: edge.isAsked && isOwn(edge.band) })),
      },
    }),
  }
}
