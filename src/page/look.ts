import { effect, signal } from '@preact/signals'
import type { Layers } from './canvas/painter.ts'
import type { View } from './canvas/view.ts'

/** What is shown, and how: kept apart from the plan, because it changes nothing on the quilt. */
export const layers = signal<Layers>({
  fabrics: true,
  seams: true,
  line: true,
  areas: true,
  gaps: true,
  bobbins: true,
  photo: false,
})

/** Undefined until the quilt is fitted into its window. */
export const view = signal<View | undefined>(undefined)

/** The view of two plans side by side. */
export const comparisonView = signal<View | undefined>(undefined)

/** A place that something points to, mm. */
export const pointedAt = signal<readonly [number, number] | undefined>(undefined)

/** A band that something points to. */
export const pointedBand = signal<number | undefined>(undefined)

export type Theme = 'light' | 'dark' | 'system'
const THEME = 'ditchline.theme'

function keptTheme(): Theme {
  try {
    const kept = localStorage.getItem(THEME)
    return kept === 'light' || kept === 'dark' ? kept : 'system'
  } catch {
    return 'system'
  }
}

export const theme = signal<Theme>(keptTheme())
/** Counts the changes of the theme: what draws with its colours listens. */
export const themeTurn = signal(0)

export function followTheme(): void {
  effect(() => {
    const now = theme.value
    if (now === 'system') delete document.documentElement.dataset.theme
    else document.documentElement.dataset.theme = now
    try {
      localStorage.setItem(THEME, now)
    } catch {
      // It is chosen anew next time.
    }
    themeTurn.value = themeTurn.peek() + 1
  })
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => {
    themeTurn.value++
  })
}
