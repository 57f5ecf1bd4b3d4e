import { computed, signal } from '@preact/signals'
import { freshFigures, preview, scene } from './planning.ts'
import { text } from './state.ts'
import type { Figured, Scene } from './worker/messages.ts'

/** A plan kept beside the present one, to compare. */
export interface KeptPlan {
  readonly text: string
  readonly scene: Scene
  readonly figured: Figured | undefined
}
export const kept = signal<KeptPlan | undefined>(undefined)
export const isKeptShown = signal(false)
export const shownScene = computed(() => (isKeptShown.value && kept.value ? kept.value.scene : scene.value))

/** What is painted: the fillers of a plan whose line is not yet known, or the scene with its line. */
export const paintedScene = computed(() =>
  isKeptShown.value && kept.value ? kept.value.scene : (preview.value ?? scene.value),
)

/** The report of the plan that the picture shows, if there is one by now. */
export const shownReport = computed(() =>
  isKeptShown.value && kept.value ? kept.value.figured?.report : freshFigures.value?.report,
)

export function keepPlan(): void {
  if (scene.value) kept.value = { text: text.value, scene: scene.value, figured: freshFigures.value }
}
