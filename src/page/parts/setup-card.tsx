import type { Option } from '../../plan/options.ts'
import { valueAt } from '../paths.ts'
import { catalog, laid } from '../planning.ts'
import { plan } from '../state.ts'
import { keyWords } from '../words.ts'
import { Card, More } from './card.tsx'
import { FabricField } from './fabric-field.tsx'
import { FillerField } from './filler-field.tsx'
import { OptionField } from './option-field.tsx'

/** Keys of the plan that have a place of their own on the page. */
const PLACED = ['$schema', 'title', 'units', 'centre', 'bands', 'binding']

/** Of a long group what is asked for first; the rest is folded away. */
const FIRST: Readonly<Record<string, readonly string[]>> = {
  machine: ['kind', 'reach', 'throat', 'overlap', 'speed', 'foot'],
  stitch: ['length', 'perInch'],
  thread: ['colour', 'tex', 'bobbin', 'candidates'],
  batting: ['kind', 'limit', 'shrinkage'],
}

const TITLES: Readonly<Record<string, string>> = {
  route: 'The way of the line',
  avoid: 'Regions to stay out of',
  motifs: 'Motifs of your own',
  measured: 'Sizes measured on the real quilt',
}

const titleOf = (key: string): string => TITLES[key] ?? keyWords(key)

/** What belongs to the quilt as a whole: machine, stitches, thread, batting, the way of the line, and what was measured. */
export function SetupCard() {
  const options = catalog.value?.options
  if (!plan.value.file || !laid.value || !options) return null
  const keys = Object.entries(options).filter(([key]) => !PLACED.includes(key))
  const isList = ({ kind }: Option) => kind === 'list' || kind === 'by-name'
  return (
    <Card title="Around the quilt" label="Settings of the quilt">
      {keys
        .filter(([, option]) => option.kind === 'group')
        .map(([key, option]) => (
          <Group key={key} name={key} option={option} />
        ))}
      <fieldset class="fields">
        <legend>Quilting</legend>
        {keys
          .filter(([, option]) => option.kind !== 'group' && !isList(option))
          .map(([key, option]) => (
            <OptionField key={key} path={[key]} option={option} />
          ))}
      </fieldset>
      {keys
        .filter(([, option]) => isList(option))
        .map(([key, option]) => (
          <OptionField key={key} path={[key]} option={option} label={titleOf(key)} />
        ))}
    </Card>
  )
}

/** A group of settings: what is asked for first, and the rest folded away. */
function Group({ name, option }: { name: string; option: Option }) {
  if (option.kind !== 'group') return null
  const keys = Object.entries(option.of)
  const first = FIRST[name] ?? keys.map(([key]) => key)
  const field = ([key, part]: (typeof keys)[number]) => (
    <OptionField key={key} path={[name, key]} option={part} />
  )
  const rest = keys.filter(([key]) => !first.includes(key))
  const said = rest.filter(([key]) => valueAt(plan.value.file, [name, key]) !== undefined).length
  const ordered = first.flatMap((key) => keys.filter(([known]) => known === key))
  return (
    <fieldset class="fields">
      <legend>{titleOf(name)}</legend>
      {ordered.map(field)}
      {rest.length > 0 && (
        <More title={`More of the ${name}`} said={said}>
          {rest.map(field)}
        </More>
      )}
    </fieldset>
  )
}

/** Keys of the centre that have a place of their own on its card or in the strip. */
const CENTRE_PLACED = ['width', 'height', 'across', 'filler', 'fabric']

/** The centre: its fabric and its filler. A rectangle's sizes stand in the strip. */
export function CentreCard() {
  const settled = laid.value?.plan.centre
  const option = catalog.value?.options.centre
  if (!settled || option?.kind !== 'group') return null
  const fabric = settled.fabric[0]?.colour ?? '#cccccc'
  const now = valueAt(plan.value.file, ['centre', 'filler'])
  return (
    <Card title="Centre" label="Settings of the centre">
      <div class="fields">
        <FabricField path={['centre', 'fabric']} settled={fabric} />
        {Object.entries(option.of)
          .filter(([key]) => !CENTRE_PLACED.includes(key))
          .map(([key, part]) => (
            <OptionField key={key} path={['centre', key]} option={part} />
          ))}
      </div>
      <FillerField
        path={['centre', 'filler']}
        family="centre"
        label="Filler"
        width={settled.across ?? Math.min(settled.width, settled.height)}
        fabric={fabric}
        words={[
          [now === undefined ? undefined : 'none', 'not quilted'],
          ...(option.of.filler?.about.includes('auto') ? [['auto', 'the program chooses'] as const] : []),
        ]}
      />
    </Card>
  )
}
