import { useEffect, useState } from 'preact/hooks'
import { parseLength } from '../../plan/length.ts'
import { MM_PER } from '../../units.ts'
import { writtenValue } from '../plan-text.ts'
import { plan } from '../state.ts'

interface LengthFieldProps {
  readonly id: string
  readonly label: string
  /** As the plan file says it. */
  readonly value: string | number | undefined
  readonly onWrite: (value: string | number) => void
  /** What is wrong with it, from the planner. */
  readonly problem?: string | undefined
  readonly isLabelHidden?: boolean
  readonly placeholder?: string
}

/**
 * A size, typed as a person says it: 2.5, 1 1/2, 2.5 cm. What cannot be read stays in the field with a word beside it;
 * the arrow keys step by an eighth of an inch, 2 mm or 1 mm.
 */
export function LengthField(props: LengthFieldProps) {
  const { id, label, value, onWrite, problem, isLabelHidden, placeholder } = props
  const [typed, setTyped] = useState<string | undefined>(undefined)
  useEffect(() => setTyped(undefined), [value])
  const units = plan.value.file?.units ?? 'in'
  const shown = typed ?? (value === undefined ? '' : String(value))
  const isUnread =
    typed !== undefined && typed.trim() !== '' && parseLength(writtenValue(typed), units) === undefined
  const say = isUnread ? 'Not a length: try 2.5, 1 1/2 or 2.5 cm' : problem
  const commit = () => {
    if (typed === undefined || typed.trim() === '') return setTyped(undefined)
    if (!isUnread) onWrite(writtenValue(typed))
  }
  const step = (by: number) => {
    const mm = parseLength(writtenValue(shown), units)
    if (mm === undefined) return
    const grain = { in: 0.125, cm: 0.2, mm: 1 }[units]
    const next = Math.round(mm / MM_PER[units] / grain + by) * grain
    if (next > 0) onWrite(Number(next.toFixed(3)))
  }
  return (
    <span class={`field ${say ? 'is-wrong' : ''}`}>
      <label for={id} class={isLabelHidden ? 'unseen' : ''}>
        {label}
      </label>
      <span class="size">
        <input
          id={id}
          type="text"
          inputMode="text"
          autocomplete="off"
          spellcheck={false}
          value={shown}
          placeholder={placeholder ?? ''}
          aria-invalid={say ? true : undefined}
          aria-describedby={say ? `${id}-say` : undefined}
          onInput={(event) => setTyped(event.currentTarget.value)}
          onBlur={commit}
          onKeyDown={(event) => {
            if (event.key === 'Enter') commit()
            if (event.key === 'Escape') setTyped(undefined)
            if (event.altKey) return
            if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
              event.preventDefault()
              step(event.key === 'ArrowUp' ? 1 : -1)
            }
          }}
        />
        <span class="unit" aria-hidden="true">
          {/[a-z"″]\s*$/i.test(shown) ? '' : units}
        </span>
      </span>
      {say && (
        <span class="say" id={`${id}-say`} role="alert">
          {say}
        </span>
      )}
    </span>
  )
}
