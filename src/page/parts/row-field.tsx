import { patternOf } from '../paths.ts'
import { problemAt } from '../problems-at.ts'
import { fieldWords } from '../words.ts'
import type { OptionProps } from './option-props.ts'
import { Problem } from './thing.tsx'

/** How the values of a row are called, by the place of the row or by its last key. */
const NAMES: Readonly<Record<string, readonly string[]>> = {
  'machine.reach': ['across', 'down'],
  suits: ['narrowest', 'widest'],
  'measured[].across': ['top edge', 'middle', 'bottom edge'],
  'measured[].down': ['left edge', 'middle', 'right edge'],
  'measured[].diagonals': ['top left to bottom right', 'top right to bottom left'],
}
const PLACE = ['across', 'down']

/** Values in a row, such as width and height, side by side under one name. */
export function RowField({ path, option, label, Part }: OptionProps) {
  if (option.kind !== 'row') return null
  const words = fieldWords(path.at(-1)!, option)
  const names = NAMES[patternOf(path)] ?? NAMES[path.at(-1)!] ?? (option.of.length === 2 ? PLACE : [])
  const problem = problemAt(path)
  const isSaid = option.of.some((_, i) => problemAt([...path, i]) !== undefined)
  return (
    <fieldset class="row-of-values">
      <legend>{label ?? words.label}</legend>
      <div>
        {option.of.map((part, i) => (
          <Part key={names[i] ?? i} path={[...path, i]} option={part} label={names[i] ?? String(i + 1)} />
        ))}
      </div>
      {words.note && <p class="note">{words.note}</p>}
      <Problem problem={isSaid ? undefined : problem} />
    </fieldset>
  )
}
