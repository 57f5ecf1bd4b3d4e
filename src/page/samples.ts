import harbour from '../../samples/harbour-medallion.yaml?raw'
import keepers from '../../samples/keepers-window.yaml?raw'
import quay from '../../samples/quay-runner.yaml?raw'
import stars from '../../samples/star-harbour.yaml?raw'
import bells from '../../samples/two-bells.yaml?raw'
import { starterPlan } from '../plan/starter.ts'

/** Plan files to begin with: each says in its first line what it shows. */
export const SAMPLES: readonly { readonly id: string; readonly text: string }[] = [
  { id: 'harbour-medallion', text: harbour },
  { id: 'keepers-window', text: keepers },
  { id: 'quay-runner', text: quay },
  { id: 'star-harbour', text: stars },
  { id: 'two-bells', text: bells },
]

/** The starter plan, as the command line writes it. */
export const NEW_PLAN = { id: 'new-quilt', text: starterPlan() } as const

export const titleOf = (text: string): string => /^title: *(.+)$/m.exec(text)?.[1] ?? 'Untitled quilt'
export const blurbOf = (text: string): string => /^# *(.+)$/m.exec(text)?.[1] ?? ''
