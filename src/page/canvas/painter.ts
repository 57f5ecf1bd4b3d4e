import type { Point } from '../../geometry/point.ts'
import { edgeOf } from '../thread-edge.ts'
import type { Chain, Scene } from '../worker/messages.ts'
import { type ChunkedLine, chunkChain, type Stretch, traceLine } from './chunks.ts'
import { chainsOf } from './close-up.ts'
import { type Size, type View, visibleBox } from './view.ts'

/** What is shown of a scene. */
export interface Layers {
  readonly fabrics: boolean
  readonly seams: boolean
  readonly line: boolean
  readonly areas: boolean
  readonly gaps: boolean
  readonly bobbins: boolean
  readonly photo: boolean
}

/** The colours of the page that the picture borrows. */
export interface Inks {
  readonly ink: string
  readonly paper: string
  readonly accent: string
}

export interface Frame {
  readonly scene: Scene
  readonly view: View
  readonly size: Size
  readonly layers: Layers
  readonly inks: Inks
  /** How far the line is stitched, mm; undefined shows it whole. */
  readonly walked: number | undefined
}

/** Lines thinner than this would be lost, px. */
const LEAST_PX = 0.9
const THREAD_MM = 0.8
/** From this scale on the fine chords are drawn, px per mm. */
const CLOSE = 2.2

/** A picture that is kept as it was drawn, for as long as the view and the scene stay what they were. */
class Sheet {
  readonly canvas = document.createElement('canvas')
  key = ''
  view: View | undefined
  /** How far the line is drawn on it, mm. */
  drawnTo = 0

  get pen(): CanvasRenderingContext2D {
    return this.canvas.getContext('2d')!
  }

  /** Begins anew if what it should show has changed. @returns whether it did */
  renew(key: string, { size, view }: Frame): boolean {
    const ratio = pixelRatio()
    const [w, h] = [Math.round(size.width * ratio), Math.round(size.height * ratio)]
    const isSame = this.key === key && this.canvas.width === w && this.canvas.height === h
    if (isSame) return false
    if (this.canvas.width !== w || this.canvas.height !== h) [this.canvas.width, this.canvas.height] = [w, h]
    this.clear()
    this.key = key
    this.view = view
    this.drawnTo = 0
    return true
  }

  clear(): void {
    this.pen.setTransform(1, 0, 0, 1, 0, 0)
    this.pen.clearRect(0, 0, this.canvas.width, this.canvas.height)
  }

  /** Puts what was drawn at an earlier view where it lies now. */
  putOn(pen: CanvasRenderingContext2D, now: View): void {
    const then = this.view ?? now
    const k = now.scale / then.scale
    const ratio = pixelRatio()
    pen.setTransform(k, 0, 0, k, (now.left - then.left * k) * ratio, (now.top - then.top * k) * ratio)
    pen.drawImage(this.canvas, 0, 0)
    pen.setTransform(1, 0, 0, 1, 0, 0)
  }
}

export const pixelRatio = (): number => Math.min(2, globalThis.devicePixelRatio || 1)

/**
 * Draws scenes on a canvas. Cloth and line are kept on sheets of their own: while the view moves they are only shifted
 * and enlarged, and drawn sharply again when it rests.
 */
export class Painter {
  readonly #cloth = new Sheet()
  readonly #line = new Sheet()
  readonly #done = new Sheet()
  #scene: Scene | undefined
  #chunked = new Map<Chain, ChunkedLine>()
  #scenes = 0

  constructor(readonly canvas: HTMLCanvasElement) {}

  /** Draws a frame. `isMoving`: the view is about to change again, so that a quick picture will do. */
  paint(frame: Frame, isMoving: boolean): void {
    const ratio = pixelRatio()
    const { size, view, layers, walked } = frame
    const [w, h] = [Math.round(size.width * ratio), Math.round(size.height * ratio)]
    if (this.canvas.width !== w || this.canvas.height !== h) [this.canvas.width, this.canvas.height] = [w, h]
    this.#begin(frame.scene)
    if (!isMoving || !this.#cloth.view || this.#cloth.canvas.width !== w) this.#draw(frame)
    const pen = this.canvas.getContext('2d')!
    pen.setTransform(1, 0, 0, 1, 0, 0)
    pen.clearRect(0, 0, w, h)
    this.#cloth.putOn(pen, view)
    if (!layers.line) return
    pen.globalAlpha = walked === undefined ? 1 : 0.22
    this.#line.putOn(pen, view)
    pen.globalAlpha = 1
    if (walked === undefined) return
    if (isMoving && this.#done.view) this.#done.putOn(pen, view)
    else {
      this.#drawDone(frame, walked)
      this.#done.putOn(pen, view)
    }
  }

  #begin(scene: Scene): void {
    if (this.#scene === scene) return
    this.#scene = scene
    this.#chunked.clear()
    this.#scenes++
  }

  #keyOf({ view, inks }: Frame): string {
    return [this.#scenes, view.scale, view.left, view.top, inks.ink, inks.paper].join(' ')
  }

  #draw(frame: Frame): void {
    const key = this.#keyOf(frame)
    const { fabrics, seams } = frame.layers
    if (this.#cloth.renew(`${key} ${fabrics} ${seams}`, frame)) drawCloth(this.#cloth.pen, frame)
    if (!frame.layers.line || !this.#line.renew(`${key} ${finenessOf(frame)}`, frame)) return
    const whole = { begin: 0, end: Number.POSITIVE_INFINITY }
    for (const [line, colour] of this.#linesFor(frame))
      drawThread(this.#line.pen, line, { frame, stretch: whole, colour })
    drawTravel(this.#line.pen, frame)
  }

  /** The lines as finely as they are seen; they are cut in chunks when they are first drawn. */
  #linesFor({ scene, view }: Frame): readonly (readonly [ChunkedLine, string])[] {
    const chains = view.scale >= CLOSE ? chainsOf(scene) : scene.lines
    return chains.map((chain, i) => {
      const chunked = this.#chunked.get(chain) ?? chunkChain(chain)
      this.#chunked.set(chain, chunked)
      return [chunked, scene.lines[i]!.colour]
    })
  }

  /** The line as far as it is stitched: what is new is added, and after a step back it is drawn anew. */
  #drawDone(frame: Frame, walked: number): void {
    const sheet = this.#done
    sheet.renew(`${this.#keyOf(frame)} ${finenessOf(frame)}`, frame)
    if (walked < sheet.drawnTo) {
      sheet.clear()
      sheet.drawnTo = 0
    }
    const stretch = { begin: Math.max(0, sheet.drawnTo - 1), end: walked }
    for (const [line, colour] of this.#linesFor(frame))
      drawThread(sheet.pen, line, { frame, stretch, colour })
    sheet.drawnTo = walked
  }
}

/** Whether the finest chords are wanted and have come. */
const finenessOf = ({ scene, view }: Frame): string =>
  view.scale >= CLOSE && chainsOf(scene) !== scene.lines ? 'fine' : 'coarse'

function placePen(pen: CanvasRenderingContext2D, view: View): void {
  const ratio = pixelRatio()
  const scale = view.scale * ratio
  pen.setTransform(scale, 0, 0, scale, view.left * ratio, view.top * ratio)
}

function trace(pen: CanvasRenderingContext2D, points: readonly Point[]): void {
  pen.beginPath()
  for (const [x, y] of points) pen.lineTo(x, y)
  pen.closePath()
}

function drawCloth(pen: CanvasRenderingContext2D, { scene, view, layers, inks }: Frame): void {
  const { quilt } = scene
  placePen(pen, view)
  const fill = (points: readonly Point[], colour: string) => {
    trace(pen, points)
    pen.fillStyle = colour
    pen.fill()
  }
  if (layers.fabrics) {
    fill(quilt.edge, scene.bindingFabric)
    for (const band of [...quilt.bands].reverse()) fill(quilt.rings[band.index + 1]!, band.fabric)
    fill(quilt.rings[0]!, quilt.centreFabric)
    for (const { outline, fabric } of quilt.patches ?? []) fill(outline, fabric)
  } else if (!layers.photo) fill(quilt.edge, inks.paper)
  pen.lineWidth = 0.8 / view.scale
  pen.strokeStyle = layers.fabrics ? 'rgba(40, 30, 25, 0.35)' : inks.ink
  if (layers.seams) {
    for (const { points } of quilt.seams) {
      pen.beginPath()
      for (const [x, y] of points) pen.lineTo(x, y)
      pen.stroke()
    }
  }
  trace(pen, quilt.edge)
  pen.stroke()
}

/** The thread, over a faint edge so that one of the fabric's own colour can still be followed. */
function drawThread(
  pen: CanvasRenderingContext2D,
  line: ChunkedLine,
  { frame, stretch, colour }: { frame: Frame; stretch: Stretch; colour: string },
): void {
  const { view, size } = frame
  placePen(pen, view)
  pen.lineJoin = 'round'
  pen.lineCap = 'round'
  pen.beginPath()
  if (!traceLine(pen, line, { ...stretch, sight: visibleBox(view, size) })) return
  const width = Math.max(LEAST_PX / view.scale, THREAD_MM)
  if (view.scale > 0.45) {
    pen.lineWidth = width * 1.9
    pen.strokeStyle = edgeOf(colour, 0.3)
    pen.stroke()
  }
  pen.lineWidth = width
  pen.strokeStyle = colour
  pen.stroke()
}

/** Travel in seams, dashed over the thread. */
function drawTravel(pen: CanvasRenderingContext2D, { scene, view, inks }: Frame): void {
  placePen(pen, view)
  pen.strokeStyle = inks.accent
  pen.lineWidth = Math.max(1.4 / view.scale, 1.1)
  pen.setLineDash([4 / view.scale, 3 / view.scale])
  for (const { kind, thread, points } of scene.parts) {
    if (kind !== 'travel') continue
    const { xy } = scene.lines[thread]!
    pen.beginPath()
    for (let i = points[0]; i <= points[1]; i++) pen.lineTo(xy[2 * i]!, xy[2 * i + 1]!)
    pen.stroke()
  }
  pen.setLineDash([])
}
