import { idOf, valueAt } from '../paths.ts'
import type { BandFile } from '../plan-file.ts'
import { catalog } from '../planning.ts'
import { problemAt } from '../problems-at.ts'
import { edit, plan, write } from '../state.ts'
import { capital, choiceWords } from '../words.ts'
import { More } from './card.tsx'
import { Choice, ColourField } from './field.tsx'
import { FillerField, fillerTitle, writtenFiller } from './filler-field.tsx'
import { LengthField } from './length-field.tsx'
import { Thing } from './thing.tsx'

interface PiecedProps {
  readonly band: BandFile
  readonly index: number
  /** mm */
  readonly width: number
  readonly fabric: string
}

/** What a band is pieced of: the unit, its size, and a fabric and a filler for each patch. */
export function Pieced({ band, index, width, fabric }: PiecedProps) {
  const { pieced } = band
  const path = ['bands', index, 'pieced']
  const units = Object.keys(catalog.value?.units ?? {})
  const own =
    pieced?.polygons && pieced.unit !== undefined
      ? [[pieced.unit, `${pieced.unit}, of your own`] as const]
      : []
  const setUnit = (unit: string | undefined) =>
    edit((document) => {
      const names = Object.keys(band.pieced?.fabrics ?? {})
      document.deleteIn(path)
      if (writtenFiller(band.filler) === 'patches') document.setIn(['bands', index, 'filler'], 'none')
      if (unit === undefined) return
      const kept = names.filter((name) => patchesOf({ unit }).includes(name))
      const fabrics = Object.fromEntries(kept.map((name) => [name, band.pieced?.fabrics?.[name]]))
      const node = { unit, ...(kept.length > 0 && { fabrics }) }
      document.setIn(path, document.createNode(node, { flow: true }))
    })
  return (
    <More title="Pieced of units" said={pieced ? 1 : 0} isOpen={pieced !== undefined}>
      <Choice
        id={idOf([...path, 'unit'])}
        label="Unit"
        value={pieced?.unit ?? ''}
        problem={problemAt([...path, 'unit'])}
        of={[['', 'whole strips'], ...units.map((unit) => [unit, choiceWords(unit)] as const), ...own]}
        onWrite={setUnit}
      />
      {pieced && (
        <>
          <LengthField
            id={idOf([...path, 'size'])}
            label="Size of a unit"
            placeholder="the band's width"
            isOptional
            value={pieced.size}
            problem={problemAt([...path, 'size'])}
            onWrite={(size) => write([...path, 'size'], size)}
          />
          {namesOf(band).map((name) => (
            <Patch key={name} name={name} band={band} index={index} width={width} fabric={fabric} />
          ))}
        </>
      )}
    </More>
  )
}

const patchesOf = ({ unit, polygons }: NonNullable<BandFile['pieced']>): readonly string[] =>
  polygons?.map(({ name }) => name) ?? catalog.value?.units[unit ?? ''] ?? []

/** The names of a band's patches, with the plain one in the corners. */
function namesOf({ pieced, corners }: BandFile): readonly string[] {
  const names = pieced ? patchesOf(pieced) : []
  return [...new Set(corners === 'cornerstone' ? [...names, 'cornerstone'] : names)]
}

function Patch({ name, band, index, width, fabric }: PiecedProps & { readonly name: string }) {
  const cloth = ['bands', index, 'pieced', 'fabrics', name]
  const colour = valueAt(plan.value.file, cloth) as string | undefined
  const isByPatch = writtenFiller(band.filler) === 'patches'
  const path = ['bands', index, 'filler', name]
  const now = isByPatch ? (writtenFiller(valueAt(plan.value.file, path), 'patches') ?? 'none') : undefined
  return (
    <Thing name={capital(choiceWords(name))}>
      <ColourField
        id={idOf(cloth)}
        label="Fabric"
        value={colour}
        settled={fabric}
        isOptional
        problem={problemAt(cloth)}
        onWrite={(to) => write(cloth, to)}
      />
      {isByPatch ? (
        <details class="side">
          <summary>Filler: {fillerTitle(now!, 'patches')}</summary>
          <FillerField
            path={path}
            family="patches"
            label={`Filler of ${choiceWords(name)}`}
            width={width}
            fabric={colour ?? fabric}
            words={[['none', 'not quilted']]}
          />
        </details>
      ) : (
        <button
          type="button"
          class="plain"
          onClick={() =>
            write(
              ['bands', index, 'filler'],
              Object.fromEntries(namesOf(band).map((patch) => [patch, 'none'])),
            )
          }
        >
          fill patch by patch
        </button>
      )}
    </Thing>
  )
}
