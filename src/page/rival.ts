import { batch, effect, signal } from '@preact/signals'
import type { Comparison } from '../compare.ts'
import { STRIP_OVERLAP } from '../plan/defaults.ts'
import type { StrategyFigures } from '../report/strategies.ts'
import { keepCloseUp } from './canvas/close-up.ts'
import { editPlanText, setAt } from './plan-text.ts'
import { startPlanner } from './planner.ts'
import { closeUps, laid } from './planning.ts'
import { text } from './state.ts'
import type { Answer, Figured, Scene } from './worker/messages.ts'

/** Another plan, laid beside the present one. */
export interface Rival {
  readonly name: string
  readonly text: string
}

export const rival = signal<Rival | undefined>(undefined)
export const rivalScene = signal<Scene | undefined>(undefined)
export const rivalFigured = signal<Figured | undefined>(undefined)
/** What is wrong with it, in words. */
export const rivalSays = signal('')

/** The ways to work the present plan, side by side; and how many of them are worked out. */
export const comparison = signal<Comparison | undefined>(undefined)
export const waysDone = signal<number | undefined>(undefined)

const planner = startPlanner(hear)
const comparer = startPlanner(hear)
let asked = 0
let askedWays = 0
/** The plan whose ways were compared. */
let comparedText = ''

/** Lays another plan beside the present one. */
export function layBeside(beside: Rival): void {
  batch(() => {
    rival.value = beside
    rivalScene.value = undefined
    rivalFigured.value = undefined
    rivalSays.value = ''
  })
  asked = planner.ask({ ask: 'plan', text: beside.text })
}

/** Works the present plan out in every way. */
export function compareWays(): void {
  waysDone.value = 0
  comparedText = text.value
  askedWays = comparer.ask({ ask: 'compare', text: text.value })
}

// Ways that were worked out for another plan say nothing of this one.
effect(() => {
  if (text.value === comparedText) return
  comparer.dropIfSilent(0)
  comparedText = ''
  askedWays = 0
  waysDone.value = undefined
  comparison.value = undefined
})

function hear(answer: Answer): void {
  if (answer.say === 'way' || answer.say === 'compared') {
    if (answer.id !== askedWays) return
    if (answer.say === 'way') waysDone.value = answer.done
    else
      batch(() => {
        waysDone.value = undefined
        comparison.value = answer.comparison
      })
    return
  }
  if (answer.id === asked) hearOfRival(answer)
}

function hearOfRival(answer: Answer): void {
  switch (answer.say) {
    case 'scene':
      rivalScene.value = answer.scene
      return
    case 'close-up':
      keepCloseUp(rivalScene.value!, answer.chains)
      closeUps.value++
      return
    case 'figured':
      rivalFigured.value = answer.figured
      return
    case 'refused':
      rivalSays.value = answer.problems
        .map(({ at, message }) => (at ? `${at}: ${message}` : message))
        .join('\n')
      return
    case 'fault':
      rivalSays.value = answer.message
  }
}

/** The present plan, changed so that it is worked in another way. */
export const planInWay = ({ way, ditch }: StrategyFigures): string =>
  editPlanText(text.value, (document) => {
    const now = laid.value?.plan
    const isFrame = way === 'frame'
    setAt(document, ['machine', 'kind'], isFrame ? 'frame' : 'domestic')
    if (!isFrame) for (const key of ['throat', 'overlap']) setAt(document, ['machine', key], undefined)
    else if (now && now.machine.overlap === undefined)
      setAt(
        document,
        ['machine', 'overlap'],
        `${Number((STRIP_OVERLAP * now.machine.reach[1]).toFixed(2))} mm`,
      )
    setAt(document, ['route', 'work'], way === 'laps' ? 'laps' : 'areas')
    if (!ditch) setAt(document, ['route', 'ditch'], 'none')
    else if (!now || now.route.ditch.length === 0) setAt(document, ['route', 'ditch'], 'rings')
  })
