import { type Affine, compose, IDENTITY, rotation, scaling, translation } from '../geometry/affine.ts'
import { refuseDrawing } from './drawing-fault.ts'
import { DRAWING_LIMITS } from './drawing-limits.ts'

const STEP = /[ \t\n\r,]*(matrix|translate|scale|rotate|skewX|skewY)[ \t\n\r]*\(([^()]*)\)[ \t\n\r]*/y

const degrees = (angle: number): number => (angle * Math.PI) / 180

/** What each step takes, by how many numbers it has. */
const STEPS: Readonly<Record<string, (...n: number[]) => Affine | undefined>> = {
  matrix: (...n) =>
    n.length === 6 ? { a: n[0]!, b: n[1]!, c: n[2]!, d: n[3]!, e: n[4]!, f: n[5]! } : undefined,
  translate: (...n) => (n.length === 1 || n.length === 2 ? translation(n[0]!, n[1] ?? 0) : undefined),
  scale: (...n) => (n.length === 1 || n.length === 2 ? scaling(n[0]!, n[1]) : undefined),
  rotate: (...n) => {
    if (n.length === 1) return rotation(degrees(n[0]!))
    if (n.length !== 3) return undefined
    const about = compose(translation(-n[1]!, -n[2]!), rotation(degrees(n[0]!)))
    return compose(about, translation(n[1]!, n[2]!))
  },
  skewX: (...n) => (n.length === 1 ? { ...IDENTITY, c: Math.tan(degrees(n[0]!)) } : undefined),
  skewY: (...n) => (n.length === 1 ? { ...IDENTITY, b: Math.tan(degrees(n[0]!)) } : undefined),
}

/**
 * Reads an SVG `transform` attribute.
 *
 * @param offset  where the element stands, for a refusal
 * @throws DrawingRefusal `drawing/transform`
 * @source SVG 2, 8.5 and CSS Transforms 1, 8: the step written last is done first
 */
export function readTransform(text: string, offset: number): Affine {
  let map = IDENTITY
  let at = 0
  while (text.slice(at).trim() !== '') {
    STEP.lastIndex = at
    const [all, name, written] = STEP.exec(text) ?? []
    const numbers = (written ?? '')
      .split(/[ \t\n\r,]+/)
      .filter((part) => part !== '')
      .map(Number)
    const step =
      name !== undefined && numbers.every((n) => Math.abs(n) <= DRAWING_LIMITS.number)
        ? STEPS[name]!(...numbers)
        : undefined
    if (all === undefined || !step)
      refuseDrawing('transform', 'a transform of the drawing cannot be read', {
        hint: 'save the drawing without transforms',
        offset,
      })
    map = compose(step!, map)
    at += all!.length
  }
  return map
}
