import { batch, computed, effect, signal } from '@preact/signals'
import type { Document } from 'yaml'
import type { Problem } from '../error.ts'
import type { LengthUnit } from '../units.ts'
import { changeUnits, editPlanText, type Path, readPlanText, setAt } from './plan-text.ts'
import { type Planner, startPlanner } from './planner.ts'
import { FIRST } from './samples.ts'
import type { Answer, Figured, Laid, PageCatalog, Scene, Swatch } from './worker/messages.ts'

const KEPT = 'ditchline.work'

interface Kept {
  readonly text: string
  readonly fileName: string
}

function keptWork(): Kept {
  try {
    const kept = JSON.parse(localStorage.getItem(KEPT) ?? 'null') as Kept | null
    if (typeof kept?.text === 'string') return kept
  } catch {
    // Work that cannot be read back is as good as none.
  }
  return { text: FIRST.text, fileName: `${FIRST.id}.yaml` }
}

const begin = keptWork()

/** The plan file: the only thing that is edited. */
export const text = signal(begin.text)
export const fileName = signal(begin.fileName)
export const plan = computed(() => readPlanText(text.value))

/** What the worker last made of a good plan, and what is wrong with the present one. */
export const catalog = signal<PageCatalog | undefined>(undefined)
export const laid = signal<Laid | undefined>(undefined)
export const scene = signal<Scene | undefined>(undefined)
export const figured = signal<Figured | undefined>(undefined)
export const problems = signal<readonly Problem[]>([])
export const fault = signal('')
/** The picture, or the figures, are not yet those of the present plan. */
export const isSketching = signal(false)
export const isFiguring = signal(false)
/** How long the last edit took to become a picture, ms. */
export const editMs = signal<number | undefined>(undefined)

/** What is being looked at: a band by its index, the centre, or the things around the quilt. */
export type Chosen = number | 'centre' | 'setup' | undefined
export const chosen = signal<Chosen>(undefined)

const past = signal<readonly string[]>([])
const future = signal<readonly string[]>([])
export const canUndo = computed(() => past.value.length > 0)
export const canRedo = computed(() => future.value.length > 0)

/** Edits of the same thing that follow within this time are undone together, ms. */
const TOGETHER = 900
let lastEdit = { what: '', at: 0 }

/** Takes a new text of the plan, to be undone in one step with those of the same `what` just before. */
export function change(to: string, what: string): void {
  if (to === text.value) return
  const now = performance.now()
  const goesOn = what !== '' && what === lastEdit.what && now - lastEdit.at < TOGETHER
  batch(() => {
    if (!goesOn) past.value = [...past.value.slice(-199), text.value]
    future.value = []
    text.value = to
  })
  lastEdit = { what, at: now }
}

/** Changes the plan by its parts. */
export const edit = (work: (document: Document) => void, what = ''): void =>
  change(editPlanText(text.value, work), what)

/** Writes one value; undefined takes it away. */
export const write = (path: Path, value: unknown): void =>
  edit((document) => setAt(document, path, value), path.join('.'))

/** Writes the plan in another unit. */
export const switchUnits = (to: LengthUnit): void =>
  edit((document) => changeUnits(document, to, lengthKeysOf))

function lengthKeysOf(filler: string): string[] {
  const params = catalog.value?.fillers.find(({ id }) => id === filler)?.params ?? {}
  return Object.keys(params).filter((key) => params[key]!.kind === 'length')
}

export function undo(): void {
  const before = past.value.at(-1)
  if (before === undefined) return
  batch(() => {
    past.value = past.value.slice(0, -1)
    future.value = [text.value, ...future.value]
    text.value = before
  })
  lastEdit = { what: '', at: 0 }
}

export function redo(): void {
  const [next, ...rest] = future.value
  if (next === undefined) return
  batch(() => {
    past.value = [...past.value, text.value]
    future.value = rest
    text.value = next
  })
  lastEdit = { what: '', at: 0 }
}

/** Opens another plan file; the one before it can be had back by undoing. */
export function open(opened: string, name: string): void {
  batch(() => {
    change(opened, '')
    fileName.value = name
    chosen.value = undefined
    walked.value = undefined
  })
}

/** How far the line has been walked, mm; undefined shows it whole. */
export const walked = signal<number | undefined>(undefined)
export const isPlaying = signal(false)

/** A plan kept beside the present one, to compare. */
export interface KeptPlan {
  readonly text: string
  readonly scene: Scene
  readonly figured: Figured | undefined
}
export const kept = signal<KeptPlan | undefined>(undefined)
export const isKeptShown = signal(false)
export const shownScene = computed(() => (isKeptShown.value && kept.value ? kept.value.scene : scene.value))

export function keepPlan(): void {
  if (scene.value) kept.value = { text: text.value, scene: scene.value, figured: figured.value }
}

/** Fillers drawn at a width, by their id; the width is asked for and comes later. */
export const swatches = signal<{ readonly width: number; readonly by: Readonly<Record<string, Swatch>> }>({
  width: 0,
  by: {},
})

let sketchId = 0
let figureId = 0
let editedAt = 0

const sketcher: Planner = startPlanner(hear)
const reckoner: Planner = startPlanner(hear)
const drafter: Planner = startPlanner(hear)

function hear(answer: Answer): void {
  switch (answer.say) {
    case 'catalog':
      catalog.value = answer.catalog
      return
    case 'swatches':
      swatches.value = { width: askedWidth, by: answer.swatches }
      return
    case 'laid':
      if (answer.id === sketchId)
        batch(() => {
          laid.value = answer.laid
          problems.value = []
          fault.value = ''
        })
      return
    case 'scene':
      if (answer.id !== sketchId) return
      batch(() => {
        scene.value = answer.scene
        isSketching.value = false
        editMs.value = performance.now() - editedAt
      })
      askForFigures()
      return
    case 'figured':
      if (answer.id !== figureId) return
      if (figuredText !== text.value) askForFigures()
      else
        batch(() => {
          figured.value = answer.figured
          isFiguring.value = false
        })
      return
    case 'refused':
      if (answer.id !== sketchId) return
      batch(() => {
        problems.value = answer.problems
        isSketching.value = false
        isFiguring.value = false
      })
      return
    case 'fault':
      batch(() => {
        fault.value = answer.message
        isSketching.value = false
        isFiguring.value = false
      })
      return
    case 'files':
  }
}

let figuredText = ''

/** Figures take longer than the picture: they are reckoned for the last plan only. */
function askForFigures(): void {
  isFiguring.value = true
  if (reckoner.isBusy && figuredText !== text.value) {
    reckoner.dropAfter(0)
  }
  figuredText = text.value
  figureId = reckoner.ask({ ask: 'figure', text: text.value })
}

let askedWidth = 0

/** Asks for all fillers at this width. */
export function askSwatches(width: number): void {
  if (width === askedWidth) return
  askedWidth = width
  drafter.ask({ ask: 'swatches', width })
}

/** Starts the planning; from now on every change of the text is planned and kept. */
export function begins(): void {
  // The worker that draws the first picture answers this too: another one would only take its time from it.
  sketcher.ask({ ask: 'catalog' })
  effect(() => {
    const now = text.value
    editedAt = performance.now()
    isSketching.value = true
    if (catalog.peek()) sketcher.dropAfter(250)
    sketchId = sketcher.ask({ ask: 'sketch', text: now })
  })
  effect(() => {
    const work: Kept = { text: text.value, fileName: fileName.value }
    try {
      localStorage.setItem(KEPT, JSON.stringify(work))
    } catch {
      // A browser that keeps nothing still plans.
    }
  })
}
