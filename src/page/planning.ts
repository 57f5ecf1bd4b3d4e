import { batch, computed, effect, signal } from '@preact/signals'
import type { Problem } from '../error.ts'
import { keepCloseUp } from './canvas/close-up.ts'
import { startPlanner } from './planner.ts'
import { text } from './state.ts'
import type {
  Answer,
  Family,
  Figured,
  FillerEntry,
  Laid,
  PageCatalog,
  Scene,
  StepTimes,
  Swatch,
  SwatchWish,
} from './worker/messages.ts'

/** What the worker last made of a good plan, and what is wrong with the present one. */
export const catalog = signal<PageCatalog | undefined>(undefined)
export const laid = signal<Laid | undefined>(undefined)
export const scene = signal<Scene | undefined>(undefined)
/** The fillers of the present plan while its line is not yet known: shown in the scene's place. */
export const preview = signal<Scene | undefined>(undefined)
/** Counts the scenes whose finest chords have come. */
export const closeUps = signal(0)
export const figured = signal<Figured | undefined>(undefined)
export const problems = signal<readonly Problem[]>([])
export const fault = signal('')
/** The picture is not yet that of the present plan. */
export const isSketching = signal(false)
/** Whether the figures are those of the present plan, are being worked out, or are of an older plan and stay so. */
export const figuresAre = signal<'fresh' | 'coming' | 'old'>('coming')
/** The figures, if they are those of the present plan. */
export const freshFigures = computed(() => (figuresAre.value === 'fresh' ? figured.value : undefined))
export const isPlanning = computed(() => isSketching.value || figuresAre.value === 'coming')

/** The fillers of a family: those that the page knows, and for bands those that the plan draws itself. */
export const fillersOf = (family: Family): readonly FillerEntry[] => [
  ...(catalog.value?.fillers[family] ?? []),
  ...(family === 'bands' ? (laid.value?.own ?? []) : []),
]

/** A filler of a family by its name. */
export const fillerOf = (family: Family, name: string): FillerEntry | undefined =>
  fillersOf(family).find(({ id }) => id === name)

/** The parameters of a filler that are lengths, in whichever family it is. */
export function lengthKeysOf(filler: string): string[] {
  const families = Object.keys(catalog.value?.fillers ?? {}) as Family[]
  const keys = families.flatMap((family) => {
    const params = fillerOf(family, filler)?.params ?? {}
    return Object.keys(params).filter((key) => params[key]!.kind === 'length')
  })
  return [...new Set(keys)]
}

type Swatches = Readonly<Record<string, Swatch>>

/** Fillers drawn in cloth of a width; they are asked for and come later. */
const swatches = signal<ReadonlyMap<string, Swatches>>(new Map())
const keyOf = ({ family, width }: SwatchWish): string => `${family} ${width.toFixed(3)}`
export const swatchesOf = (wish: SwatchWish): Swatches | undefined => swatches.value.get(keyOf(wish))

/** Drawings are kept for as many widths. */
const MOST_WIDTHS = 12

/** When the present plan was asked for, and the steps to its picture: for the measure that `pictureIsDrawn` takes. */
let editedAt = 0
let lastTook: StepTimes | undefined
let round = 0

const planner = startPlanner(hear)
const drafter = startPlanner(hear)

/** A plan of which nothing is heard for so long is dropped together with its worker when another takes its place, ms. */
const TOO_LONG = 2500

function hear(answer: Answer): void {
  switch (answer.say) {
    case 'catalog':
      catalog.value = answer.catalog
      return
    case 'swatches':
      asked.delete(keyOf(answer.wish))
      swatches.value = new Map([
        ...[...swatches.value].slice(1 - MOST_WIDTHS),
        [keyOf(answer.wish), answer.swatches],
      ])
      return
    case 'files':
    case 'way':
    case 'compared':
      return
    default:
      if (answer.id === round) hearOfRound(answer)
  }
}

type RoundAnswer = Exclude<Answer, { readonly say: 'catalog' | 'swatches' | 'files' | 'way' | 'compared' }>

function hearOfRound(answer: RoundAnswer): void {
  batch(() => {
    switch (answer.say) {
      case 'laid':
        laid.value = answer.laid
        problems.value = []
        fault.value = ''
        return
      case 'preview':
        preview.value = answer.preview
        return
      case 'scene':
        lastTook = answer.took
        scene.value = answer.scene
        preview.value = undefined
        isSketching.value = false
        return
      case 'close-up':
        keepCloseUp(scene.value!, answer.chains)
        closeUps.value++
        return
      case 'figured':
        figured.value = answer.figured
        figuresAre.value = 'fresh'
        performance.measure('edit to figures', { start: editedAt })
        warmDrafter()
        return
      case 'refused':
        problems.value = answer.problems
        break
      case 'fault':
        fault.value = answer.message
    }
    isSketching.value = false
    preview.value = undefined
    figuresAre.value = 'old'
  })
}

const asked = new Set<string>()

/** Asks for all fillers of a family at a width. */
export function askSwatches(wish: SwatchWish): void {
  const key = keyOf(wish)
  if (swatches.peek().has(key) || asked.has(key)) return
  asked.add(key)
  drafter.ask({ ask: 'swatches', wish })
}

/** Starts the worker that draws fillers while nothing else is to be done, so that the first card need not wait for it. */
function warmDrafter(): void {
  const first = laid.peek()?.plan.bands[0]?.width.top
  if (first !== undefined && swatches.peek().size === 0) askSwatches({ family: 'bands', width: first })
}

/** Measures how long it was from the change of the plan to the fillers in their new places, where tools can read it. */
export function previewIsDrawn(): void {
  performance.measure('edit to fillers', { start: editedAt })
}

/** Measures how long it was from the change of the plan to its line, with the worker's steps. */
export function pictureIsDrawn(): void {
  if (lastTook) performance.measure('edit to picture', { start: editedAt, detail: lastTook })
  lastTook = undefined
}

/** Starts the planning; from now on every change of the text is planned. */
export function planAlong(): void {
  // The worker that draws the first picture answers this too: another one would only take its time from it.
  planner.ask({ ask: 'catalog' })
  effect(() => {
    const now = text.value
    editedAt = performance.now()
    batch(() => {
      isSketching.value = true
      figuresAre.value = 'coming'
    })
    if (catalog.peek()) planner.dropIfSilent(TOO_LONG)
    round = planner.ask({ ask: 'plan', text: now })
  })
}
