import { useSignal } from '@preact/signals'
import { useEffect, useRef } from 'preact/hooks'
import type { Problem } from '../../error.ts'
import { problems } from '../planning.ts'
import { change, text } from '../state.ts'
import { CardHead } from './card.tsx'

/** The plan file itself: its text beside its line numbers, and every problem at its place. */
export function TextEditor({ onClose, at }: { onClose: () => void; at: Problem['position'] }) {
  const area = useRef<HTMLTextAreaElement>(null)
  const gutter = useRef<HTMLOListElement>(null)
  const draft = useSignal(text.value)
  useEffect(() => {
    draft.value = text.value
  }, [text.value])
  useEffect(() => {
    if (at && area.current) goTo(area.current, at)
  }, [at])
  const marked = new Set(problems.value.map(({ position }) => position?.line))
  const lines = draft.value.split('\n').length
  return (
    <div class="text-editor">
      <CardHead id="text-heading" title="The plan file" onClose={onClose} />
      <div class="sheet">
        <ol ref={gutter} aria-hidden="true">
          {Array.from({ length: lines }, (_, i) => (
            <li key={i} class={marked.has(i + 1) ? 'is-wrong' : ''}>
              {i + 1}
            </li>
          ))}
        </ol>
        <textarea
          ref={area}
          aria-label="Text of the plan file"
          spellcheck={false}
          wrap="off"
          value={draft.value}
          onInput={(event) => {
            draft.value = event.currentTarget.value
            change(draft.value, 'text')
          }}
          onScroll={(event) => {
            if (gutter.current) gutter.current.scrollTop = event.currentTarget.scrollTop
          }}
        />
      </div>
      <ProblemList onGo={(position) => position && area.current && goTo(area.current, position)} />
    </div>
  )
}

function goTo(area: HTMLTextAreaElement, { line, column }: { line: number; column: number }): void {
  const lines = area.value.split('\n')
  const offset = lines.slice(0, line - 1).reduce((sum, l) => sum + l.length + 1, 0) + column - 1
  area.focus()
  area.setSelectionRange(offset, offset + Math.max(1, (lines[line - 1]?.length ?? 0) - column + 1))
  area.scrollTop = Math.max(0, (line - 4) * 21)
}

interface ProblemListProps {
  readonly onGo: (position: Problem['position']) => void
}

/** Every problem of the plan: its line, its place, what is wrong and what would do. */
export function ProblemList({ onGo }: ProblemListProps) {
  if (problems.value.length === 0) return null
  return (
    <div class="problems" role="alert">
      <h3>
        {problems.value.length === 1
          ? 'One thing to mend; the picture is that of the last good plan'
          : `${problems.value.length} things to mend; the picture is that of the last good plan`}
      </h3>
      <ul>
        {problems.value.map((problem, i) => (
          <li key={`${problem.code} ${problem.at} ${i}`}>
            <button type="button" class="plain" onClick={() => onGo(problem.position)}>
              {problem.position && <b>line {problem.position.line}</b>}
              {problem.at && <code>{problem.at}</code>} {problem.message}
              {problem.hint && <i> ({problem.hint})</i>}
            </button>
          </li>
        ))}
      </ul>
    </div>
  )
}
