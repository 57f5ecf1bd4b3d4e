import { useRef } from 'preact/hooks'
import { type Theme, theme } from '../look.ts'
import { catalog, lengthKeysOf } from '../planning.ts'
import { blurbOf, NEW_PLAN, SAMPLES, titleOf } from '../samples.ts'
import { canRedo, canUndo, open, plan, redo, switchUnits, undo, write } from '../state.ts'

interface TopBarProps {
  readonly onText: () => void
  readonly onTake: () => void
  readonly onCompare: () => void
}

/** What concerns the whole plan: its title, opening, undoing, its text, and taking it away. */
export function TopBar({ onText, onTake, onCompare }: TopBarProps) {
  const { file } = plan.value
  return (
    <header class="top">
      <h1>
        <Mark />
        <span>Ditchline</span>
      </h1>
      <input
        class="title"
        type="text"
        aria-label="Title of the quilt"
        value={file?.title ?? titleOf(plan.value.text)}
        maxLength={80}
        disabled={!file}
        onChange={(event) => write(['title'], event.currentTarget.value)}
      />
      <nav aria-label="Plan">
        <Samples />
        <OpenFile />
        <button type="button" disabled={!canUndo.value} onClick={undo}>
          Undo
        </button>
        <button type="button" disabled={!canRedo.value} onClick={redo}>
          Redo
        </button>
        <button type="button" onClick={onText}>
          Text
        </button>
        <button type="button" onClick={onCompare}>
          Compare
        </button>
        <button type="button" class="strong" onClick={onTake}>
          Take it away
        </button>
        <Units />
        <Lamp />
      </nav>
    </header>
  )
}

/** A stitched line that dives through a seam. */
const Mark = () => (
  <svg viewBox="0 0 44 28" aria-hidden="true">
    <path class="mark-seam" d="M0 14H44" />
    <path class="mark-line" d="M2 14C8 -2 16 -2 22 14S36 30 42 14" />
  </svg>
)

function Samples() {
  return (
    <details class="menu">
      <summary>Samples</summary>
      <ul>
        {[NEW_PLAN, ...SAMPLES].map(({ id, text }) => (
          <li key={id}>
            <button
              type="button"
              onClick={(event) => {
                open(text, `${id}.yaml`)
                event.currentTarget.closest('details')!.open = false
              }}
            >
              <b>{id === NEW_PLAN.id ? 'A plan to start from' : titleOf(text)}</b>
              <span>
                {id === NEW_PLAN.id ? 'Three borders, with a word beside every key.' : blurbOf(text)}
              </span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  )
}

/** Reads a chosen or dropped plan file into the page. */
export async function openFile(file: File): Promise<void> {
  open(await file.text(), file.name)
}

function OpenFile() {
  const input = useRef<HTMLInputElement>(null)
  return (
    <>
      <button type="button" onClick={() => input.current?.click()}>
        Open
      </button>
      <input
        ref={input}
        id="open-file"
        class="unseen"
        type="file"
        accept=".yaml,.yml,.json"
        aria-label="Plan file to open"
        tabIndex={-1}
        onChange={async (event) => {
          const { files } = event.currentTarget
          if (files?.[0]) await openFile(files[0])
          if (input.current) input.current.value = ''
        }}
      />
    </>
  )
}

function Units() {
  const { file } = plan.value
  return (
    <select
      aria-label="Unit of the plan"
      value={file?.units ?? 'in'}
      disabled={!file || !catalog.value}
      onChange={(event) =>
        switchUnits(event.currentTarget.value as 'in' | 'cm' | 'mm', {
          options: catalog.value?.options ?? {},
          ofFiller: lengthKeysOf,
        })
      }
    >
      <option value="in">inches</option>
      <option value="cm">cm</option>
      <option value="mm">mm</option>
    </select>
  )
}

function Lamp() {
  return (
    <select
      aria-label="Light or dark"
      value={theme.value}
      onChange={(event) => {
        theme.value = event.currentTarget.value as Theme
      }}
    >
      <option value="system">system</option>
      <option value="light">light</option>
      <option value="dark">dark</option>
    </select>
  )
}
