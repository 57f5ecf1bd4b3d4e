import { useSignal } from '@preact/signals'
import type { RefObject } from 'preact'
import { useRef } from 'preact/hooks'
import {
  composeProjective,
  type Four,
  invertProjective,
  type Projective,
  squareToQuadrilateral,
} from '../../geometry/projective.ts'
import { toWindow } from '../canvas/view.ts'
import { shownScene } from '../kept.ts'
import { view } from '../look.ts'
import { type Photo, type PhotoPlace, photo } from '../photo.ts'

const WHOLE: Four = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
]
const NAMES = ['top left', 'top right', 'bottom right', 'bottom left']

/** A photo of the real top under the line: first its corners are shown on it, then it is drawn into the quilt's place. */
export function PhotoLayer({ frame }: { frame: RefObject<HTMLDivElement | null> }) {
  const shown = photo.value
  const scene = shownScene.value
  if (!shown || !scene || !view.value) return null
  if (!shown.corners) return <PhotoCorners frame={frame} />
  const edge = scene.quilt.edge.map((p) => toWindow(view.value!, [p[0], p[1]])) as unknown as Four
  const matrix = photoToWindow(shown.corners, edge)
  if (!matrix) return <PhotoCorners frame={frame} />
  return (
    <img
      class="photo"
      src={shown.url}
      alt=""
      style={{ transform: cssMatrix(matrix) }}
      width={1000}
      height={1000}
    />
  )
}

/** From the photo, stretched over a square of 1000 px, to the window. */
function photoToWindow(corners: Four, edge: Four): Projective | undefined {
  const onPhoto = squareToQuadrilateral(corners)
  const inWindow = squareToQuadrilateral(edge)
  if (!onPhoto || !inWindow) return undefined
  const fromUnit = composeProjective(inWindow, invertProjective(onPhoto))
  return composeProjective(fromUnit, [0.001, 0, 0, 0, 0.001, 0, 0, 0])
}

const cssMatrix = ([a, b, c, d, e, f, g, h]: Projective): string =>
  `matrix3d(${[a, d, 0, g, b, e, 0, h, 0, 0, 1, 0, c, f, 0, 1].join(',')})`

/** Asks for the quilt's four corners on the photo, one after the other: by tapping, or with the arrow keys and Enter. */
function PhotoCorners({ frame }: { frame: RefObject<HTMLDivElement | null> }) {
  const placed = useSignal<readonly PhotoPlace[]>([])
  const aim = useSignal<PhotoPlace>([0.5, 0.5])
  const image = useRef<HTMLImageElement>(null)
  const add = (place: PhotoPlace) => {
    placed.value = [...placed.value, place]
    if (placed.value.length === 4)
      photo.value = { ...photo.value!, corners: placed.value as unknown as NonNullable<Photo['corners']> }
  }
  const move = (event: KeyboardEvent) => {
    const by = AIMS[event.key]
    if (!by) return
    event.preventDefault()
    const grain = event.shiftKey ? 0.05 : 0.005
    aim.value = [clamp(aim.value[0] + by[0] * grain), clamp(aim.value[1] + by[1] * grain)]
  }
  return (
    <div class="photo-corners">
      <p role="status">
        Tap the <b>{NAMES[placed.value.length]}</b> corner of the quilt on the photo, or aim with the arrow
        keys and press Enter.{' '}
        <button
          type="button"
          onClick={() => {
            photo.value = { ...photo.value!, corners: WHOLE }
          }}
        >
          The photo shows just the quilt
        </button>{' '}
        <button
          type="button"
          onClick={() => {
            photo.value = undefined
          }}
        >
          No photo
        </button>
      </p>
      <button
        type="button"
        class="aim"
        aria-label={`Place the ${NAMES[placed.value.length]} corner`}
        onKeyDown={move}
        onClick={(event) => {
          const box = image.current!.getBoundingClientRect()
          const isByKey = event.detail === 0
          add(
            isByKey
              ? aim.value
              : [(event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height],
          )
        }}
      >
        <img
          ref={image}
          src={photo.value!.url}
          alt="The chosen quilt top"
          style={{ maxHeight: `${(frame.current?.clientHeight ?? 600) - 110}px` }}
        />
        {[...placed.value, aim.value].map(([x, y], i) => (
          <span
            key={`${x} ${y}`}
            class={i < placed.value.length ? 'dot' : 'dot is-aim'}
            style={{ left: `${x * 100}%`, top: `${y * 100}%` }}
          />
        ))}
      </button>
    </div>
  )
}

const AIMS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}

const clamp = (share: number): number => Math.min(1, Math.max(0, share))
