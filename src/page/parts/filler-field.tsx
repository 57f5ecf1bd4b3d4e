import type { ComponentChildren } from 'preact'
import { useEffect } from 'preact/hooks'
import { idOf, valueAt } from '../paths.ts'
import type { Path } from '../plan-text.ts'
import { askSwatches, fillerOf, fillersOf, swatchesOf } from '../planning.ts'
import { problemAt } from '../problems-at.ts'
import { plan, write } from '../state.ts'
import { sizeText } from '../words.ts'
import type { Family, FillerEntry, Swatch } from '../worker/messages.ts'
import { FillerValues } from './filler-values.tsx'
import { Problem } from './thing.tsx'
import { ThreadPath } from './thread-path.tsx'

const OTHER_TITLES: Readonly<Record<string, string>> = {
  none: 'not quilted',
  auto: 'to be chosen',
  patches: 'by patch',
}

export const fillerTitle = (id: string, family: Family = 'bands'): string =>
  OTHER_TITLES[id] ?? fillerOf(family, id)?.title ?? id

/** What is written of a filler: its name, or `patches` where each patch has its own; undefined if nothing is. */
export function writtenFiller(written: unknown, family: Family = 'bands'): string | undefined {
  if (typeof written === 'string') return written
  if (typeof written !== 'object' || written === null) return undefined
  const [name, ...others] = Object.keys(written)
  return name !== undefined && others.length === 0 && fillerOf(family, name) ? name : 'patches'
}

interface FillerFieldProps {
  /** Where the plan says it. */
  readonly path: Path
  readonly family: Family
  readonly label: string
  /** The width of what is to be filled, mm; 0 while it is not known. */
  readonly width: number
  readonly fabric: string
  /** Words that stand beside the fillers, such as none: what they mean here. The first is what is usual. */
  readonly words: readonly (readonly [id: string | undefined, says: string])[]
  /** All values of the filler as they are settled, if that is known. */
  readonly settled?: Readonly<Record<string, number | string>> | undefined
  /** A name alone is written, without values. */
  readonly isNameOnly?: boolean
}

/** The fillers to choose from, each drawn at the width it would have, and the values of the chosen one. */
export function FillerField(props: FillerFieldProps) {
  const { path, family, label, width, fabric, words, settled, isNameOnly } = props
  useEffect(() => {
    if (width > 0) askSwatches({ family, width })
  }, [family, width])
  const now = writtenFiller(valueAt(plan.value.file, path), family)
  const units = plan.value.file?.units ?? 'in'
  const swatches = width > 0 ? swatchesOf({ family, width }) : undefined
  const problem = problemAt(path)
  const entry = now === undefined ? undefined : fillerOf(family, now)
  const choice = (id: string | undefined) => ({ name: idOf(path), fabric, onChoose: () => write(path, id) })
  return (
    <>
      <fieldset
        class={family === 'bands' ? 'fillers' : 'fillers of-patches'}
        aria-describedby={problem ? `${idOf(path)}-say` : undefined}
      >
        <legend>
          {label}
          {width > 0 && family === 'bands' ? `, at ${sizeText(width, units)} wide` : ''}
        </legend>
        {words.map(([id, says]) => (
          <FillerChoice key={says} {...choice(id)} id={id ?? ''} isNow={now === id} says={says}>
            {id === 'auto' && <span class="word">auto</span>}
          </FillerChoice>
        ))}
        {fillersOf(family).map((filler) => (
          <FillerChoice
            key={filler.id}
            {...choice(filler.id)}
            id={filler.id}
            isNow={now === filler.id}
            isOff={isTooNarrow(filler, width) && now !== filler.id}
            says={
              isTooNarrow(filler, width)
                ? `${filler.title}: from ${sizeText(filler.suits.min, units)}`
                : filler.title
            }
          >
            <SwatchDrawing swatch={swatches?.[filler.id]} family={family} />
          </FillerChoice>
        ))}
      </fieldset>
      <Problem id={`${idOf(path)}-say`} problem={problem} />
      {entry && !isNameOnly && <FillerValues path={path} entry={entry} width={width} settled={settled} />}
    </>
  )
}

const isTooNarrow = ({ suits }: FillerEntry, width: number): boolean => width > 0 && width < suits.min - 1e-6

/** A strip is seen along its length, a patch whole, the centre through a window. */
function SwatchDrawing({ swatch, family }: { swatch: Swatch | undefined; family: Family }) {
  if (!swatch) return null
  const { width, length, data } = swatch
  const edge = 0.04 * width
  const seen = Math.min(length, width * 4.2)
  return (
    <svg
      viewBox={`${-edge} ${-edge} ${seen + (seen < length ? 0 : 2 * edge)} ${width + 2 * edge}`}
      preserveAspectRatio={family === 'centre' ? 'xMidYMid slice' : 'xMidYMid meet'}
      aria-hidden="true"
    >
      <ThreadPath data={data} />
    </svg>
  )
}

interface FillerChoiceProps {
  readonly id: string
  readonly name: string
  readonly fabric: string
  readonly isNow: boolean
  readonly isOff?: boolean
  readonly says: string
  readonly onChoose: () => void
  readonly children?: ComponentChildren
}

function FillerChoice({
  id,
  name,
  fabric,
  isNow,
  isOff = false,
  says,
  onChoose,
  children,
}: FillerChoiceProps) {
  return (
    <label class={`filler ${isNow ? 'is-now' : ''} ${isOff ? 'is-off' : ''}`}>
      <input type="radio" name={name} value={id} checked={isNow} disabled={isOff} onChange={onChoose} />
      <span class="sample" style={{ backgroundColor: fabric }}>
        {children}
      </span>
      <span>{says}</span>
    </label>
  )
}
