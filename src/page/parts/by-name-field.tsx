import { useSignal } from '@preact/signals'
import { newItem } from '../new-items.ts'
import { idOf, valueAt } from '../paths.ts'
import { plan, write } from '../state.ts'
import { fieldWords, keyWords } from '../words.ts'
import { TextField } from './field.tsx'
import type { OptionProps } from './option-props.ts'
import { Thing } from './thing.tsx'

/** Things that each have a name: their fields, and a place to name another. */
export function ByNameField({ path, option, label, Part }: OptionProps) {
  const name = useSignal<string | undefined>(undefined)
  if (option.kind !== 'by-name') return null
  const words = fieldWords(path.at(-1)!, option)
  const written = (valueAt(plan.value.file, path) ?? {}) as Readonly<Record<string, unknown>>
  const isFree = name.value !== undefined && !(name.value in written)
  return (
    <fieldset class="list-of-things">
      <legend>{label ?? keyWords(path.at(-1)!)}</legend>
      <p class="note">{words.note || words.label}</p>
      {Object.keys(written).map((key) => (
        <Thing key={key} name={key} onTakeAway={() => write([...path, key], undefined)}>
          {option.of.kind === 'group' ? (
            Object.entries(option.of.of).map(([part, of]) => (
              <Part key={part} path={[...path, key, part]} option={of} />
            ))
          ) : (
            <Part path={[...path, key]} option={option.of} label={key} />
          )}
        </Thing>
      ))}
      <TextField
        id={`${idOf(path)}-name`}
        label="Name of another"
        value={name.value}
        onWrite={(typed) => {
          name.value = typed
        }}
      />
      <button
        type="button"
        disabled={!isFree}
        onClick={() => {
          write([...path, name.value!], newItem([...path, ''], option.of))
          name.value = undefined
        }}
      >
        Add it
      </button>
    </fieldset>
  )
}
