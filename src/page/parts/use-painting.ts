import { useSignalEffect } from '@preact/signals'
import type { RefObject } from 'preact'
import { useRef } from 'preact/hooks'
import { type Frame, Painter } from '../canvas/painter.ts'
import { layers, themeTurn } from '../look.ts'
import { closeUps } from '../planning.ts'
import type { Scene } from '../worker/messages.ts'

/** How long the view rests before it is drawn sharply again, ms. */
const REST = 90

/** What is painted: read anew for every frame. */
export interface Painted extends Pick<Frame, 'size'> {
  readonly scene: Frame['scene'] | undefined
  readonly view: Frame['view'] | undefined
  readonly walked?: Frame['walked']
}

/**
 * Paints once a frame when something has changed; sharply again when the view has come to rest.
 *
 * @param what     reads what is to be painted from signals; a change of one of them paints anew
 * @param onDrawn  is told of each scene when it is painted for the first time
 */
export function usePainting(
  canvas: RefObject<HTMLCanvasElement | null>,
  what: () => Painted,
  onDrawn: (scene: Scene) => void = () => undefined,
): void {
  const painter = useRef<Painter | undefined>(undefined)
  const waiting = useRef({ frame: 0, rest: 0, last: '' })
  const painted = useRef<Scene | undefined>(undefined)
  const inks = useRef({ ink: '', paper: '', accent: '' })
  const draw = (isMoving: boolean) => {
    const { scene, view, size, walked } = what()
    if (!canvas.current || !scene || !view || size.width === 0 || inks.current.ink === '') return
    painter.current ??= new Painter(canvas.current)
    painter.current.paint({ scene, view, size, walked, layers: layers.peek(), inks: inks.current }, isMoving)
    if (painted.current === scene) return
    painted.current = scene
    onDrawn(scene)
  }
  useSignalEffect(() => {
    themeTurn.value
    const style = getComputedStyle(document.documentElement)
    const ink = (name: string) => style.getPropertyValue(name).trim()
    inks.current = { ink: ink('--ink'), paper: ink('--panel'), accent: ink('--red') }
  })
  useSignalEffect(() => {
    themeTurn.value
    closeUps.value
    layers.value
    const { scene, view } = what()
    // A new picture is drawn at once; everything else waits for the next frame.
    if (scene !== painted.current) draw(false)
    const key = view ? `${view.scale} ${view.left} ${view.top}` : ''
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
