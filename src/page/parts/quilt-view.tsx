import { useSignal, useSignalEffect } from '@preact/signals'
import { useEffect, useRef } from 'preact/hooks'
import { partNear, type SeamThere, seamNear, startAt } from '../canvas/look-up.ts'
import type { Layers } from '../canvas/painter.ts'
import { fitBox, type Size, toQuilt, zoomAt } from '../canvas/view.ts'
import { paintedScene, shownReport, shownScene } from '../kept.ts'
import { layers, pointedAt, pointedBand, view } from '../look.ts'
import { photo } from '../photo.ts'
import { isSketching, laid, pictureIsDrawn, preview, previewIsDrawn } from '../planning.ts'
import { walked, write } from '../state.ts'
import { partWords } from '../words.ts'
import type { Scene } from '../worker/messages.ts'
import { fillerTitle } from './filler-field.tsx'
import { Marks } from './marks.tsx'
import { PhotoLayer } from './photo-layer.tsx'
import { usePainting } from './use-painting.ts'
import { usePanZoom, viewByKey } from './use-pan-zoom.ts'

/** How near to a thing one must point, px. */
const NEAR = 9
/** The buttons lie over the window's upper edge. */
const MARGIN = { all: 34, top: 84 }

const size: { now: Size } = { now: { width: 0, height: 0 } }

/** Shows the whole quilt. */
export function fitQuilt(): void {
  const scene = paintedScene.value
  if (!scene || size.now.width === 0) return
  const { widthMm, heightMm } = scene.quilt
  view.value = fitBox({ minX: 0, minY: 0, maxX: widthMm, maxY: heightMm }, size.now, MARGIN)
}

/** Shows a corner closely: clockwise from the top left. */
export function showCorner(corner: number): void {
  const scene = shownScene.value
  if (!scene) return
  const { quilt } = scene
  const at = quilt.edge[corner % quilt.edge.length]!
  const to = quilt.rings[0]![corner % quilt.rings[0]!.length]!
  const [xs, ys] = [
    [at[0], to[0]],
    [at[1], to[1]],
  ]
  const box = { minX: Math.min(...xs), maxX: Math.max(...xs), minY: Math.min(...ys), maxY: Math.max(...ys) }
  view.value = fitBox(box, size.now, MARGIN)
}

/** Brings a place of the quilt into the middle, close enough to see it. */
export function showPlace([x, y]: readonly [number, number]): void {
  const half = 120
  view.value = fitBox({ minX: x - half, maxX: x + half, minY: y - half, maxY: y + half }, size.now, MARGIN)
  pointedAt.value = [x, y]
}

function zoomBy(factor: number): void {
  const { width, height } = size.now
  if (view.value) view.value = zoomAt(view.value, factor, [width / 2, height / 2])
}

/** The quilt, true in proportion, and what one can do to look at it. */
export function QuiltView() {
  const frame = useRef<HTMLDivElement>(null)
  const canvas = useRef<HTMLCanvasElement>(null)
  const said = useSignal('')
  const seam = useSignal<{ there: SeamThere; at: readonly [number, number] } | undefined>(undefined)
  // The view is fitted to a new quilt before it is drawn.
  useFrameSize(frame)
  usePainting(
    canvas,
    () => ({ scene: paintedScene.value, view: view.value, size: size.now, walked: walked.value }),
    (drawn) => {
      if (drawn === preview.peek()) return previewIsDrawn()
      sayDrawn(canvas.current!, drawn)
      pictureIsDrawn()
    },
  )
  const scene = shownScene.value
  const read = (at: readonly [number, number]) => {
    if (!scene || !view.value) return
    const reach = NEAR / view.value.scale
    const place = toQuilt(view.value, at)
    const found = partNear(scene, place, reach)
    const fillers = laid.value?.plan.bands.map(({ filler }) => fillerTitle(filler?.name ?? 'none')) ?? []
    const near = seamNear(scene.quilt, place, reach)
    const words = [found && partWords(found.part, scene, fillers), near && `${near.name}`].filter(Boolean)
    said.value = words.join(' · ')
  }
  const tap = (at: readonly [number, number]) => {
    if (!scene || !view.value) return
    const place = toQuilt(view.value, at)
    const there = seamNear(scene.quilt, place, NEAR / view.value.scale)
    seam.value = there && { there, at }
    pointedAt.value = undefined
    pointedBand.value = undefined
    read(at)
  }
  const panZoom = usePanZoom({
    view,
    frame,
    onBegin: () => {
      seam.value = undefined
    },
    onPass: read,
    onTap: tap,
  })
  return (
    <div class="quilt" ref={frame}>
      {layers.value.photo && photo.value && <PhotoLayer frame={frame} />}
      <div
        class="board"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the role makes it interactive, and the keys need it in reach
        tabIndex={0}
        role="application"
        aria-label="The quilt with its line"
        aria-describedby="quilt-keys"
        {...panZoom}
        onKeyDown={onKey}
      >
        <canvas ref={canvas} />
      </div>
      <p id="quilt-keys" class="unseen">
        Plus and minus zoom, the arrow keys move, 0 shows the whole quilt, 1 to 4 its corners.
      </p>
      {scene && view.value && (
        <Marks
          scene={scene}
          view={view.value}
          walked={walked.value}
          report={shownReport.value}
          isOld={paintedScene.value !== scene}
        />
      )}
      {seam.value && (
        <SeamMenu
          seam={seam.value.there}
          at={seam.value.at}
          onDone={() => {
            seam.value = undefined
          }}
        />
      )}
      <p class={said.value || isSketching.value ? 'reading' : 'reading is-still'} aria-live="polite">
        {said.value || (isSketching.value ? 'Finding the way …' : '')}
      </p>
      <ViewButtons />
    </div>
  )
}

interface SeamMenuProps {
  readonly seam: SeamThere
  readonly at: readonly [number, number]
  readonly onDone: () => void
}

function SeamMenu({ seam, at, onDone }: SeamMenuProps) {
  const scene = shownScene.value
  if (!scene) return null
  const start = startAt(scene.quilt, seam)
  const words =
    typeof start === 'string' ? `${start.replace('-', ' ')} corner` : `${seam.name}, ${start.side}`
  return (
    <div class="seam-menu" style={{ left: `${at[0]}px`, top: `${at[1]}px` }}>
      <button
        type="button"
        class="strong"
        onClick={() => {
          write(['route', 'start'], start)
          onDone()
        }}
      >
        Start here: {words}
      </button>
      <button type="button" onClick={onDone}>
        No
      </button>
    </div>
  )
}

function onKey(event: KeyboardEvent): void {
  const { width, height } = size.now
  const next = view.value && viewByKey(view.value, event.key, [width / 2, height / 2])
  if (next) view.value = next
  else if (event.key === '0') fitQuilt()
  else if (/^[1-4]$/.test(event.key)) showCorner(Number(event.key) - 1)
  else return
  event.preventDefault()
}

/** Counts the pictures and their points where measurements can read them. */
function sayDrawn({ parentElement: board }: HTMLCanvasElement, { lines }: Scene): void {
  if (!board) return
  board.dataset.drawn = String(Number(board.dataset.drawn ?? 0) + 1)
  board.dataset.points = String(lines.reduce((sum, { along }) => sum + along.length, 0))
}

function useFrameSize(frame: { current: HTMLDivElement | null }): void {
  const fitted = useRef('')
  const refit = () => {
    const scene = paintedScene.peek()
    if (!scene) return
    const { widthMm, heightMm } = scene.quilt
    const key = `${widthMm} ${heightMm} ${size.now.width} ${size.now.height}`
    if (fitted.current !== key) {
      fitted.current = key
      fitQuilt()
    }
  }
  useEffect(() => {
    const watch = new ResizeObserver(([entry]) => {
      const { width, height } = entry!.contentRect
      size.now = { width, height }
      refit()
    })
    watch.observe(frame.current!)
    return () => watch.disconnect()
  }, [])
  useSignalEffect(() => {
    paintedScene.value
    refit()
  })
}

const LAYER_NAMES: readonly (readonly [keyof Layers, string])[] = [
  ['fabrics', 'Fabrics'],
  ['seams', 'Seams'],
  ['line', 'Line'],
  ['areas', 'Areas'],
  ['gaps', 'Largest gap'],
  ['bobbins', 'Bobbin changes'],
  ['photo', 'Photo'],
]

function ViewButtons() {
  return (
    <div class="view-buttons">
      <details class="layers">
        <summary>Layers</summary>
        <div>
          {LAYER_NAMES.map(([key, words]) => (
            <label key={key}>
              <input
                type="checkbox"
                checked={layers.value[key]}
                onChange={(event) => {
                  const isOn = event.currentTarget.checked
                  // The photo lies under the line, where the fabrics would cover it.
                  const instead = key === 'photo' ? { fabrics: !isOn } : {}
                  layers.value = { ...layers.value, ...instead, [key]: isOn }
                }}
              />
              {words}
            </label>
          ))}
          {layers.value.photo && <PhotoChooser />}
        </div>
      </details>
      <button type="button" aria-label="Show less, larger" onClick={() => zoomBy(1.4)}>
        +
      </button>
      <button type="button" aria-label="Show more, smaller" onClick={() => zoomBy(1 / 1.4)}>
        −
      </button>
      <button type="button" onClick={fitQuilt}>
        Whole
      </button>
      <button type="button" onClick={() => showCorner(0)}>
        Corner
      </button>
    </div>
  )
}

function PhotoChooser() {
  return (
    <label class="photo-chooser">
      Photo of the top
      <input
        type="file"
        accept="image/*"
        onChange={(event) => {
          const file = event.currentTarget.files?.[0]
          // The corners are pointed out next: nothing may lie over the photo.
          event.currentTarget.closest('details')?.removeAttribute('open')
          if (file) photo.value = { url: URL.createObjectURL(file), corners: undefined }
        }}
      />
    </label>
  )
}
