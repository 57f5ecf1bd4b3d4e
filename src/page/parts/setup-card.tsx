import { catalog, laid } from '../planning.ts'
import { plan, write } from '../state.ts'
import { CardHead, ColourField } from './band-card.tsx'
import { problemAt } from './band-strip.tsx'
import { LengthField } from './length-field.tsx'

/** What belongs to the quilt as a whole: binding, machine, thread, batting, and where the line begins. */
export function SetupCard() {
  const { file } = plan.value
  const settled = laid.value?.plan
  if (!file || !settled) return null
  const units = file.units ?? 'in'
  const own = (mm: number) => `${Number(mm.toFixed(2))} mm`
  const reach = file.machine?.reach ?? settled.machine.reach.map(own)
  return (
    <section class="card" aria-label="Settings of the quilt">
      <CardHead title="Around the quilt" />
      <fieldset class="fields">
        <legend>Binding</legend>
        <ColourField
          id="binding-fabric"
          label="Fabric"
          colour={settled.bindingFabric}
          onWrite={(colour) => write(['bindingFabric'], colour)}
        />
      </fieldset>
      <fieldset class="fields">
        <legend>Machine</legend>
        <Choice
          id="machine-kind"
          label="Kind"
          value={settled.machine.kind}
          of={[
            ['domestic', 'domestic'],
            ['frame', 'on a frame'],
          ]}
          path={['machine', 'kind']}
        />
        {(['across', 'down'] as const).map((way, i) => (
          <LengthField
            key={way}
            id={`reach-${way}`}
            label={`Reach ${way}`}
            value={reach[i]}
            problem={problemAt(`machine.reach[${i}]`)}
            onWrite={(value) => write(['machine', 'reach'], i === 0 ? [value, reach[1]] : [reach[0], value])}
          />
        ))}
        <NumberField
          id="speed"
          label="Stitches a minute"
          value={settled.machine.speed}
          at="machine.speed"
          onWrite={(value) => write(['machine', 'speed'], value)}
        />
        <LengthField
          id="stitch-length"
          label="Stitch length"
          value={file.stitch?.length ?? own(settled.stitch.length)}
          problem={problemAt('stitch')}
          onWrite={(value) =>
            write(['stitch', 'length'], typeof value === 'number' ? `${value} ${units}` : value)
          }
        />
      </fieldset>
      <fieldset class="fields">
        <legend>Thread and batting</legend>
        <ColourField
          id="thread-colour"
          label="Thread"
          colour={settled.thread.colour}
          onWrite={(colour) => write(['thread', 'colour'], colour)}
        />
        <NumberField
          id="tex"
          label="Tex"
          value={Number(settled.thread.tex.toFixed(1))}
          at="thread"
          onWrite={(value) => write(['thread', 'tex'], value)}
        />
        <LengthField
          id="bobbin"
          label="On one bobbin"
          value={
            typeof file.thread?.bobbin === 'object' || file.thread?.bobbin === undefined
              ? `${Number(settled.thread.bobbinM.toFixed(1))} m`
              : file.thread.bobbin
          }
          problem={problemAt('thread.bobbin')}
          onWrite={(value) => write(['thread', 'bobbin'], typeof value === 'number' ? `${value} m` : value)}
        />
        <Choice
          id="batting-kind"
          label="Batting"
          value={settled.batting.kind}
          of={(catalog.value?.battings ?? []).map((id) => [id, id.replaceAll('-', ' ')] as const)}
          path={['batting', 'kind']}
        />
        <LengthField
          id="batting-limit"
          label="Its limit between lines"
          value={file.batting?.limit ?? own(settled.batting.limit)}
          problem={problemAt('batting.limit')}
          onWrite={(value) => write(['batting', 'limit'], value)}
        />
      </fieldset>
      <Way />
    </section>
  )
}

const PLACES = ['any', 'top-left', 'top-right', 'bottom-right', 'bottom-left'] as const

/** Where the line begins and in which order it is worked. */
function Way() {
  const { route } = plan.value.file!
  const start = typeof route?.start === 'object' ? 'seam' : (route?.start ?? 'any')
  return (
    <fieldset class="fields">
      <legend>The way</legend>
      <Choice
        id="route-start"
        label="Start"
        value={start}
        of={[
          ...PLACES.map(
            (place) => [place, place === 'any' ? 'wherever is best' : place.replace('-', ' ')] as const,
          ),
          ...(typeof route?.start === 'object'
            ? [['seam', `${route.start.band}, ${route.start.side}`] as const]
            : []),
        ]}
        path={['route', 'start']}
      />
      <Choice
        id="route-order"
        label="Order"
        value={route?.order ?? 'any'}
        of={[
          ['any', 'whichever is shorter'],
          ['middle-out', 'from the middle outward'],
          ['outside-in', 'from the outside inward'],
        ]}
        path={['route', 'order']}
      />
      <Choice
        id="route-work"
        label="Work"
        value={route?.work ?? 'areas'}
        of={[
          ['areas', 'area by area'],
          ['laps', 'a lap a band'],
        ]}
        path={['route', 'work']}
      />
      <Choice
        id="route-ditch"
        label="In the ditch"
        value={typeof route?.ditch === 'object' ? 'some' : (route?.ditch ?? 'none')}
        of={[
          ['none', 'nothing asked for'],
          ['rings', 'the seams between bands'],
          ['all', 'every seam'],
          ...(typeof route?.ditch === 'object' ? [['some', 'some seams'] as const] : []),
        ]}
        path={['route', 'ditch']}
      />
      <p class="note">Or tap a seam on the quilt to start there.</p>
    </fieldset>
  )
}

interface ChoiceProps {
  readonly id: string
  readonly label: string
  readonly value: string
  readonly of: readonly (readonly [id: string, words: string])[]
  readonly path: readonly string[]
}

function Choice({ id, label, value, of, path }: ChoiceProps) {
  return (
    <span class="field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        onChange={(event) => {
          if (!['seam', 'some'].includes(event.currentTarget.value)) write(path, event.currentTarget.value)
        }}
      >
        {of.map(([choice, words]) => (
          <option key={choice} value={choice}>
            {words}
          </option>
        ))}
      </select>
    </span>
  )
}

interface NumberFieldProps {
  readonly id: string
  readonly label: string
  readonly value: number
  /** Its place in the plan, for problems. */
  readonly at: string
  readonly onWrite: (value: number) => void
}

function NumberField({ id, label, value, at, onWrite }: NumberFieldProps) {
  const problem = problemAt(at)
  return (
    <span class={`field ${problem ? 'is-wrong' : ''}`}>
      <label for={id}>{label}</label>
      <input
        id={id}
        type="number"
        value={value}
        step="any"
        onChange={(event) => onWrite(Number(event.currentTarget.value))}
      />
      {problem && (
        <span class="say" role="alert">
          {problem}
        </span>
      )}
    </span>
  )
}

/** The centre: its fabric. Its sizes stand in the strip. */
export function CentreCard() {
  const settled = laid.value?.plan
  if (!settled) return null
  return (
    <section class="card" aria-label="Settings of the centre">
      <CardHead title="Centre" />
      <div class="fields">
        <ColourField
          id="centre-fabric"
          label="Fabric"
          colour={settled.centre.fabric[0]?.colour}
          onWrite={(colour) => write(['centre', 'fabric'], colour)}
        />
      </div>
      <p class="note">The line runs through the borders; the centre stays as it is.</p>
    </section>
  )
}
