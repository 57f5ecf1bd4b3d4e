import type { Option } from '../../plan/options.ts'
import { newItem } from '../new-items.ts'
import { patternOf, valueAt } from '../paths.ts'
import type { Path } from '../plan-text.ts'
import { problemAt } from '../problems-at.ts'
import { plan, write } from '../state.ts'
import { fieldWords, keyWords } from '../words.ts'
import type { OptionProps } from './option-props.ts'
import { Problem, Thing } from './thing.tsx'

/** Things of a kind, one after the other: each can be changed and taken away, and another added. */
export function ListField({ path, option, label, Part }: OptionProps) {
  if (option.kind !== 'list') return null
  const words = fieldWords(path.at(-1)!, option)
  const written = valueAt(plan.value.file, path)
  const items = Array.isArray(written) ? written : []
  const one = oneOf(path)
  const problem = items.length === 0 ? problemAt(path) : undefined
  return (
    <fieldset class="list-of-things">
      <legend>{label ?? keyWords(path.at(-1)!)}</legend>
      <p class="note">{words.note || words.label}</p>
      {items.map((_, i) => (
        <Item key={i} path={[...path, i]} option={option.of} name={`${one} ${i + 1}`} Part={Part} />
      ))}
      <Problem problem={problem} />
      <button type="button" onClick={() => write(path, [...items, newItem(path, option.of)])}>
        Add a {one}
      </button>
    </fieldset>
  )
}

/** What one thing of a list is called. */
const ONE: Readonly<Record<string, string>> = {
  avoid: 'region',
  'avoid[].polygon': 'corner',
  measured: 'measured size',
  'thread.candidates': 'thread',
  'route.ditch': 'seam',
  'bands[].pieced.polygons': 'patch',
  'bands[].pieced.polygons[].points': 'corner',
}
const oneOf = (path: Path): string =>
  ONE[patternOf(path)] ?? keyWords(path.at(-1)!).toLowerCase().replace(/s$/, '')

interface ItemProps extends Pick<OptionProps, 'path' | 'option' | 'Part'> {
  readonly name: string
}

function Item({ path, option, name, Part }: ItemProps) {
  const problem = option.kind === 'group' ? ownProblem(path, option) : undefined
  return (
    <Thing name={name} onTakeAway={() => write(path, undefined)}>
      {option.kind === 'group' ? (
        Object.entries(option.of).map(([key, part]) => <Part key={key} path={[...path, key]} option={part} />)
      ) : (
        <Part path={path} option={option} label={name} />
      )}
      <Problem problem={problem} />
    </Thing>
  )
}

/** What is wrong with a thing as a whole, if no field of it says so already. */
function ownProblem(path: Path, option: Option & { readonly kind: 'group' }): string | undefined {
  const isSaid = Object.keys(option.of).some((key) => problemAt([...path, key]) !== undefined)
  return isSaid ? undefined : problemAt(path)
}
