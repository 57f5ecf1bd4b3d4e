import type { FunctionComponent } from 'preact'
import { BOBBIN_CLASSES } from '../../plan/plan.ts'
import { namesOf } from '../../quilt/outline-names.ts'
import { idOf, patternOf, valueAt } from '../paths.ts'
import type { Written } from '../plan-file.ts'
import { type Path, setAt, writtenValue } from '../plan-text.ts'
import { laid, scene } from '../planning.ts'
import { problemAt } from '../problems-at.ts'
import { edit, plan, write } from '../state.ts'
import { choiceWords, fieldWords } from '../words.ts'
import { Choice } from './field.tsx'
import { LengthField } from './length-field.tsx'
import { ListField } from './list-field.tsx'
import type { OptionProps } from './option-props.ts'
import { OwnMotifs } from './own-motifs.tsx'

/** Keys whose values need more than their format tells: a place on the quilt, seams, a bobbin, a band by its name. */
export function ownFieldFor(path: Path): FunctionComponent<OptionProps> | undefined {
  const pattern = patternOf(path)
  if (isForFrame(pattern) && laid.value?.plan.machine.kind !== 'frame') return () => null
  if (pattern === 'route.start' || pattern === 'route.end') return PlaceField
  if (pattern === 'centre.shape') return ShapeField
  if (pattern === 'route.ditch') return DitchField
  if (pattern === 'motifs') return OwnMotifs
  if (pattern === 'thread.bobbin') return BobbinField
  if (/^route\.ditch\[\]\.|^measured\[\]\.band$/.test(pattern)) return BandName
  return undefined
}

/** Given for a domestic machine these are refused. */
const isForFrame = (pattern: string): boolean => pattern === 'machine.throat' || pattern === 'machine.overlap'

const bandNames = (): readonly string[] => laid.value?.plan.bands.map(({ name }) => name) ?? []

/** The name of a band, or of the centre where sizes are measured. */
function BandName({ path, option, label }: OptionProps) {
  const names = [...(path[0] === 'measured' ? ['centre'] : []), ...bandNames()]
  const now = valueAt(plan.value.file, path) as string | undefined
  const known = now === undefined || names.includes(now) ? names : [now, ...names]
  const words = fieldWords(path.at(-1)!, option)
  const none = option.isOptional ? [['', 'none'] as const] : []
  return (
    <Choice
      id={idOf(path)}
      label={label ?? words.label}
      note={words.note}
      problem={problemAt(path)}
      value={now}
      of={[...none, ...known.map((name) => [name, name] as const)]}
      onWrite={(name) => write(path, name)}
    />
  )
}

/** The centre's outline: a rectangle has a width and a height, every other shape one size across. */
function ShapeField({ path, option }: OptionProps) {
  const { centre } = plan.value.file!
  const shapes = option.kind === 'choice' ? option.of : []
  const [rectangle = 'rectangle'] = shapes
  return (
    <Choice
      id={idOf(path)}
      label="Outline"
      problem={problemAt(path)}
      value={centre.shape ?? rectangle}
      of={shapes.map((shape) => [shape, choiceWords(shape)] as const)}
      onWrite={(shape = rectangle) =>
        edit((document) => {
          const { across, width, height } = centre
          const sizes =
            shape === rectangle
              ? { width: width ?? across, height: height ?? across }
              : { across: across ?? width }
          for (const key of ['width', 'height', 'across'] as const)
            setAt(document, ['centre', key], (sizes as Partial<Record<typeof key, Written>>)[key])
          setAt(document, path, shape === rectangle ? undefined : shape)
        })
      }
    />
  )
}

/** Where the line begins or ends: anywhere, in a corner, or in the middle of a band's side. */
function PlaceField({ path, option }: OptionProps) {
  const now = valueAt(plan.value.file, path)
  const words = fieldWords(path.at(-1)!, option)
  const outline = scene.value?.quilt.rings.at(-1)
  const names = outline ? namesOf(outline) : { corners: [], sides: [] }
  const sides = bandNames().flatMap((band) => names.sides.map((side) => ({ band, side })))
  const keyOf = ({ band, side }: { band: string; side: string }) => `${band}, ${side}`
  const isSide = typeof now === 'object' && now !== null
  return (
    <Choice
      id={idOf(path)}
      label={words.label}
      note={path.at(-1) === 'start' ? 'Or tap a seam on the quilt.' : ''}
      problem={problemAt(path)}
      value={isSide ? keyOf(now as { band: string; side: string }) : ((now as string | undefined) ?? 'any')}
      of={[
        ['any', 'anywhere'],
        ...names.corners.map((place) => [place, choiceWords(place)] as const),
        ...sides.map((place) => [keyOf(place), keyOf(place)] as const),
      ]}
      onWrite={(place) => write(path, sides.find((side) => keyOf(side) === place) ?? place)}
    />
  )
}

/** The seams to be stitched: none, all, those between bands, or a list. */
function DitchField({ path, option, Part }: OptionProps) {
  const now = valueAt(plan.value.file, path)
  const isList = Array.isArray(now)
  const list = option.kind === 'either' ? option.of.find(({ kind }) => kind === 'list') : undefined
  return (
    <>
      <Choice
        id={idOf(path)}
        label="Stitched in the ditch"
        problem={isList ? undefined : problemAt(path)}
        value={isList ? 'some' : ((now as string | undefined) ?? 'none')}
        of={[
          ['none', 'nothing'],
          ['rings', 'between bands'],
          ['all', 'every seam'],
          ['some', 'some seams'],
        ]}
        onWrite={(choice) => write(path, choice === 'some' ? [{ inside: bandNames()[0] ?? '' }] : choice)}
      />
      {isList && list && <ListField path={path} option={list} Part={Part} label="Seams in the ditch" />}
    </>
  )
}

/** What a bobbin holds: a length of thread, or what its class is taken to hold. */
function BobbinField({ path, option }: OptionProps) {
  const now = valueAt(plan.value.file, path)
  const isClass = typeof now !== 'string' && typeof now !== 'number'
  const held = laid.value?.plan.thread.bobbinM
  const said = held === undefined ? '' : `${Number(held.toFixed(1))} m`
  return (
    <>
      <Choice
        id={`${idOf(path)}-class`}
        label="Bobbin"
        problem={isClass ? problemAt(path) : undefined}
        value={isClass ? String((now as { class?: unknown } | undefined)?.class ?? 'L') : 'length'}
        of={[
          ...BOBBIN_CLASSES.map((name) => [name, `class ${name}`] as const),
          ['length', 'a length'] as const,
        ]}
        onWrite={(choice) => write(path, choice === 'length' ? said : { class: choice })}
      />
      {!isClass && (
        <LengthField
          id={idOf(path)}
          label="On one bobbin"
          note={option.usual ? 'a length such as 75 m or 80 yd' : ''}
          value={now}
          problem={problemAt(path)}
          onWrite={(value) =>
            write(path, typeof value === 'number' ? `${value} m` : writtenValue(String(value)))
          }
        />
      )}
    </>
  )
}
