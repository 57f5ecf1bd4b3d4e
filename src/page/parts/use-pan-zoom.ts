import type { Signal } from '@preact/signals'
import type { RefObject } from 'preact'
import { useRef } from 'preact/hooks'
import { pan, type View, zoomAt } from '../canvas/view.ts'

type Place = readonly [x: number, y: number]

interface PanZoom {
  readonly view: Signal<View | undefined>
  /** Places are measured from its corner. */
  readonly frame: RefObject<HTMLElement | null>
  /** A pointer goes down. */
  readonly onBegin?: () => void
  /** A pointer passes over a place without being pressed. */
  readonly onPass?: (at: Place) => void
  /** A place was pressed and let go. */
  readonly onTap?: (at: Place) => void
}

/** Further than this, and it was no tap, px. */
const TAP = 6

/** What a thing with a view does with pointers and the wheel: one pointer moves it, two enlarge it as well. */
export function usePanZoom({ view, frame, onBegin, onPass, onTap }: PanZoom) {
  const pointers = useRef(new Map<number, Place>())
  const dragged = useRef(0)
  const placeOf = (event: MouseEvent): Place => {
    const box = frame.current!.getBoundingClientRect()
    return [event.clientX - box.left, event.clientY - box.top]
  }
  return {
    onPointerDown: (event: PointerEvent & { currentTarget: HTMLElement }) => {
      event.currentTarget.setPointerCapture(event.pointerId)
      pointers.current.set(event.pointerId, placeOf(event))
      dragged.current = 0
      onBegin?.()
    },
    onPointerMove: (event: PointerEvent) => {
      const at = placeOf(event)
      const before = pointers.current.get(event.pointerId)
      if (!before) {
        onPass?.(at)
        return
      }
      const other = [...pointers.current].find(([id]) => id !== event.pointerId)?.[1]
      pointers.current.set(event.pointerId, at)
      dragged.current += Math.abs(at[0] - before[0]) + Math.abs(at[1] - before[1])
      if (view.value) view.value = movedBy({ view: view.value, before, at, other })
    },
    onPointerUp: (event: PointerEvent) => {
      const wasOne = pointers.current.size === 1
      pointers.current.delete(event.pointerId)
      if (wasOne && dragged.current < TAP) onTap?.(placeOf(event))
    },
    onPointerCancel: (event: PointerEvent) => {
      pointers.current.delete(event.pointerId)
    },
    onWheel: (event: WheelEvent) => {
      event.preventDefault()
      if (view.value) view.value = zoomAt(view.value, Math.exp(-event.deltaY * 0.0016), placeOf(event))
    },
  }
}

interface Move {
  readonly view: View
  readonly before: Place
  readonly at: Place
  /** Where another pointer rests. */
  readonly other: Place | undefined
}

function movedBy({ view, before, at, other }: Move): View {
  if (!other) return pan(view, at[0] - before[0], at[1] - before[1])
  const apart = (p: Place) => Math.hypot(p[0] - other[0], p[1] - other[1])
  return zoomAt(view, apart(at) / Math.max(1, apart(before)), other)
}

const STEP = 60
const MOVES: Readonly<Record<string, Place>> = {
  ArrowLeft: [STEP, 0],
  ArrowRight: [-STEP, 0],
  ArrowUp: [0, STEP],
  ArrowDown: [0, -STEP],
}
const FACTORS: Readonly<Record<string, number>> = { '+': 1.25, '=': 1.25, '-': 0.8 }

/** The view after a key: arrows move, plus and minus enlarge; undefined for other keys. */
export function viewByKey(view: View, key: string, middle: Place): View | undefined {
  const move = MOVES[key]
  if (move) return pan(view, ...move)
  const factor = FACTORS[key]
  return factor === undefined ? undefined : zoomAt(view, factor, middle)
}
