import type { ComponentChildren } from 'preact'
import { onFieldKey, useTyped } from './use-typed.ts'

interface FieldProps {
  readonly id: string
  readonly label: string
  readonly isLabelHidden?: boolean | undefined
  readonly note?: string | undefined
  /** What is wrong with it. */
  readonly problem?: string | undefined
  readonly kind?: 'tick' | 'is-wide' | undefined
  readonly children: ComponentChildren
}

/** A label, what is to be filled in, what is to be known of it, and what is wrong with it. */
export function Field({ id, label, isLabelHidden, note, problem, kind, children }: FieldProps) {
  const words = (
    <label for={id} class={isLabelHidden ? 'unseen' : ''}>
      {label}
    </label>
  )
  return (
    <span class={`field ${kind ?? ''} ${problem ? 'is-wrong' : ''}`}>
      {kind !== 'tick' && words}
      {children}
      {kind === 'tick' && words}
      {note && (
        <span class="note" id={`${id}-note`}>
          {note}
        </span>
      )}
      {problem && (
        <span class="say" id={`${id}-say`} role="alert">
          {problem}
        </span>
      )}
    </span>
  )
}

/** What the controls of a field have in common. */
export interface ControlProps<T> {
  readonly id: string
  readonly label: string
  readonly isLabelHidden?: boolean | undefined
  readonly note?: string | undefined
  readonly problem?: string | undefined
  readonly value: T | undefined
  /** Undefined takes what is written away. */
  readonly onWrite: (value: T | undefined) => void
}

/** Names what is said of a control, for those who hear the page. */
export const saidOf = ({ id, note, problem }: Pick<FieldProps, 'id' | 'note' | 'problem'>) => ({
  'aria-invalid': problem ? (true as const) : undefined,
  'aria-describedby': [note && `${id}-note`, problem && `${id}-say`].filter(Boolean).join(' ') || undefined,
})

interface TextFieldProps extends ControlProps<string> {
  readonly placeholder?: string | undefined
  readonly isNumber?: boolean
}

/** A text or a number, taken when the field is left or Enter is pressed; emptied, it takes the key away. */
export function TextField({ placeholder = '', isNumber = false, ...props }: TextFieldProps) {
  const { id, value, onWrite } = props
  const [typed, setTyped] = useTyped(value)
  const commit = () => {
    const text = typed?.trim()
    if (text !== undefined && text !== (value ?? '')) onWrite(text === '' ? undefined : text)
    else setTyped(undefined)
  }
  const control = {
    id,
    value: typed ?? value ?? '',
    placeholder,
    autocomplete: 'off' as const,
    ...saidOf(props),
    onInput: (event: { currentTarget: HTMLInputElement }) => setTyped(event.currentTarget.value),
    onBlur: commit,
    onKeyDown: onFieldKey(commit, () => setTyped(undefined)),
  }
  return (
    <Field {...props}>
      {isNumber ? (
        <input type="number" step="any" {...control} />
      ) : (
        <input type="text" spellcheck={false} maxLength={200} {...control} />
      )}
    </Field>
  )
}

interface NumberFieldProps extends ControlProps<number> {
  readonly placeholder?: string | undefined
}

export const NumberField = ({ value, onWrite, ...props }: NumberFieldProps) => (
  <TextField
    {...props}
    isNumber
    value={value === undefined ? undefined : String(value)}
    onWrite={(text) => onWrite(text === undefined ? undefined : Number(text))}
  />
)

interface ChoiceProps extends ControlProps<string> {
  readonly kind?: 'is-wide'
  readonly of: readonly (readonly [id: string, words: string])[]
}

export function Choice({ of, ...props }: ChoiceProps) {
  return (
    <Field {...props}>
      <select
        id={props.id}
        value={props.value ?? ''}
        {...saidOf(props)}
        onChange={(event) => props.onWrite(event.currentTarget.value || undefined)}
      >
        {of.map(([choice, words]) => (
          <option key={choice} value={choice}>
            {words}
          </option>
        ))}
      </select>
    </Field>
  )
}

export const Tick = (props: ControlProps<boolean>) => (
  <Field {...props} kind="tick">
    <input
      id={props.id}
      type="checkbox"
      checked={props.value ?? false}
      {...saidOf(props)}
      onChange={(event) => props.onWrite(event.currentTarget.checked)}
    />
  </Field>
)

/** A colour as `#rrggbb`: the first such text there is. */
const hexOf = (...colours: readonly (string | undefined)[]): string =>
  colours.map((colour) => /^#[0-9a-f]{6}/i.exec(colour ?? '')?.[0]).find((hex) => hex !== undefined) ??
  '#cccccc'

interface ColourFieldProps extends ControlProps<string> {
  /** The colour there is if none is written, or if it is written in another way. */
  readonly settled?: string | undefined
  readonly isOptional?: boolean | undefined
}

/** A colour to pick, or to say in CSS's words. */
export function ColourField({ settled, isOptional, ...props }: ColourFieldProps) {
  const { id, label, value, onWrite } = props
  return (
    <Field {...props}>
      <span class="colour">
        <input
          id={id}
          type="color"
          value={hexOf(value, settled)}
          {...saidOf(props)}
          onInput={(event) => onWrite(event.currentTarget.value)}
        />
        {isOptional && (
          <button
            type="button"
            class="plain"
            disabled={value === undefined}
            aria-label={`${label}: back to what is usual`}
            onClick={() => onWrite(undefined)}
          >
            usual
          </button>
        )}
      </span>
    </Field>
  )
}
