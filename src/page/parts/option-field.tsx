import type { FunctionComponent } from 'preact'
import { parse, stringify } from 'yaml'
import type { Option } from '../../plan/options.ts'
import { idOf, valueAt } from '../paths.ts'
import type { Written } from '../plan-file.ts'
import { writtenValue } from '../plan-text.ts'
import { problemAt } from '../problems-at.ts'
import { plan, write } from '../state.ts'
import { choiceWords, fieldWords } from '../words.ts'
import { ByNameField } from './by-name-field.tsx'
import { FabricField } from './fabric-field.tsx'
import { Choice, ColourField, NumberField, TextField, Tick } from './field.tsx'
import { LengthField } from './length-field.tsx'
import { ListField } from './list-field.tsx'
import type { OptionProps, PartProps } from './option-props.ts'
import { ownFieldFor } from './own-fields.tsx'
import { RowField } from './row-field.tsx'

/** The field for a key of the plan file, as the file's format describes it. */
export function OptionField(props: PartProps) {
  const Kind = ownFieldFor(props.path) ?? KINDS[props.option.kind]
  return <Kind {...props} Part={OptionField} />
}

/** What every simple field is given. */
function common({ path, option, label, isLabelHidden }: OptionProps) {
  const words = fieldWords(path.at(-1)!, option)
  return {
    id: idOf(path),
    label: label ?? words.label,
    isLabelHidden,
    note: isLabelHidden ? '' : words.note,
    problem: problemAt(path),
    onWrite: (value: unknown) => write(path, value),
  }
}

const written = ({ path }: OptionProps): unknown => valueAt(plan.value.file, path)
const asText = (value: unknown): string | undefined =>
  value === undefined || value === null ? undefined : String(value)

const usualOf = ({ option: { usual } }: OptionProps): string | undefined => usual?.replace(/^"(.*)"$/, '$1')

/** More letters than this have no room in a field. */
const ROOM = 15

/** What stands in an empty field: what it is if nothing is written. */
function placeholderOf(props: OptionProps): string | undefined {
  const usual = usualOf(props)
  return usual !== undefined && usual.length > ROOM ? 'as usual' : usual
}

const Length = (props: OptionProps) => (
  <LengthField
    {...common(props)}
    value={written(props) as Written | undefined}
    placeholder={placeholderOf(props)}
    isOptional={props.option.isOptional}
  />
)

const Text = (props: OptionProps) => (
  <TextField {...common(props)} value={asText(written(props))} placeholder={placeholderOf(props)} />
)

/** A share, or a size of thread: a number, or a text with more in it. */
const NumberOrText = (props: OptionProps) => (
  <TextField
    {...common(props)}
    value={asText(written(props))}
    placeholder={placeholderOf(props)}
    onWrite={(text) => write(props.path, text === undefined ? undefined : writtenValue(text))}
  />
)

const Numeric = (props: OptionProps) => (
  <NumberField
    {...common(props)}
    value={written(props) as number | undefined}
    placeholder={placeholderOf(props)}
  />
)

const Toggle = (props: OptionProps) => (
  <Tick {...common(props)} value={(written(props) as boolean | undefined) ?? usualOf(props) === 'true'} />
)

const Colour = (props: OptionProps) => (
  <ColourField
    {...common(props)}
    value={asText(written(props))}
    settled={usualOf(props)}
    isOptional={props.option.isOptional}
  />
)

/** One of a few words; what is usual is written as nothing. */
function OneOf(props: OptionProps) {
  const { option, path } = props
  if (option.kind !== 'choice') return null
  const usual = usualOf(props)
  const isListed = usual !== undefined && option.of.includes(usual)
  const words = option.of.map((id) => [id, choiceWords(id)] as const)
  const none = [['', usual ?? 'not said']] as const
  return (
    <Choice
      {...common(props)}
      value={asText(written(props)) ?? (isListed ? usual : '')}
      of={isListed || !option.isOptional ? words : [...none, ...words]}
      onWrite={(choice) => write(path, choice === usual ? undefined : choice)}
    />
  )
}

/** Anything else is written as in the plan file. */
function AsWritten(props: OptionProps) {
  const value = written(props)
  const text =
    value === undefined ? undefined : stringify(value, { collectionStyle: 'flow', lineWidth: 0 }).trim()
  return (
    <TextField
      {...common(props)}
      value={text}
      placeholder={placeholderOf(props)}
      onWrite={(typed) => write(props.path, typed === undefined ? undefined : readWritten(typed))}
    />
  )
}

function readWritten(typed: string): unknown {
  try {
    return parse(typed)
  } catch {
    return typed
  }
}

/** Several ways to write one thing: a number with or without more, or as in the plan file. */
function Either(props: OptionProps) {
  const { option } = props
  const isSimple =
    option.kind === 'either' &&
    option.of.every(({ kind }) => ['number', 'text', 'whole', 'name'].includes(kind))
  return isSimple ? <NumberOrText {...props} /> : <AsWritten {...props} />
}

/** The keys of a group, one field each. */
function GroupField({ path, option, label, Part }: OptionProps) {
  if (option.kind !== 'group') return null
  const words = fieldWords(path.at(-1)!, option)
  return (
    <fieldset class="fields is-group">
      <legend>{label ?? words.label}</legend>
      {words.note && <p class="note is-wide">{words.note}</p>}
      {Object.entries(option.of).map(([key, part]) => (
        <Part key={key} path={[...path, key]} option={part} />
      ))}
    </fieldset>
  )
}

const KINDS: Readonly<Record<Option['kind'], FunctionComponent<OptionProps>>> = {
  length: Length,
  'length-of-sides': AsWritten,
  share: NumberOrText,
  colour: Colour,
  fabric: FabricField,
  name: Text,
  text: Text,
  number: Numeric,
  whole: Numeric,
  toggle: Toggle,
  choice: OneOf,
  group: GroupField,
  list: ListField,
  row: RowField,
  'by-name': ByNameField,
  either: Either,
  anything: AsWritten,
}
