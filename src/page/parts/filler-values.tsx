import type { Param } from '../../motif/contract.ts'
import { defaultValues } from '../../plan/settle-filler.ts'
import { type LengthUnit, MM_PER } from '../../units.ts'
import { idOf, valueAt } from '../paths.ts'
import type { Written } from '../plan-file.ts'
import type { Path } from '../plan-text.ts'
import { problemAt } from '../problems-at.ts'
import { edit, plan } from '../state.ts'
import { sizeText } from '../words.ts'
import type { FillerEntry } from '../worker/messages.ts'
import { Choice, NumberField } from './field.tsx'
import { LengthField } from './length-field.tsx'

interface FillerValuesProps {
  /** Where the plan names the filler. */
  readonly path: Path
  readonly entry: FillerEntry
  /** The width it fills, mm. */
  readonly width: number
  readonly settled?: Readonly<Record<string, number | string>> | undefined
}

type Values = Readonly<Record<string, Written>>

/** A filler's own values: a slider and a number for each. */
export function FillerValues({ path, entry, width, settled }: FillerValuesProps) {
  const { id, title, params } = entry
  if (Object.keys(params).length === 0) return null
  const given = (valueAt(plan.value.file, [...path, id]) ?? {}) as Values
  const usual = defaultValues(params, width > 0 ? width : 50)
  const set = (key: string, value: Written | undefined) => {
    const { [key]: _, ...others } = given
    const next = value === undefined ? others : { ...others, [key]: value }
    edit(
      (document) =>
        document.setIn(
          path,
          Object.keys(next).length > 0 ? document.createNode({ [id]: next }, { flow: true }) : id,
        ),
      `${path.join('.')}.${key}`,
    )
  }
  return (
    <fieldset class="values">
      <legend>{title}</legend>
      {Object.entries(params).map(([key, param]) => (
        <Value
          key={key}
          id={`${idOf(path)}-${key}`}
          param={param}
          value={typeof given[key] === 'number' ? inMm(given[key], param) : (settled?.[key] ?? usual[key]!)}
          written={given[key]}
          problem={problemAt([...path, id, key])}
          onWrite={(value) => set(key, value)}
        />
      ))}
    </fieldset>
  )
}

const unitsNow = (): LengthUnit => plan.value.file?.units ?? 'in'

/** A bare number of the plan: a length is in the plan's unit. */
const inMm = (written: number, { kind }: Param): number =>
  kind === 'length' ? written * MM_PER[unitsNow()] : written

interface ValueProps {
  readonly id: string
  readonly param: Param
  /** A length in mm. */
  readonly value: number | string
  readonly written: Written | undefined
  readonly problem: string | undefined
  readonly onWrite: (value: Written | undefined) => void
}

function Value({ param, ...props }: ValueProps) {
  if (param.kind === 'choice')
    return (
      <Choice
        {...props}
        label={param.label}
        value={String(props.value)}
        of={param.of.map((choice) => [choice, choice] as const)}
      />
    )
  return <Slider {...props} param={param} />
}

type NumberParam = Exclude<Param, { kind: 'choice' }>

/** What a slider goes by: its limits and steps, in the plan's unit. */
function rangeOf({ kind, min, max }: NumberParam): {
  per: number
  step: number
  least: number
  most: number
} {
  const units = unitsNow()
  const per = kind === 'length' ? MM_PER[units] : 1
  const step = kind === 'count' ? 1 : kind === 'length' ? { in: 0.0625, cm: 0.1, mm: 1 }[units] : 0.01
  return {
    per,
    step,
    least: Math.ceil(min / per / step) * step,
    most: Math.floor(max / per / step) * step,
  }
}

function Slider({
  id,
  param,
  value,
  written,
  problem,
  onWrite,
}: ValueProps & { readonly param: NumberParam }) {
  const { per, step, least, most } = rangeOf(param)
  const shown = Number((Number(value) / per).toFixed(3))
  const typed = { id: `${id}-number`, label: `${param.label}, typed`, isLabelHidden: true, problem }
  return (
    <span class="field value">
      <label for={id}>{param.label}</label>
      <input
        id={id}
        type="range"
        min={least}
        max={most}
        step={step}
        value={shown}
        aria-valuetext={param.kind === 'length' ? sizeText(Number(value), unitsNow()) : String(shown)}
        onInput={(event) => onWrite(Number(Number(event.currentTarget.value).toFixed(4)))}
      />
      {param.kind === 'length' ? (
        <LengthField {...typed} isOptional value={written ?? shown} onWrite={onWrite} />
      ) : (
        <NumberField {...typed} value={shown} onWrite={onWrite} />
      )}
      <button
        type="button"
        class="plain"
        disabled={written === undefined}
        aria-label={`${param.label}: back to what is usual`}
        onClick={() => onWrite(undefined)}
      >
        usual
      </button>
    </span>
  )
}
