import { idOf, valueAt } from '../paths.ts'
import { type Path, writtenValue } from '../plan-text.ts'
import { problemAt } from '../problems-at.ts'
import { plan, write } from '../state.ts'
import { ColourField, TextField } from './field.tsx'
import { Thing } from './thing.tsx'

interface Shade {
  readonly colour: string
  readonly share: string | number
}

interface FabricFieldProps {
  readonly path: Path
  /** The main colour as it is settled. */
  readonly settled?: string | undefined
}

/** A fabric: one colour, or the colours of a print with their shares. */
export function FabricField({ path, settled }: FabricFieldProps) {
  const written = valueAt(plan.value.file, path)
  if (Array.isArray(written)) return <Print path={path} shades={written as readonly Shade[]} />
  const colour = typeof written === 'string' ? written : undefined
  return (
    <span class="field">
      <ColourField
        id={idOf(path)}
        label="Fabric"
        value={colour}
        settled={settled}
        problem={problemAt(path)}
        onWrite={(to) => write(path, to)}
      />
      <button
        type="button"
        class="plain"
        onClick={() => {
          const first = colour ?? settled ?? '#7d8f8a'
          write(path, [
            { colour: first, share: '70 %' },
            { colour: '#ffffff', share: '30 %' },
          ])
        }}
      >
        it is a print
      </button>
    </span>
  )
}

function Print({ path, shades }: { path: Path; shades: readonly Shade[] }) {
  return (
    <fieldset class="list-of-things">
      <legend>Fabric: the colours of a print</legend>
      {shades.map(({ colour, share }, i) => (
        <Thing
          key={i}
          name={`colour ${i + 1}`}
          onTakeAway={() =>
            write(path, shades.length > 1 ? shades.filter((_, other) => other !== i) : colour)
          }
        >
          <ColourField
            id={idOf([...path, i])}
            label="Colour"
            value={colour}
            problem={problemAt([...path, i, 'colour'])}
            onWrite={(to) => write([...path, i, 'colour'], to)}
          />
          <TextField
            id={`${idOf([...path, i])}-share`}
            label="Share"
            value={String(share)}
            problem={problemAt([...path, i, 'share'])}
            onWrite={(to) => to !== undefined && write([...path, i, 'share'], writtenValue(to))}
          />
        </Thing>
      ))}
      <button type="button" onClick={() => write(path, [...shades, { colour: '#ffffff', share: '10 %' }])}>
        Add a colour
      </button>
    </fieldset>
  )
}
