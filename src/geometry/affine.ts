import type { Point } from './point.ts'

/** x' = a x + c y + e, y' = b x + d y + f (the order that SVG and PDF use). */
export interface Affine {
  readonly a: number
  readonly b: number
  readonly c: number
  readonly d: number
  readonly e: number
  readonly f: number
}

export const IDENTITY: Affine = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 }

export const translation = (x: number, y: number): Affine => ({ ...IDENTITY, e: x, f: y })
export const scaling = (x: number, y = x): Affine => ({ ...IDENTITY, a: x, d: y })

/** Turn by `angle` radians about the origin, from the x axis towards the y axis. */
export function rotation(angle: number): Affine {
  const c = Math.cos(angle)
  const s = Math.sin(angle)
  return { a: c, b: s, c: -s, d: c, e: 0, f: 0 }
}

/** First `first`, then `then`. */
export function compose(first: Affine, then: Affine): Affine {
  return {
    a: then.a * first.a + then.c * first.b,
    b: then.b * first.a + then.d * first.b,
    c: then.a * first.c + then.c * first.d,
    d: then.b * first.c + then.d * first.d,
    e: then.a * first.e + then.c * first.f + then.e,
    f: then.b * first.e + then.d * first.f + then.f,
  }
}

export const applyAffine = (m: Affine, p: Point): Point => [
  m.a * p[0] + m.c * p[1] + m.e,
  m.b * p[0] + m.d * p[1] + m.f,
]

/** Area factor; negative if the map mirrors. */
export const determinant = (m: Affine): number => m.a * m.d - m.b * m.c

/** Whether the map keeps circles circles (turn, mirror, even scale, shift). */
export function isSimilarity(m: Affine): boolean {
  const size = Math.hypot(m.a, m.b)
  const slack = 1e-9 * Math.max(size, 1e-12)
  const same = Math.abs(m.a - m.d) <= slack && Math.abs(m.b + m.c) <= slack
  const mirrored = Math.abs(m.a + m.d) <= slack && Math.abs(m.b - m.c) <= slack
  return same || mirrored
}
