import { useEffect } from 'preact/hooks'
import type { Param } from '../../motif/contract.ts'
import { MM_PER } from '../../units.ts'
import type { BandFile, PlanFile } from '../plan-file.ts'
import { addBand, duplicateBand, moveBand, removeBand } from '../plan-text.ts'
import { askSwatches, catalog, laid, swatches } from '../planning.ts'
import { chosen, edit, plan, write } from '../state.ts'
import { sizeText } from '../words.ts'
import { fillerNameOf, fillerTitle, problemAt, sizeOf } from './band-strip.tsx'
import { LengthField } from './length-field.tsx'

const SIDES = ['top', 'right', 'bottom', 'left'] as const

/** All that can be said of one band: name, sizes, corners, cloth, filler and the filler's values. */
export function BandCard({ index }: { index: number }) {
  const file = plan.value.file
  const band = file?.bands[index]
  if (!file || !band) return null
  const name = band.name ?? laid.value?.plan.bands[index]?.name ?? `band ${index + 1}`
  return (
    <section class="card" aria-label={`Settings of ${name}`}>
      <CardHead title={name} />
      <Order index={index} count={file.bands.length} />
      <div class="fields">
        <NameField index={index} name={name} />
        <SizeFields band={band} index={index} />
        <ClothAndCorners band={band} index={index} />
      </div>
      <Fillers band={band} index={index} />
      <Values band={band} index={index} />
    </section>
  )
}

export function CardHead({ title }: { title: string }) {
  return (
    <header class="card-head">
      <h2>{title}</h2>
      <button
        type="button"
        class="plain"
        onClick={() => {
          chosen.value = undefined
        }}
      >
        Close
      </button>
    </header>
  )
}

function Order({ index, count }: { index: number; count: number }) {
  const go = (to: number) => {
    edit((document) => moveBand(document, index, to))
    chosen.value = to
  }
  return (
    <div class="buttons">
      <button type="button" disabled={index === 0} onClick={() => go(index - 1)}>
        Inward
      </button>
      <button type="button" disabled={index === count - 1} onClick={() => go(index + 1)}>
        Outward
      </button>
      <button
        type="button"
        onClick={() => {
          edit((document) => addBand(document, index))
          chosen.value = index + 1
        }}
      >
        Add after
      </button>
      <button
        type="button"
        onClick={() => {
          edit((document) => duplicateBand(document, index))
          chosen.value = index + 1
        }}
      >
        Duplicate
      </button>
      <button
        type="button"
        disabled={count === 1}
        onClick={() => {
          edit((document) => removeBand(document, index))
          chosen.value = undefined
        }}
      >
        Remove
      </button>
    </div>
  )
}

function NameField({ index, name }: { index: number; name: string }) {
  return (
    <span class="field">
      <label for="band-name">Name</label>
      <input
        id="band-name"
        type="text"
        value={name}
        maxLength={80}
        onChange={(event) => {
          const typed = event.currentTarget.value.trim()
          if (typed) write(['bands', index, 'name'], typed)
        }}
      />
    </span>
  )
}

function SizeFields({ band, index }: { band: BandFile; index: number }) {
  const { key, even } = sizeOf(band)
  const isEven = even !== undefined
  const written = band[key]
  const setKey = (to: 'width' | 'cut') =>
    edit((document) => {
      const value = (document.toJS() as PlanFile).bands[index]![key]
      document.deleteIn(['bands', index, key])
      document.setIn(['bands', index, to], document.createNode(value, { flow: true }))
    })
  const setSides = (differ: boolean) => {
    const first = typeof written === 'object' ? written.top : (written ?? 2)
    write(['bands', index, key], differ ? { top: first, right: first, bottom: first, left: first } : first)
  }
  return (
    <>
      <span class="field">
        <label for="band-size-kind">Size given as</label>
        <select
          id="band-size-kind"
          value={key}
          onChange={(event) => setKey(event.currentTarget.value as 'width' | 'cut')}
        >
          <option value="width">finished width</option>
          <option value="cut">cut width, seam allowances on</option>
        </select>
      </span>
      {isEven ? (
        <LengthField
          id="card-width"
          label={key === 'cut' ? 'Cut width' : 'Finished width'}
          value={even}
          problem={problemAt(`bands[${index}].${key}`)}
          onWrite={(value) => write(['bands', index, key], value)}
        />
      ) : (
        SIDES.map((side) => (
          <LengthField
            key={side}
            id={`card-width-${side}`}
            label={side.charAt(0).toUpperCase() + side.slice(1)}
            value={(written as Record<string, string | number>)[side]}
            problem={problemAt(`bands[${index}].${key}.${side}`)}
            onWrite={(value) => write(['bands', index, key, side], value)}
          />
        ))
      )}
      <span class="field tick">
        <input
          id="band-sides"
          type="checkbox"
          checked={!isEven}
          onChange={(event) => setSides(event.currentTarget.checked)}
        />
        <label for="band-sides">Sides differ</label>
      </span>
    </>
  )
}

const CORNERS = [
  ['mitred', 'mitred'],
  ['rows-first', 'butted, top and bottom sewn first'],
  ['columns-first', 'butted, sides sewn first'],
  ['cornerstone', 'cornerstones'],
] as const

function ClothAndCorners({ band, index }: { band: BandFile; index: number }) {
  const { corners } = band
  const joined =
    typeof corners === 'object' ? corners.butted : corners === 'butted' ? 'rows-first' : (corners ?? 'mitred')
  return (
    <>
      <ColourField
        id="band-fabric"
        label="Fabric"
        colour={laid.value?.plan.bands[index]?.fabric[0]?.colour}
        onWrite={(colour) => write(['bands', index, 'fabric'], colour)}
      />
      <span class="field">
        <label for="band-corners">Corners</label>
        <select
          id="band-corners"
          value={joined}
          onChange={(event) => {
            const to = event.currentTarget.value
            write(['bands', index, 'corners'], to.endsWith('-first') ? { butted: to } : to)
          }}
        >
          {CORNERS.map(([id, words]) => (
            <option key={id} value={id}>
              {words}
            </option>
          ))}
        </select>
      </span>
    </>
  )
}

interface ColourFieldProps {
  readonly id: string
  readonly label: string
  readonly colour: string | undefined
  readonly onWrite: (colour: string) => void
}

export function ColourField({ id, label, colour, onWrite }: ColourFieldProps) {
  return (
    <span class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="color"
        value={/^#[0-9a-f]{6}/i.exec(colour ?? '')?.[0] ?? '#cccccc'}
        onInput={(event) => onWrite(event.currentTarget.value)}
      />
    </span>
  )
}

/** The fillers to choose from, each drawn at this band's own width. */
function Fillers({ band, index }: { band: BandFile; index: number }) {
  const settled = laid.value?.plan.bands[index]
  const width = settled ? Object.values(settled.width).reduce((a, b) => a + b, 0) / 4 : 0
  useEffect(() => {
    if (width > 0) askSwatches(width)
  }, [width])
  const now = fillerNameOf(band)
  const units = laid.value?.plan.units ?? 'in'
  const isFresh = Math.abs(swatches.value.width - width) < 1e-6
  return (
    <fieldset class="fillers">
      <legend>Filler{width > 0 ? `, at ${sizeText(width, units)} wide` : ''}</legend>
      <FillerChoice id="none" index={index} isNow={now === 'none'} says="not quilted" />
      {catalog.value?.fillers.map(({ id, title, suits }) => {
        const swatch = isFresh ? swatches.value.by[id] : undefined
        const isTooNarrow = width > 0 && width < suits.min - 1e-6
        return (
          <FillerChoice
            key={id}
            id={id}
            index={index}
            isNow={now === id}
            isOff={isTooNarrow && now !== id}
            says={isTooNarrow ? `${title}: from ${sizeText(suits.min, units)}` : title}
          >
            {swatch && (
              <svg
                viewBox={`${-0.04 * swatch.width} ${-0.04 * swatch.width} ${Math.min(swatch.length, swatch.width * 4.2)} ${swatch.width * 1.08}`}
                preserveAspectRatio="xMidYMid meet"
                aria-hidden="true"
              >
                <path
                  d={swatch.data}
                  fill="none"
                  stroke={laid.value?.plan.thread.colour}
                  stroke-width="1.3"
                  vector-effect="non-scaling-stroke"
                />
              </svg>
            )}
          </FillerChoice>
        )
      })}
    </fieldset>
  )
}

interface FillerChoiceProps {
  readonly id: string
  readonly index: number
  readonly isNow: boolean
  readonly isOff?: boolean
  readonly says: string
  readonly children?: preact.ComponentChildren
}

function FillerChoice({ id, index, isNow, isOff = false, says, children }: FillerChoiceProps) {
  const fabric = laid.value?.plan.bands[index]?.fabric[0]?.colour ?? '#cccccc'
  return (
    <label class={`filler ${isNow ? 'is-now' : ''} ${isOff ? 'is-off' : ''}`}>
      <input
        type="radio"
        name="filler"
        value={id}
        checked={isNow}
        disabled={isOff}
        onChange={() => write(['bands', index, 'filler'], id)}
      />
      <span class="sample" style={{ backgroundColor: fabric }}>
        {children}
      </span>
      <span>{says}</span>
    </label>
  )
}

/** The filler's own values: a slider and a number for each. */
function Values({ band, index }: { band: BandFile; index: number }) {
  const name = fillerNameOf(band)
  const entry = catalog.value?.fillers.find(({ id }) => id === name)
  const settled = laid.value?.plan.bands[index]?.filler
  if (!entry || settled?.name !== name) return null
  const given = givenValues(band, name)
  const set = (key: string, value: number | string | undefined) => {
    const { [key]: _, ...others } = given
    const next = value === undefined ? others : { ...given, [key]: value }
    edit((document) => {
      const filler =
        Object.keys(next).length > 0 ? document.createNode({ [name]: next }, { flow: true }) : name
      document.setIn(['bands', index, 'filler'], filler)
    }, `bands.${index}.filler.${key}`)
  }
  return (
    <fieldset class="values">
      <legend>{fillerTitle(name)}</legend>
      {Object.entries(entry.params).map(([key, param]) => (
        <Value
          key={key}
          id={`value-${key}`}
          param={param}
          value={settled.values[key]!}
          written={given[key]}
          problem={problemAt(`bands[${index}].filler.${name}.${key}`)}
          onWrite={(value) => set(key, value)}
        />
      ))}
    </fieldset>
  )
}

/** The values that the plan gives a band's filler. */
const givenValues = ({ filler }: BandFile, name: string): Readonly<Record<string, string | number>> =>
  typeof filler === 'object'
    ? ((filler[name] as Record<string, string | number> | null | undefined) ?? {})
    : {}

interface ValueProps {
  readonly id: string
  readonly param: Param
  readonly value: number | string
  readonly written: string | number | boolean | undefined
  readonly problem: string | undefined
  readonly onWrite: (value: number | string | undefined) => void
}

function Value({ id, param, value, written, problem, onWrite }: ValueProps) {
  const units = plan.value.file?.units ?? 'in'
  if (param.kind === 'choice')
    return (
      <span class="field">
        <label for={id}>{param.label}</label>
        <select id={id} value={value} onChange={(event) => onWrite(event.currentTarget.value)}>
          {param.of.map((choice) => (
            <option key={choice}>{choice}</option>
          ))}
        </select>
      </span>
    )
  const per = param.kind === 'length' ? MM_PER[units] : 1
  const step =
    param.kind === 'count' ? 1 : param.kind === 'length' ? { in: 0.0625, cm: 0.1, mm: 1 }[units] : 0.01
  const shown = Number((Number(value) / per).toFixed(3))
  const [least, most] = [Math.ceil(param.min / per / step) * step, Math.floor(param.max / per / step) * step]
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
        aria-valuetext={param.kind === 'length' ? sizeText(Number(value), units) : String(shown)}
        onInput={(event) => onWrite(Number(Number(event.currentTarget.value).toFixed(4)))}
      />
      {param.kind === 'length' ? (
        <LengthField
          id={`${id}-number`}
          label={`${param.label}, typed`}
          isLabelHidden
          value={typeof written === 'boolean' || written === undefined ? shown : written}
          problem={problem}
          onWrite={onWrite}
        />
      ) : (
        <input
          type="number"
          min={param.min}
          max={param.max}
          step={step}
          value={shown}
          aria-label={`${param.label}, typed`}
          onChange={(event) => onWrite(Number(event.currentTarget.value))}
        />
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
