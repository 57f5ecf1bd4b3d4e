import { useSignal, useSignalEffect } from '@preact/signals'
import { useEffect, useRef } from 'preact/hooks'
import { partNear, type SeamThere, seamNear, startAt } from '../canvas/look-up.ts'
import { type Layers, Painter } from '../canvas/painter.ts'
import { fitBox, pan, type Size, toQuilt, zoomAt } from '../canvas/view.ts'
import { shownScene } from '../kept.ts'
import { layers, pointedAt, pointedBand, themeTurn, view } from '../look.ts'
import { photo } from '../photo.ts'
import { closeUps, isSketching, laid, pictureIsDrawn } from '../planning.ts'
import { walked, write } from '../state.ts'
import { partWords } from '../words.ts'
import type { Scene } from '../worker/messages.ts'
import { fillerTitle } from './filler-field.tsx'
import { Marks } from './marks.tsx'
import { PhotoLayer } from './photo-layer.tsx'

/** How long the view rests before it is drawn sharply again, ms. */
const REST = 90
/** How near to a thing one must point, px. */
const NEAR = 9
const MARGIN = 44

const size: { now: Size } = { now: { width: 0, height: 0 } }

/** Shows the whole quilt. */
export function fitQuilt(): void {
  const scene = shownScene.value
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
  usePainting(canvas)
  const scene = shownScene.value
  const pointers = useRef(new Map<number, readonly [number, number]>())
  const dragged = useRef(0)

  const placeOf = (event: { clientX: number; clientY: number }): [number, number] => {
    const box = frame.current!.getBoundingClientRect()
    return [event.clientX - box.left, event.clientY - box.top]
  }
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
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId)
          pointers.current.set(event.pointerId, placeOf(event))
          dragged.current = 0
          seam.value = undefined
        }}
        onPointerMove={(event) => {
          const at = placeOf(event)
          const before = pointers.current.get(event.pointerId)
          if (!before) return read(at)
          moveWith({ pointers: pointers.current, id: event.pointerId, at })
          dragged.current += Math.abs(at[0] - before[0]) + Math.abs(at[1] - before[1])
        }}
        onPointerUp={(event) => {
          const wasOne = pointers.current.size === 1
          pointers.current.delete(event.pointerId)
          if (wasOne && dragged.current < 6) tap(placeOf(event))
        }}
        onPointerCancel={(event) => pointers.current.delete(event.pointerId)}
        onWheel={(event) => {
          event.preventDefault()
          if (view.value) view.value = zoomAt(view.value, Math.exp(-event.deltaY * 0.0016), placeOf(event))
        }}
        onKeyDown={onKey}
      >
        <canvas ref={canvas} />
      </div>
      <p id="quilt-keys" class="unseen">
        Plus and minus zoom, the arrow keys move, 0 shows the whole quilt, 1 to 4 its corners.
      </p>
      {scene && view.value && <Marks scene={scene} view={view.value} />}
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
        {said.value || (isSketching.value ? 'Planning …' : '')}
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

/** One pointer moves the quilt; two enlarge it as well. */
function moveWith(move: {
  pointers: Map<number, readonly [number, number]>
  id: number
  at: readonly [number, number]
}): void {
  const { pointers, id, at } = move
  const before = pointers.get(id)!
  pointers.set(id, at)
  if (!view.value) return
  const other = [...pointers.entries()].find(([key]) => key !== id)?.[1]
  if (!other) view.value = pan(view.value, at[0] - before[0], at[1] - before[1])
  else {
    const apart = (p: readonly [number, number]) => Math.hypot(p[0] - other[0], p[1] - other[1])
    view.value = zoomAt(view.value, apart(at) / Math.max(1, apart(before)), other)
  }
}

function onKey(event: KeyboardEvent): void {
  const step = 60
  const moves: Record<string, [number, number]> = {
    ArrowLeft: [step, 0],
    ArrowRight: [-step, 0],
    ArrowUp: [0, step],
    ArrowDown: [0, -step],
  }
  const move = moves[event.key]
  if (move && view.value) view.value = pan(view.value, ...move)
  else if (event.key === '+' || event.key === '=') zoomBy(1.25)
  else if (event.key === '-') zoomBy(0.8)
  else if (event.key === '0') fitQuilt()
  else if (/^[1-4]$/.test(event.key)) showCorner(Number(event.key) - 1)
  else return
  event.preventDefault()
}

/** Paints once a frame when something has changed; sharply again when the view has come to rest. */
function usePainting(canvas: { current: HTMLCanvasElement | null }): void {
  const painter = useRef<Painter | undefined>(undefined)
  const waiting = useRef({ frame: 0, rest: 0, last: '' })
  const painted = useRef<Scene | undefined>(undefined)
  const inks = useRef({ ink: '', paper: '', accent: '' })
  const draw = (isMoving: boolean) => {
    const scene = shownScene.peek()
    const now = view.peek()
    if (!canvas.current || !scene || !now || size.now.width === 0) return
    painter.current ??= new Painter(canvas.current)
    const frame = {
      scene,
      view: now,
      size: size.now,
      layers: layers.peek(),
      inks: inks.current,
      walked: walked.peek(),
    }
    painter.current.paint(frame, isMoving)
    if (painted.current !== scene) {
      painted.current = scene
      sayDrawn(canvas.current, scene)
      pictureIsDrawn()
    }
  }
  useSignalEffect(() => {
    themeTurn.value
    const style = getComputedStyle(document.documentElement)
    inks.current = {
      ink: style.getPropertyValue('--ink').trim(),
      paper: style.getPropertyValue('--panel').trim(),
      accent: style.getPropertyValue('--red').trim(),
    }
  })
  // A new picture is drawn at once; everything else waits for the next frame.
  useSignalEffect(() => {
    if (shownScene.value && inks.current.ink) draw(false)
  })
  useSignalEffect(() => {
    themeTurn.value
    closeUps.value
    layers.value
    walked.value
    const { scale, left, top } = view.value ?? { scale: 0, left: 0, top: 0 }
    const key = `${scale} ${left} ${top}`
    const hasMoved = key !== waiting.current.last && waiting.current.last !== ''
    waiting.current.last = key
    if (hasMoved) {
      clearTimeout(waiting.current.rest)
      waiting.current.rest = window.setTimeout(() => {
        waiting.current.rest = 0
        draw(false)
      }, REST)
    }
    if (waiting.current.frame) return
    waiting.current.frame = requestAnimationFrame(() => {
      waiting.current.frame = 0
      draw(waiting.current.rest !== 0)
    })
  })
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
    const scene = shownScene.peek()
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
    shownScene.value
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
          if (file) photo.value = { url: URL.createObjectURL(file), corners: undefined }
        }}
      />
    </label>
  )
}
