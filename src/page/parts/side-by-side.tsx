import { useSignal, useSignalEffect } from '@preact/signals'
import type { ComponentChildren } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import { lengthText, longLengthText } from '../../export/labels.ts'
import { differencesOf } from '../../report/differences.ts'
import { type StrategyFigures, strategyName } from '../../report/strategies.ts'
import { durationText } from '../../report/summary.ts'
import { fitBox, type Size, type View } from '../canvas/view.ts'
import { kept } from '../kept.ts'
import { comparisonView } from '../look.ts'
import { freshFigures, scene } from '../planning.ts'
import {
  compareWays,
  comparison,
  layBeside,
  planInWay,
  rival,
  rivalFigured,
  rivalSays,
  rivalScene,
  waysDone,
} from '../rival.ts'
import { SAMPLES, titleOf } from '../samples.ts'
import { open, plan } from '../state.ts'
import type { Figured, Scene } from '../worker/messages.ts'
import { CardHead } from './card.tsx'
import { Marks } from './marks.tsx'
import { usePainting } from './use-painting.ts'
import { usePanZoom, viewByKey } from './use-pan-zoom.ts'

/** Two plans, or two ways to work one, side by side: pictures at one scale, figures, and how they differ. */
export function SideBySide({ onClose }: { onClose: () => void }) {
  const beside = rival.value
  return (
    <div class="side-by-side">
      <CardHead id="compare-heading" title="Side by side" onClose={onClose} />
      <div class="buttons rivals">
        <RivalChooser />
        {beside && !rivalSays.value && (
          <button
            type="button"
            class="strong"
            onClick={() => {
              open(beside.text, fileNameOf(beside))
              onClose()
            }}
          >
            Go on with {beside.name}
          </button>
        )}
      </div>
      <Ways />
      <div class="pictures">
        <Picture title="Now" scene={scene.value} figured={freshFigures.value} />
        {beside ? (
          <Picture title={beside.name} scene={rivalScene.value} figured={rivalFigured.value} />
        ) : (
          <p class="note">
            Choose above what to lay beside your plan: a plan you kept, another plan file, or another way to
            work this one.
          </p>
        )}
      </div>
      {rivalSays.value && (
        <p class="say" role="alert">
          {rivalSays.value}
        </p>
      )}
      {beside && <Differences name={beside.name} />}
    </div>
  )
}

const fileNameOf = ({ name }: { readonly name: string }): string =>
  `${name.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-')}.yaml`

/** What is laid beside the present plan. */
function RivalChooser() {
  const now = plan.value.text
  return (
    <>
      {kept.value && (
        <button type="button" onClick={() => layBeside({ name: 'the kept plan', text: kept.value!.text })}>
          The kept plan
        </button>
      )}
      <label class="pick">
        <span>A sample</span>
        <select
          value=""
          onChange={(event) => {
            const sample = SAMPLES.find(({ id }) => id === event.currentTarget.value)
            if (sample) layBeside({ name: titleOf(sample.text), text: sample.text })
          }}
        >
          <option value="">choose …</option>
          {SAMPLES.filter(({ text: other }) => other !== now).map(({ id, text: other }) => (
            <option key={id} value={id}>
              {titleOf(other)}
            </option>
          ))}
        </select>
      </label>
      <label class="pick">
        <span>A plan file</span>
        <input
          type="file"
          accept=".yaml,.yml,.json"
          onChange={async (event) => {
            const file = event.currentTarget.files?.[0]
            if (file) layBeside({ name: file.name, text: await file.text() })
          }}
        />
      </label>
      <button type="button" disabled={waysDone.value !== undefined} onClick={compareWays}>
        {waysDone.value === undefined ? 'Work out all ways' : `Working out way ${waysDone.value + 1} of 6 …`}
      </button>
    </>
  )
}

interface PictureProps {
  readonly title: string
  readonly scene: Scene | undefined
  readonly figured: Figured | undefined
}

/** One of the two pictures. Both have one view, so that they show the same place at the same scale. */
function Picture({ title, scene: shown, figured }: PictureProps) {
  const frame = useRef<HTMLDivElement>(null)
  const canvas = useRef<HTMLCanvasElement>(null)
  const size = useSignal<Size>({ width: 0, height: 0 })
  const now = useSignal(shown)
  now.value = shown
  useEffect(() => {
    const watch = new ResizeObserver(([entry]) => {
      const { width, height } = entry!.contentRect
      size.value = { width, height }
    })
    watch.observe(frame.current!)
    return () => watch.disconnect()
  }, [])
  useSignalEffect(() => {
    comparisonView.value = fitBoth(size.value, [scene.value, rivalScene.value])
  })
  usePainting(canvas, () => ({ scene: now.value, view: comparisonView.value, size: size.value }))
  const panZoom = usePanZoom({ view: comparisonView, frame })
  const { width, height } = size.value
  return (
    <figure aria-busy={!shown || !figured}>
      <figcaption>{title}</figcaption>
      <div
        class="board"
        ref={frame}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the role makes it interactive, and the keys need it in reach
        tabIndex={0}
        role="application"
        aria-label={`${title}: the quilt with its line`}
        {...panZoom}
        onKeyDown={(event) => {
          const view = comparisonView.value
          const next =
            event.key === '0'
              ? fitBoth(size.value, [scene.value, rivalScene.value])
              : view && viewByKey(view, event.key, [width / 2, height / 2])
          if (!next) return
          comparisonView.value = next
          event.preventDefault()
        }}
      >
        <canvas ref={canvas} />
        {shown && comparisonView.value && (
          <Marks scene={shown} view={comparisonView.value} report={figured?.report} />
        )}
        {!shown && <p class="reading">Planning …</p>}
      </div>
    </figure>
  )
}

const MARGIN = { all: 30, top: 38 }

/** The view that shows the larger of the quilts whole. */
function fitBoth(size: Size, scenes: readonly (Scene | undefined)[]): View | undefined {
  const quilts = scenes.flatMap((shown) => (shown ? [shown.quilt] : []))
  if (size.width === 0 || quilts.length === 0) return undefined
  const maxX = Math.max(...quilts.map(({ widthMm }) => widthMm))
  const maxY = Math.max(...quilts.map(({ heightMm }) => heightMm))
  return fitBox({ minX: 0, minY: 0, maxX, maxY }, size, MARGIN)
}

/** Every figure of both, with what differs set off. */
function Differences({ name }: { name: string }) {
  const [one, other] = [freshFigures.value, rivalFigured.value]
  if (!one || !other) return <p class="note">{rivalSays.value ? '' : 'The figures are being worked out …'}</p>
  return (
    <Table
      columns={['Figure', 'Now', name, 'Difference']}
      rows={differencesOf(one.report, other.report).map((figure) => ({
        name: figure.label,
        kind: figure.change === '' ? 'is-same' : '',
        cells: [figure.one, figure.other, figure.change || 'the same'],
      }))}
    />
  )
}

interface TableProps {
  readonly columns: readonly string[]
  readonly rows: readonly { name: string; kind: string; cells: readonly ComponentChildren[] }[]
}

const Table = ({ columns, rows }: TableProps) => (
  <table class="differences">
    <thead>
      <tr>
        {columns.map((words) => (
          <th key={words} scope="col">
            {words}
          </th>
        ))}
      </tr>
    </thead>
    <tbody>
      {rows.map(({ name, kind, cells }) => (
        <tr key={name} class={kind}>
          <th scope="row">{name}</th>
          {cells.map((cell, i) => (
            <td key={i}>{cell}</td>
          ))}
        </tr>
      ))}
    </tbody>
  </table>
)

/** All ways to work the present plan, the one to take, and why. */
function Ways() {
  const ways = comparison.value
  if (!ways) return null
  const { strategies, choice, why, units } = ways
  return (
    <>
      <h3>Ways to work this plan</h3>
      <Table
        columns={['Way', 'Starts', 'Stitched over', 'Travel', 'Moves', 'Time', 'Thread', 'Beside it']}
        rows={strategies.map((strategy, i) => ({
          name: strategyName(strategy),
          kind: i === choice ? 'is-choice' : '',
          cells: [
            strategy.starts,
            lengthText(strategy.overlapMm, units),
            lengthText(strategy.travelMm, units),
            strategy.moves,
            durationText(strategy.minutes),
            longLengthText(strategy.threadM * 1000, units),
            <Look key="look" strategy={strategy} />,
          ],
        }))}
      />
      <p class="note">
        Take {strategyName(strategies[choice]!)}: {why}.
      </p>
    </>
  )
}

function Look({ strategy }: { strategy: StrategyFigures }) {
  const name = strategyName(strategy)
  return (
    <button
      type="button"
      class="plain"
      aria-label={`Lay ${name} beside the present plan`}
      onClick={() => layBeside({ name, text: planInWay(strategy) })}
    >
      look
    </button>
  )
}
