import type { ComponentChildren } from 'preact'
import { chosen } from '../state.ts'

interface CardProps {
  readonly title: string
  readonly label: string
  readonly children: ComponentChildren
}

/** Settings of one thing, beside the strip. */
export function Card({ title, label, children }: CardProps) {
  return (
    <section class="card" aria-label={label}>
      <CardHead
        title={title}
        onClose={() => {
          chosen.value = undefined
        }}
      />
      {children}
    </section>
  )
}

interface CardHeadProps {
  readonly title: string
  readonly id?: string
  readonly onClose: () => void
}

export function CardHead({ title, id, onClose }: CardHeadProps) {
  return (
    <header class="card-head">
      <h2 id={id}>{title}</h2>
      <button type="button" class="plain" onClick={onClose}>
        Close
      </button>
    </header>
  )
}

interface MoreProps {
  readonly title: string
  /** How many of its settings the plan says. */
  readonly said?: number
  readonly isOpen?: boolean
  readonly children: ComponentChildren
}

/** Settings that are seldom needed, folded away. */
export function More({ title, said = 0, isOpen = false, children }: MoreProps) {
  return (
    <details class="more" open={isOpen}>
      <summary>
        {title}
        {said > 0 && <span class="said">{said} set</span>}
      </summary>
      <div class="fields">{children}</div>
    </details>
  )
}
