import { parseLength } from '../../plan/length.ts'
import { MM_PER } from '../../units.ts'
import type { Written } from '../plan-file.ts'
import { writtenValue } from '../plan-text.ts'
import { plan } from '../state.ts'
import { type ControlProps, Field, saidOf } from './field.tsx'
import { onFieldKey, useTyped } from './use-typed.ts'

interface LengthFieldProps extends ControlProps<Written> {
  readonly placeholder?: string | undefined
  /** Emptied, it takes the key away; otherwise an empty field goes back to what it was. */
  readonly isOptional?: boolean | undefined
}

/**
 * A size, typed as a person says it: 2.5, 1 1/2, 2.5 cm. What cannot be read stays in the field with a word beside it;
 * the arrow keys step by an eighth of an inch, 2 mm or 1 mm.
 */
export function LengthField({ placeholder = '', isOptional, ...props }: LengthFieldProps) {
  const { id, value, onWrite, problem } = props
  const [typed, setTyped] = useTyped(value)
  const units = plan.value.file?.units ?? 'in'
  const shown = typed ?? (value === undefined ? '' : String(value))
  const isUnread =
    typed !== undefined && typed.trim() !== '' && parseLength(writtenValue(typed), units) === undefined
  const said = { ...props, problem: isUnread ? 'Not a length: try 2.5, 1 1/2 or 2.5 cm' : problem }
  const commit = () => {
    if (typed === undefined || isUnread) return
    if (typed.trim() !== '') onWrite(writtenValue(typed))
    else if (isOptional) onWrite(undefined)
    else setTyped(undefined)
  }
  const step = (by: number) => {
    const mm = parseLength(writtenValue(shown), units)
    if (mm === undefined) return
    const grain = { in: 0.125, cm: 0.2, mm: 1 }[units]
    const next = Math.round(mm / MM_PER[units] / grain + by) * grain
    if (next > 0) onWrite(Number(next.toFixed(3)))
  }
  return (
    <Field {...said}>
      <span class="size">
        <input
          id={id}
          type="text"
          inputMode="text"
          autocomplete="off"
          spellcheck={false}
          value={shown}
          placeholder={placeholder}
          {...saidOf(said)}
          onInput={(event) => setTyped(event.currentTarget.value)}
          onBlur={commit}
          onKeyDown={(event) => {
            onFieldKey(commit, () => setTyped(undefined))(event)
            if (event.altKey) return
            if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
              event.preventDefault()
              step(event.key === 'ArrowUp' ? 1 : -1)
            }
          }}
        />
        <span class="unit" aria-hidden="true">
          {shown === '' || /[a-z"″]\s*$/i.test(shown) ? '' : units}
        </span>
      </span>
    </Field>
  )
}
