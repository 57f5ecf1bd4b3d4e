import type { Box } from '../../geometry/stroke.ts'

/** How the quilt lies in the window: a place (x, y) mm is drawn at (x * scale + left, y * scale + top) px. */
export interface View {
  readonly scale: number
  readonly left: number
  readonly top: number
}

export interface Size {
  readonly width: number
  readonly height: number
}

/** What is left free about a box that is shown whole, px. */
export interface Margin {
  readonly all: number
  /** Above it, where other things may lie over the window. */
  readonly top: number
}

/** The view that shows a box whole, with a margin. */
export function fitBox(box: Box, size: Size, { all, top }: Margin): View {
  const [w, h] = [box.maxX - box.minX, box.maxY - box.minY]
  const room = size.height - top - all
  const scale = Math.max(0.01, Math.min((size.width - 2 * all) / Math.max(w, 1), room / Math.max(h, 1)))
  return {
    scale,
    left: size.width / 2 - (box.minX + w / 2) * scale,
    top: top + room / 2 - (box.minY + h / 2) * scale,
  }
}

/** The view enlarged by `factor` about a place of the window, px, within sensible limits. */
export function zoomAt(view: View, factor: number, [x, y]: readonly [number, number]): View {
  const scale = Math.min(40, Math.max(0.05, view.scale * factor))
  const k = scale / view.scale
  return { scale, left: x - (x - view.left) * k, top: y - (y - view.top) * k }
}

export const pan = (view: View, dx: number, dy: number): View => ({
  ...view,
  left: view.left + dx,
  top: view.top + dy,
})

/** A place of the window (px) on the quilt (mm). */
export const toQuilt = (view: View, [x, y]: readonly [number, number]): [number, number] => [
  (x - view.left) / view.scale,
  (y - view.top) / view.scale,
]

/** A place of the quilt (mm) in the window (px). */
export const toWindow = (view: View, [x, y]: readonly [number, number]): [number, number] => [
  x * view.scale + view.left,
  y * view.scale + view.top,
]

/** What of the quilt the window shows, mm. */
export function visibleBox(view: View, size: Size): Box {
  const [minX, minY] = toQuilt(view, [0, 0])
  const [maxX, maxY] = toQuilt(view, [size.width, size.height])
  return { minX, minY, maxX, maxY }
}
