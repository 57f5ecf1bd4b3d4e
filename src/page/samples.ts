import { starterPlan } from '../plan/starter.ts'

const files = import.meta.glob<string>('../../samples/*.yaml', {
  query: '?raw',
  import: 'default',
  eager: true,
})

/** Plan files to begin with, all that there are: each says in its first line what it shows. */
export const SAMPLES: readonly { readonly id: string; readonly text: string }[] = Object.entries(files).map(
  ([path, text]) => ({ id: path.replace(/^.*\//, '').replace('.yaml', ''), text }),
)

/** The plan that a first visit shows. */
export const FIRST = SAMPLES.find(({ id }) => id === 'harbour-medallion') ?? SAMPLES[0]!

/** The starter plan, as the command line writes it. */
export const NEW_PLAN = { id: 'new-quilt', text: starterPlan() } as const

export const titleOf = (text: string): string => /^title: *(.+)$/m.exec(text)?.[1] ?? 'Untitled quilt'
export const blurbOf = (text: string): string => /^# *(.+)$/m.exec(text)?.[1] ?? ''
