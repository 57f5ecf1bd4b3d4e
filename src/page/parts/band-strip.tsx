import type { BandFile, PlanFile } from '../plan-file.ts'
import { addBand, moveBand, type Path } from '../plan-text.ts'
import { laid } from '../planning.ts'
import { problemAt } from '../problems-at.ts'
import { chosen, edit, plan, write } from '../state.ts'
import type { Swatch } from '../worker/messages.ts'
import { fillerTitle, writtenFiller } from './filler-field.tsx'
import { LengthField } from './length-field.tsx'
import { ThreadPath } from './thread-path.tsx'

/** The narrowest band is drawn this high if the strip stays within the other figure, px. */
const LEAST_ROW = 40
const MOST_STRIP = 900
const CLOTH_WIDTH = 104

/** The bands as a scale drawing from the centre to the edge: each is a row with its cloth, its filler and its size. */
export function BandStrip() {
  const { file } = plan.value
  if (!file) return <p class="note">This is no plan yet: mend its text first.</p>
  const widths = laid.value?.plan.bands.map(
    ({ width }) => (width.top + width.right + width.bottom + width.left) / 4,
  )
  const known = widths?.length === file.bands.length ? widths : file.bands.map(() => 40)
  const scale = Math.min(LEAST_ROW / Math.min(...known), MOST_STRIP / known.reduce((a, b) => a + b, 0))
  return (
    <>
      <h2 id="strip-heading">From the centre to the edge</h2>
      <ol class="strip" aria-labelledby="strip-heading">
        <CentreRow file={file} />
        {file.bands.map((band, index) => (
          <BandRow key={index} band={band} index={index} height={known[index]! * scale} scale={scale} />
        ))}
        <BindingRow file={file} />
      </ol>
      <button
        type="button"
        class="wide"
        onClick={() => {
          edit((document) => addBand(document, file.bands.length - 1))
          chosen.value = file.bands.length
        }}
      >
        Add a border at the edge
      </button>
    </>
  )
}

function CentreRow({ file }: { file: PlanFile }) {
  const fabric = laid.value?.plan.centre.fabric[0]?.colour ?? '#f4efe4'
  const isChosen = chosen.value === 'centre'
  return (
    <li class={`row ${isChosen ? 'is-chosen' : ''}`}>
      <button
        type="button"
        class="cloth torn"
        style={{ height: '52px', backgroundColor: fabric }}
        aria-label="Centre: show its settings"
        aria-expanded={isChosen}
        onClick={() => {
          chosen.value = isChosen ? undefined : 'centre'
        }}
      />
      <span class="about">
        <b>Centre</b>
        <span class="pair">
          {sizeKeysOf(file.centre).map((key) => (
            <LengthField
              key={key}
              id={`centre-${key}`}
              label={`Centre, ${key}`}
              isLabelHidden
              value={file.centre[key]}
              problem={problemAt(['centre', key])}
              onWrite={(value) => write(['centre', key], value)}
            />
          ))}
        </span>
      </span>
    </li>
  )
}

/** The sizes that tell the centre: a rectangle's width and height, or how far any other shape is across. */
const sizeKeysOf = ({
  shape = 'rectangle',
}: PlanFile['centre']): readonly ('width' | 'height' | 'across')[] =>
  shape === 'rectangle' ? ['width', 'height'] : ['across']

/** The key that holds a band's size, and the size if all sides are alike. */
export function sizeOf(band: BandFile): { key: 'width' | 'cut'; even: string | number | undefined } {
  const key = band.cut !== undefined && band.width === undefined ? 'cut' : 'width'
  const written = band[key]
  return { key, even: typeof written === 'object' ? undefined : written }
}

/** What fills a band: a filler's id, or a word. */
export const fillerNameOf = ({ filler }: BandFile): string => writtenFiller(filler) ?? 'none'

interface RowProps {
  readonly band: BandFile
  readonly index: number
  /** px */
  readonly height: number
  /** px per mm */
  readonly scale: number
}

function BandRow({ band, index, height, scale }: RowProps) {
  const isChosen = chosen.value === index
  const settled = laid.value?.plan.bands[index]
  const name = band.name ?? settled?.name ?? `band ${index + 1}`
  const { key, even } = sizeOf(band)
  const path: Path = ['bands', index, key]
  const count = plan.value.file!.bands.length
  const move = (to: number) => {
    if (to < 0 || to >= count) return
    edit((document) => moveBand(document, index, to))
    if (isChosen) chosen.value = to
  }
  const problem = problemAt(['bands', index])
  return (
    <li
      class={`row ${isChosen ? 'is-chosen' : ''} ${problem ? 'has-problem' : ''}`}
      onKeyDown={(event) => {
        if (!event.altKey || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown')) return
        event.preventDefault()
        move(index + (event.key === 'ArrowUp' ? -1 : 1))
      }}
    >
      <button
        type="button"
        class="cloth"
        style={{ height: `${height}px`, backgroundColor: settled?.fabric[0]?.colour ?? '#cccccc' }}
        aria-label={`${name}, ${fillerTitle(fillerNameOf(band))}: show its settings`}
        aria-expanded={isChosen}
        onClick={() => {
          chosen.value = isChosen ? undefined : index
        }}
      >
        <Thread swatch={laid.value?.swatches[index]} scale={scale} />
      </button>
      <span class="about">
        <span class="name">
          <b>{name}</b> <i>{fillerTitle(fillerNameOf(band))}</i>
        </span>
        {even === undefined ? (
          <span class="note">
            {band[key] === undefined ? 'size follows from the centre' : 'differs by side'}
          </span>
        ) : (
          <LengthField
            id={`band-${index}-width`}
            label={`${name}, ${key === 'cut' ? 'cut width' : 'width'}`}
            isLabelHidden
            value={even}
            problem={problem}
            onWrite={(value) => write(path, value)}
          />
        )}
      </span>
    </li>
  )
}

/** A filler's line on the cloth of its row, to the row's scale. */
function Thread({ swatch, scale }: { swatch: Swatch | undefined; scale: number }) {
  if (!swatch) return null
  return (
    <svg
      viewBox={`0 0 ${CLOTH_WIDTH / scale} ${swatch.width}`}
      preserveAspectRatio="xMinYMid slice"
      aria-hidden="true"
    >
      {swatch.patches?.map(({ data, fabric }) => (
        <path key={data} d={data} fill={fabric} />
      ))}
      <ThreadPath data={swatch.data} />
    </svg>
  )
}

function BindingRow({ file }: { file: PlanFile }) {
  const colour = laid.value?.plan.bindingFabric ?? '#3b3230'
  return (
    <li class="row">
      <button
        type="button"
        class="cloth"
        style={{ height: '14px', backgroundColor: colour }}
        aria-label="Binding, machine, thread and batting: show their settings"
        aria-expanded={chosen.value === 'setup'}
        onClick={() => {
          chosen.value = chosen.value === 'setup' ? undefined : 'setup'
        }}
      />
      <span class="about">
        <b>Binding</b>
        <LengthField
          id="binding"
          label="Binding, width covered on the front"
          isLabelHidden
          value={file.binding ?? (file.units === undefined || file.units === 'in' ? 0.25 : '1/4 in')}
          problem={problemAt(['binding'])}
          onWrite={(value) => write(['binding'], value)}
        />
      </span>
    </li>
  )
}
