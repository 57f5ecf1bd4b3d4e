import { batch, computed, effect, signal } from '@preact/signals'
import type { Document } from 'yaml'
import type { LengthUnit } from '../units.ts'
import { changeUnits, editPlanText, type Lengths, type Path, readPlanText, setAt } from './plan-text.ts'
import { FIRST } from './samples.ts'

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
export const switchUnits = (to: LengthUnit, lengths: Lengths): void =>
  edit((document) => changeUnits(document, to, lengths))

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

/** Keeps the work in this browser, so that a reload goes on with it. */
export function keepsWork(): void {
  effect(() => {
    const work: Kept = { text: text.value, fileName: fileName.value }
    try {
      localStorage.setItem(KEPT, JSON.stringify(work))
    } catch {
      // A browser that keeps nothing still plans.
    }
  })
}
