import { useSignal } from '@preact/signals'
import { render } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import type { Problem } from '../error.ts'
import { followTheme } from './look.ts'
import './page.css'
import { BandCard } from './parts/band-card.tsx'
import { BandStrip } from './parts/band-strip.tsx'
import { Figures } from './parts/figures.tsx'
import { QuiltView } from './parts/quilt-view.tsx'
import { CentreCard, SetupCard } from './parts/setup-card.tsx'
import { SideBySide } from './parts/side-by-side.tsx'
import { TakeAway } from './parts/take-away.tsx'
import { ProblemList, TextEditor } from './parts/text-editor.tsx'
import { openFile, TopBar } from './parts/top-bar.tsx'
import { WalkBar } from './parts/walk-bar.tsx'
import { isPlanning, planAlong, problems } from './planning.ts'
import { chosen, keepsWork, plan, redo, undo } from './state.ts'

type Sheet = 'none' | 'text' | 'take' | 'compare'

function Page() {
  const sheet = useSignal<Sheet>('none')
  const position = useSignal<Problem['position']>(undefined)
  const close = () => {
    sheet.value = 'none'
  }
  usePageKeys()
  useDrops()
  return (
    <>
      <TopBar
        onText={() => {
          position.value = undefined
          sheet.value = 'text'
        }}
        onTake={() => {
          sheet.value = 'take'
        }}
        onCompare={() => {
          sheet.value = 'compare'
        }}
      />
      <main class={chosen.value === undefined ? '' : 'has-card'} aria-busy={isPlanning.value}>
        <aside class="left" aria-label="Centre and borders">
          {problems.value.length > 0 && sheet.value === 'none' && (
            <ProblemList
              onGo={(to) => {
                position.value = to
                sheet.value = 'text'
              }}
            />
          )}
          <BandStrip />
        </aside>
        {chosen.value !== undefined && plan.value.file && (
          <div class="card-place">
            {typeof chosen.value === 'number' ? (
              <BandCard index={chosen.value} />
            ) : chosen.value === 'setup' ? (
              <SetupCard />
            ) : (
              <CentreCard />
            )}
          </div>
        )}
        <QuiltView />
        <Figures />
      </main>
      <WalkBar />
      <SheetDialog isOpen={sheet.value !== 'none'} onClose={close} label={`${sheet.value}-heading`}>
        {sheet.value === 'text' && <TextEditor onClose={close} at={position.value} />}
        {sheet.value === 'take' && <TakeAway onClose={close} />}
        {sheet.value === 'compare' && <SideBySide onClose={close} />}
      </SheetDialog>
    </>
  )
}

interface SheetDialogProps {
  readonly isOpen: boolean
  readonly onClose: () => void
  readonly label: string
  readonly children: preact.ComponentChildren
}

function SheetDialog({ isOpen, onClose, label, children }: SheetDialogProps) {
  const dialog = useRef<HTMLDialogElement>(null)
  useEffect(() => {
    if (isOpen && !dialog.current?.open) dialog.current?.showModal()
    if (!isOpen && dialog.current?.open) dialog.current.close()
  }, [isOpen])
  return (
    <dialog ref={dialog} aria-labelledby={label} onClose={onClose}>
      {children}
    </dialog>
  )
}

/** Undo and redo from the keyboard, but not where the field has its own; Escape closes the card. */
function usePageKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const isInText =
        event.target instanceof HTMLElement && event.target.matches('textarea, input[type=text]')
      if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'z' && !isInText) {
        event.preventDefault()
        if (event.shiftKey) redo()
        else undo()
      }
      if (event.key === 'Escape' && !document.querySelector('dialog[open]') && !isInText)
        chosen.value = undefined
    }
    document.addEventListener('keydown', onKey)
    return () => document.removeEventListener('keydown', onKey)
  }, [])
}

/** A plan file dropped anywhere on the page is opened. */
function useDrops(): void {
  useEffect(() => {
    const over = (event: DragEvent) => event.preventDefault()
    const drop = (event: DragEvent) => {
      event.preventDefault()
      const file = event.dataTransfer?.files[0]
      if (file) void openFile(file)
    }
    document.addEventListener('dragover', over)
    document.addEventListener('drop', drop)
    return () => {
      document.removeEventListener('dragover', over)
      document.removeEventListener('drop', drop)
    }
  }, [])
}

followTheme()
planAlong()
keepsWork()
render(<Page />, document.getElementById('page')!)
