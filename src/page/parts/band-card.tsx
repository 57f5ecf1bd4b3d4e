import { idOf } from '../paths.ts'
import type { BandFile, PlanFile } from '../plan-file.ts'
import { addBand, duplicateBand, moveBand, removeBand } from '../plan-text.ts'
import { catalog, laid } from '../planning.ts'
import { problemAt } from '../problems-at.ts'
import { chosen, edit, plan, write } from '../state.ts'
import { capital, keyWords } from '../words.ts'
import { sizeOf } from './band-strip.tsx'
import { Card, More } from './card.tsx'
import { FabricField } from './fabric-field.tsx'
import { Choice, TextField, Tick } from './field.tsx'
import { FillerField, writtenFiller } from './filler-field.tsx'
import { LengthField } from './length-field.tsx'
import { OptionField } from './option-field.tsx'
import { Pieced } from './pieced-part.tsx'

const SIDES = ['top', 'right', 'bottom', 'left'] as const

/** Keys of a band that have a place of their own on its card; all others stand at its end. */
const PLACED = ['name', 'width', 'cut', 'filler', 'sides', 'fabric', 'corners', 'cornerstone', 'pieced']

/** All that can be said of one band: name, sizes, corners, cloth, filler and the filler's values. */
export function BandCard({ index }: { index: number }) {
  const file = plan.value.file
  const band = file?.bands[index]
  if (!file || !band) return null
  const name = band.name ?? laid.value?.plan.bands[index]?.name ?? `band ${index + 1}`
  const options = catalog.value?.options.bands
  const keys = options?.kind === 'list' && options.of.kind === 'group' ? options.of.of : {}
  return (
    <Card title={name} label={`Settings of ${name}`}>
      <Order index={index} count={file.bands.length} />
      <div class="fields">
        <TextField
          id="band-name"
          label="Name"
          value={name}
          problem={problemAt(['bands', index, 'name'])}
          onWrite={(typed) => typed && write(['bands', index, 'name'], typed)}
        />
        <SizeFields band={band} index={index} />
        <FabricField path={['bands', index, 'fabric']} settled={fabricOf(index)} />
        <CornersField band={band} index={index} />
      </div>
      <BandFiller band={band} index={index} />
      <Pieced band={band} index={index} width={widthOf(index)} fabric={fabricOf(index)} />
      <Sides band={band} index={index} />
      <Cornerstone band={band} index={index} />
      {Object.entries(keys)
        .filter(([key]) => !PLACED.includes(key))
        .map(([key, option]) => (
          <More
            key={key}
            title={key === 'thread' ? 'A line of its own' : keyWords(key)}
            said={countOf(band, key)}
          >
            <OptionField path={['bands', index, key]} option={option} />
          </More>
        ))}
    </Card>
  )
}

const countOf = (band: BandFile, key: string): number => (key in band ? 1 : 0)

/** The mean width of a band as it is settled, mm; 0 while it is not known. */
function widthOf(index: number): number {
  const width = laid.value?.plan.bands[index]?.width
  return width ? Object.values(width).reduce((a, b) => a + b, 0) / 4 : 0
}

const fabricOf = (index: number): string =>
  laid.value?.plan.bands[index]?.fabric.reduce((most, shade) => (shade.share > most.share ? shade : most))
    .colour ?? '#cccccc'

function Order({ index, count }: { index: number; count: number }) {
  const go = (to: number) => {
    edit((document) => moveBand(document, index, to))
    chosen.value = to
  }
  const actions: readonly (readonly [words: string, isOff: boolean, work: () => void])[] = [
    ['Inward', index === 0, () => go(index - 1)],
    ['Outward', index === count - 1, () => go(index + 1)],
    [
      'Add after',
      false,
      () => {
        edit((document) => addBand(document, index))
        chosen.value = index + 1
      },
    ],
    [
      'Duplicate',
      false,
      () => {
        edit((document) => duplicateBand(document, index))
        chosen.value = index + 1
      },
    ],
    [
      'Remove',
      count === 1,
      () => {
        edit((document) => removeBand(document, index))
        chosen.value = undefined
      },
    ],
  ]
  return (
    <div class="buttons">
      {actions.map(([words, isOff, work]) => (
        <button key={words} type="button" disabled={isOff} onClick={work}>
          {words}
        </button>
      ))}
    </div>
  )
}

function SizeFields({ band, index }: { band: BandFile; index: number }) {
  const { key, even } = sizeOf(band)
  const isEven = even !== undefined
  const written = band[key]
  const path = ['bands', index, key]
  const setKey = (to: string | undefined) =>
    edit((document) => {
      const value = (document.toJS() as PlanFile).bands[index]![key]
      document.deleteIn(path)
      document.setIn(['bands', index, to], document.createNode(value, { flow: true }))
    })
  const setSides = (differ: boolean) => {
    const first = typeof written === 'object' ? written.top : (written ?? 2)
    write(path, differ ? { top: first, right: first, bottom: first, left: first } : first)
  }
  return (
    <>
      <Choice
        id="band-size-kind"
        label="Size given as"
        value={key}
        of={[
          ['width', 'finished'],
          ['cut', 'cut, with seams'],
        ]}
        onWrite={setKey}
      />
      {isEven ? (
        <LengthField
          id="card-width"
          label={key === 'cut' ? 'Cut width' : 'Finished width'}
          value={even}
          problem={problemAt(path)}
          onWrite={(value) => write(path, value)}
        />
      ) : (
        SIDES.map((side) => (
          <LengthField
            key={side}
            id={`card-width-${side}`}
            label={capital(side)}
            value={(written as Record<string, string | number> | undefined)?.[side]}
            problem={problemAt([...path, side])}
            onWrite={(value) => write([...path, side], value)}
          />
        ))
      )}
      <Tick
        id="band-sides"
        label="Sides differ"
        value={!isEven}
        onWrite={(differ) => setSides(differ ?? false)}
      />
    </>
  )
}

const CORNERS = [
  ['mitred', 'mitred'],
  ['rows-first', 'butted, top and bottom sewn first'],
  ['columns-first', 'butted, sides sewn first'],
  ['cornerstone', 'cornerstones'],
] as const

/** How the corners are joined, as the plan says it or as its cornerstones imply. */
const cornersOf = ({ corners, cornerstone }: BandFile): string =>
  typeof corners === 'object'
    ? corners.butted
    : corners === 'butted'
      ? 'rows-first'
      : (corners ?? (cornerstone && cornerstone !== 'none' ? 'cornerstone' : 'mitred'))

function CornersField({ band, index }: { band: BandFile; index: number }) {
  const path = ['bands', index]
  return (
    <Choice
      id="band-corners"
      kind="is-wide"
      label="Corners"
      value={cornersOf(band)}
      problem={problemAt([...path, 'corners'])}
      of={CORNERS}
      onWrite={(to = 'mitred') =>
        edit((document) => {
          if (to !== 'cornerstone') document.deleteIn([...path, 'cornerstone'])
          const corners = to.endsWith('-first') ? document.createNode({ butted: to }, { flow: true }) : to
          document.setIn([...path, 'corners'], corners)
        })
      }
    />
  )
}

/** The filler along the band; where each patch has its own, they are chosen with the piecing. */
function BandFiller({ band, index }: { band: BandFile; index: number }) {
  const now = writtenFiller(band.filler)
  const settled = laid.value?.plan.bands[index]?.filler
  if (now === 'patches')
    return (
      <p class="note">
        Every patch has a filler of its own, see below.{' '}
        <button type="button" class="plain" onClick={() => write(['bands', index, 'filler'], 'none')}>
          One filler along the band instead
        </button>
      </p>
    )
  return (
    <FillerField
      path={['bands', index, 'filler']}
      family="bands"
      label="Filler"
      width={widthOf(index)}
      fabric={fabricOf(index)}
      words={[
        [now === undefined ? undefined : 'none', 'not quilted'],
        ['auto', 'the program chooses'],
      ]}
      settled={settled?.name === now ? settled?.values : undefined}
    />
  )
}

/** A filler of its own, or none, for sides that differ. */
function Sides({ band, index }: { band: BandFile; index: number }) {
  const said = Object.keys(band.sides ?? {}).length
  return (
    <More title="Fillers side by side" said={said}>
      {SIDES.map((side) => {
        const path = ['bands', index, 'sides', side]
        const settled = laid.value?.plan.bands[index]
        const own = settled?.sides[side]
        return (
          <details key={side} class="side is-wide">
            <summary>
              {capital(side)}: {writtenFiller(band.sides?.[side]) ?? 'as the band'}
            </summary>
            <FillerField
              path={path}
              family="bands"
              label={`${capital(side)} side`}
              width={settled?.width[side] ?? 0}
              fabric={fabricOf(index)}
              words={[
                [undefined, 'as the band'],
                ['none', 'not quilted'],
              ]}
              settled={typeof own === 'object' ? own.values : undefined}
            />
          </details>
        )
      })}
    </More>
  )
}

/** The motif in the cornerstones, where there are some that are not pieced. */
function Cornerstone({ band, index }: { band: BandFile; index: number }) {
  if (cornersOf(band) !== 'cornerstone' || band.pieced) return null
  return (
    <FillerField
      path={['bands', index, 'cornerstone']}
      family="corners"
      label="Motif in the cornerstones"
      width={widthOf(index)}
      fabric={fabricOf(index)}
      words={[[band.cornerstone === 'none' ? 'none' : undefined, 'none']]}
      isNameOnly
      key={idOf(['cornerstone', index])}
    />
  )
}
