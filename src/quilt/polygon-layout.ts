import type { Point } from '../geometry/point.ts'
import { boundsOf } from '../geometry/stroke.ts'
import { assembleQuilt, type BandSize, type Sides } from './layout.ts'
import { offsetOutline, onPointOutline, regularOutline, shiftOutline } from './outline.ts'
import type { Quilt } from './quilt.ts'
import { settingOutline } from './setting.ts'

/** A centre that is no upright rectangle. Sizes are finished, mm. */
export type CentreShape =
  /** Level side on top; `across` is twice the distance from the middle to a side. */
  | { readonly kind: 'regular'; readonly sides: number; readonly across: number }
  /** A rectangle that stands on a corner: `width` runs up to the right, `height` down to the right. */
  | { readonly kind: 'on-point'; readonly width: number; readonly height: number }

/** A band that is equally wide on all sides; round an upright outline each side may have its own width. */
export type PolygonBand = Omit<BandSize, 'width'> & { readonly width: number | Sides }

export interface PolygonSize {
  readonly centre: { readonly shape: CentreShape; readonly fabric: string }
  /** From the inside out. A band of setting triangles round an outline on point makes it upright; its width follows. */
  readonly bands: readonly PolygonBand[]
  /** What the binding covers on the front, mm. */
  readonly binding: number
}

/**
 * Lays bands round a centre that is a regular polygon or stands on point.
 *
 * @returns mm; the origin is the top left corner of the box round the binding. Sides run clockwise from the top one; on
 *   point, from the upper left one
 * @throws PlanError `quilt/too-few-sides`
 */
export function layOutPolygon(size: PolygonSize): Quilt {
  const rings: Point[][] = [centreOutline(size.centre.shape)]
  for (const band of size.bands) rings.push(outlineRound(rings.at(-1)!, band))
  const edge = offsetOutline(rings.at(-1)!, size.binding)
  const { minX, minY } = boundsOf(edge)
  const home = (points: readonly Point[]) => shiftOutline(points, [-minX, -minY])
  return assembleQuilt(rings.map(home), home(edge), {
    centreFabric: size.centre.fabric,
    bands: size.bands,
  })
}

function centreOutline(shape: CentreShape): Point[] {
  switch (shape.kind) {
    case 'regular':
      return regularOutline(shape.sides, shape.across)
    case 'on-point':
      return onPointOutline(shape.width, shape.height)
  }
}

function outlineRound(inner: readonly Point[], { width, isSetting }: PolygonBand): Point[] {
  if (isSetting) return settingOutline(inner)
  return offsetOutline(
    inner,
    typeof width === 'number' ? width : [width.top, width.right, width.bottom, width.left],
  )
}
