import { useSignal } from '@preact/signals'
import type { ExportParam, ExportParams } from '../../export/exporter.ts'
import { parseLength } from '../../plan/length.ts'
import { makeFiles } from '../planner.ts'
import { catalog, laid } from '../planning.ts'
import { fileName, text } from '../state.ts'
import type { MadeFile, WriteWish } from '../worker/messages.ts'
import { CardHead } from './card.tsx'

type Given = Readonly<Record<string, unknown>>

/** Hands a file to the browser to be saved. */
function save({ name, mediaType, content }: MadeFile): void {
  const part = typeof content === 'string' ? content : (content as Uint8Array<ArrayBuffer>)
  const url = URL.createObjectURL(new Blob([part], { type: mediaType }))
  const link = document.createElement('a')
  link.href = url
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(url), 60_000)
}

export const savePlan = (): void =>
  save({ name: fileName.value, mediaType: 'application/yaml', content: text.value })

/** Everything that can be taken away: made in the page, the same as the command line makes it. */
export function TakeAway({ onClose }: { onClose: () => void }) {
  const made = useSignal<readonly MadeFile[]>([])
  const says = useSignal('')
  const make = async (wish: WriteWish) => {
    says.value = 'Making …'
    try {
      made.value = await makeFiles(text.value, wish)
      for (const file of made.value) save(file)
      says.value = `Made ${made.value.map(({ name }) => name).join(' and ')}`
    } catch (error) {
      says.value = (error as Error).message
    }
  }
  const isOff = !laid.value
  return (
    <div class="take-away">
      <CardHead id="take-heading" title="Take it away" onClose={onClose} />
      <div class="takes">
        <Take title="Plan file" about="To go on with later, here or on the command line.">
          <button type="button" class="strong" onClick={savePlan}>
            Save {fileName.value}
          </button>
        </Take>
        <Take title="Picture" about="Fabrics and line, true to scale.">
          <button type="button" disabled={isOff} onClick={() => make({ what: 'picture' })}>
            SVG
          </button>
          <button
            type="button"
            disabled={isOff}
            onClick={() => void makePng().catch((e: Error) => (says.value = e.message))}
          >
            PNG
          </button>
        </Take>
        <Take title="Order of work" about="Step by step, one area a figure.">
          <button type="button" disabled={isOff} onClick={() => make({ what: 'order-pdf' })}>
            Order as PDF
          </button>
          <button type="button" disabled={isOff} onClick={() => make({ what: 'order-svg' })}>
            Order as SVG
          </button>
        </Take>
        <Take title="Report" about="Every figure, to print or for other tools.">
          <button type="button" disabled={isOff} onClick={() => make({ what: 'report-page' })}>
            Page to print
          </button>
          <button type="button" disabled={isOff} onClick={() => make({ what: 'report' })}>
            Report JSON
          </button>
          <button type="button" disabled={isOff} onClick={() => make({ what: 'line' })}>
            Line JSON
          </button>
        </Take>
        <WithOptions
          title="Tracing sheets"
          about="The line at full size, as PDF. Print at 100 percent and measure the test square."
          formats={['sheets']}
          isOff={isOff}
          onMake={(_, options) => make({ what: 'sheets', options })}
        />
        <WithOptions
          title="Machine path"
          about="For a computerised frame: the path, and its bounds with the needle up. Run the bounds first; mind your frame's limits."
          formats={['gcode', 'dxf', 'svg', 'csv']}
          isOff={isOff}
          onMake={(format, options) => make({ what: 'path', format, options })}
        />
      </div>
      <p class="made" role="status">
        {says.value}
      </p>
      {made.value.length > 0 && (
        <p class="buttons">
          {made.value.map((file) => (
            <button key={file.name} type="button" onClick={() => save(file)}>
              Save {file.name} again
            </button>
          ))}
        </p>
      )}
    </div>
  )
}

interface TakeProps {
  readonly title: string
  readonly about: string
  readonly children: preact.ComponentChildren
}

function Take({ title, about, children }: TakeProps) {
  return (
    <section class="take">
      <h3>{title}</h3>
      <p class="note">{about}</p>
      <div class="buttons">{children}</div>
    </section>
  )
}

interface WithOptionsProps {
  readonly title: string
  readonly about: string
  readonly formats: readonly string[]
  readonly isOff: boolean
  readonly onMake: (format: string, options: Given) => void
}

/** A format and its options, as the format itself describes them. */
function WithOptions({ title, about, formats, isOff, onMake }: WithOptionsProps) {
  const format = useSignal(formats[0]!)
  const given = useSignal<Given>({})
  const entries = catalog.value?.formats ?? []
  const { run: _, ...options } = (entries.find(({ id }) => id === format.value)?.options ??
    {}) as ExportParams
  const known = Object.fromEntries(Object.entries(given.value).filter(([key]) => key in options))
  return (
    <section class="take is-wide">
      <h3>{title}</h3>
      <p class="note">{about}</p>
      {formats.length > 1 && (
        <span class="field">
          <label for={`format-${title}`}>Format</label>
          <select
            id={`format-${title}`}
            value={format.value}
            onChange={(event) => {
              format.value = event.currentTarget.value
            }}
          >
            {formats.map((id) => (
              <option key={id} value={id}>
                {entries.find((entry) => entry.id === id)?.title ?? id}
              </option>
            ))}
          </select>
        </span>
      )}
      <details>
        <summary>Options</summary>
        <div class="fields">
          {Object.entries(options).map(([key, param]) => (
            <OptionField
              key={`${format.value} ${key}`}
              id={`${title}-${key}`.replaceAll(' ', '-')}
              param={param}
              value={known[key]}
              onGive={(value) => {
                const { [key]: _, ...others } = given.value
                given.value = value === undefined ? others : { ...others, [key]: value }
              }}
            />
          ))}
        </div>
      </details>
      <div class="buttons">
        <button type="button" class="strong" disabled={isOff} onClick={() => onMake(format.value, known)}>
          Make {title.toLowerCase()}
        </button>
      </div>
    </section>
  )
}

interface OptionFieldProps {
  readonly id: string
  readonly param: ExportParam
  readonly value: unknown
  readonly onGive: (value: unknown) => void
}

function OptionField({ id, param, value, onGive }: OptionFieldProps) {
  if (param.kind === 'toggle')
    return (
      <span class="field tick">
        <input
          id={id}
          type="checkbox"
          checked={(value as boolean | undefined) ?? param.default}
          onChange={(event) => onGive(event.currentTarget.checked)}
        />
        <label for={id}>{param.label}</label>
      </span>
    )
  return (
    <span class="field">
      <label for={id}>{param.label}</label>
      {param.kind === 'choice' ? (
        <select
          id={id}
          value={(value as string | undefined) ?? param.default}
          onChange={(event) => onGive(event.currentTarget.value)}
        >
          {param.of.map((choice) => (
            <option key={choice}>{choice}</option>
          ))}
        </select>
      ) : (
        <input
          id={id}
          type="text"
          placeholder={
            param.kind === 'length' ? `${Number(param.default.toFixed(2))} mm` : String(param.default)
          }
          onChange={(event) => onGive(givenBy(param, event.currentTarget.value))}
        />
      )}
    </span>
  )
}

/** What was typed, as the format takes it: lengths in mm, numbers; nothing where nothing was typed. */
function givenBy(param: ExportParam, typed: string): unknown {
  if (typed.trim() === '') return undefined
  if (param.kind === 'text') return typed
  if (param.kind === 'length') return parseLength(typed, 'mm') ?? typed
  return Number(typed)
}

/** The picture as pixels, drawn by the browser from the same SVG. */
async function makePng(): Promise<void> {
  const [picture] = await makeFiles(text.value, { what: 'picture' })
  const image = new Image()
  const url = URL.createObjectURL(new Blob([picture!.content as string], { type: 'image/svg+xml' }))
  image.src = url
  await image.decode()
  const scale = 2400 / Math.max(image.width, image.height, 1)
  const canvas = document.createElement('canvas')
  ;[canvas.width, canvas.height] = [Math.round(image.width * scale), Math.round(image.height * scale)]
  canvas.getContext('2d')!.drawImage(image, 0, 0, canvas.width, canvas.height)
  URL.revokeObjectURL(url)
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'))
  if (!blob) throw new Error('the browser could not draw the picture')
  save({ name: 'picture.png', mediaType: 'image/png', content: new Uint8Array(await blob.arrayBuffer()) })
}
