import { useSignal } from '@preact/signals'
import { motifFromDrawing, motifNameFor } from '../own-motif.ts'
import { idOf, valueAt } from '../paths.ts'
import { catalog } from '../planning.ts'
import { plan, write } from '../state.ts'
import { ByNameField } from './by-name-field.tsx'
import type { OptionProps } from './option-props.ts'

/** Motifs of the quilter's own: their fields, and a place to choose a drawing whose path becomes one. */
export function OwnMotifs(props: OptionProps) {
  const { path } = props
  const problem = useSignal('')
  const choose = async (file: File) => {
    const drawn = motifFromDrawing(await file.text())
    problem.value = 'problem' in drawn ? `${file.name}: ${drawn.problem}` : ''
    if ('problem' in drawn) return
    const taken = Object.keys((valueAt(plan.value.file, path) ?? {}) as object)
    const known = catalog.value?.fillers.bands.map(({ id }) => id) ?? []
    const name = motifNameFor(file.name, (wanted) => [...taken, ...known].includes(wanted))
    write([...path, name], { path: drawn.path })
  }
  return (
    <>
      <ByNameField {...props} />
      <label class="pick">
        <span>A drawing to make one of: an SVG file with one path</span>
        <input
          id={`${idOf(path)}-drawing`}
          type="file"
          accept=".svg,image/svg+xml"
          aria-describedby={`${idOf(path)}-drawing-problem`}
          onChange={async (event) => {
            const input = event.currentTarget
            const file = input.files?.[0]
            if (file) await choose(file)
            input.value = ''
          }}
        />
      </label>
      <p id={`${idOf(path)}-drawing-problem`} class="say" role="alert">
        {problem.value}
      </p>
    </>
  )
}
