import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DrawingRefusal } from '../../src/drawn/drawing-fault.ts'
import { readTransform } from '../../src/drawn/read-transform.ts'
import { applyAffine } from '../../src/geometry/affine.ts'
import type { Point } from '../../src/geometry/point.ts'

/** The six numbers of a transform, in the order of SVG's matrix(). */
const numbers = (text: string): number[] => Object.values(readTransform(text, 0))

const faultOf = (text: string, offset = 0) => {
  try {
    readTransform(text, offset)
  } catch (error) {
    if (error instanceof DrawingRefusal) return error.fault
    throw error
  }
  return undefined
}

const angle = fc.integer({ min: -400, max: 400 })
const place = fc.integer({ min: -50, max: 50 })

describe('a transform', () => {
  // The matrices of CSS Transforms 1, 8, "Mathematical description of transform functions".
  it.each([
    ['', [1, 0, 0, 1, 0, 0]],
    ['matrix(1 2 3 4 5 6)', [1, 2, 3, 4, 5, 6]],
    ['translate(7)', [1, 0, 0, 1, 7, 0]],
    ['translate(7, -3)', [1, 0, 0, 1, 7, -3]],
    ['scale(2)', [2, 0, 0, 2, 0, 0]],
    ['scale(2,.5)', [2, 0, 0, 0.5, 0, 0]],
    ['rotate(90)', [0, 1, -1, 0, 0, 0]],
    ['rotate(30)', [Math.sqrt(3) / 2, 0.5, -0.5, Math.sqrt(3) / 2, 0, 0]],
    ['rotate(90 10 0)', [0, 1, -1, 0, 10, -10]],
    ['skewX(45)', [1, 0, 1, 1, 0, 0]],
    ['skewY(45)', [1, 1, 0, 1, 0, 0]],
    [' ,\n translate( 1e1\t, 2 ) ', [1, 0, 0, 1, 10, 2]],
  ])('%j is %j', (text, expected) => {
    const found = numbers(text)
    expected.forEach((n, i) => {
      expect(found[i]).toBeCloseTo(n, 12)
    })
  })

  // The nested example of SVG 1.1, 7.5 (value from memory: [.707 -.707 .707 .707 255.03 111.21], reckoned there with .707).
  it('does the step written last first', () => {
    const found = numbers('translate(50,90) rotate(-45) translate(130,160)')
    const half = Math.SQRT1_2
    const known = [half, -half, half, half, 255.03, 111.21]
    known.forEach((n, i) => {
      expect(Math.abs(found[i]! - n)).toBeLessThan(0.04)
    })
  })

  it('that turns about a place leaves that place alone, and every distance from it', () => {
    fc.assert(
      fc.property(angle, place, place, place, place, (turn, x, y, px, py) => {
        const map = readTransform(`rotate(${turn} ${x},${y})`, 0)
        const [fixed, moved] = [applyAffine(map, [x, y]), applyAffine(map, [px, py])]
        expect(Math.hypot(fixed[0] - x, fixed[1] - y)).toBeLessThan(1e-9)
        expect(Math.hypot(moved[0] - x, moved[1] - y)).toBeCloseTo(Math.hypot(px - x, py - y), 9)
      }),
      { seed: 1, numRuns: 100 },
    )
  })

  it('that slants keeps the rows, or the columns, where they are', () => {
    fc.assert(
      fc.property(fc.integer({ min: -80, max: 80 }), place, place, (turn, x, y) => {
        const tangent = Math.tan((turn * Math.PI) / 180)
        const at = (text: string): Point => applyAffine(readTransform(text, 0), [x, y])
        const [along, down] = [at(`skewX(${turn})`), at(`skewY(${turn})`)]
        expect(along[1]).toBe(y)
        expect(along[0]).toBeCloseTo(x + y * tangent, 9)
        expect(down[0]).toBe(x)
        expect(down[1]).toBeCloseTo(y + x * tangent, 9)
      }),
      { seed: 2, numRuns: 60 },
    )
  })

  it.each([
    'wobble(2)',
    'matrix(1 2 3 4 5)',
    'matrix(1 2 3 4 5 6 7)',
    'translate()',
    'translate(1 2 3)',
    'scale()',
    'scale(1 2 3)',
    'rotate()',
    'rotate(1 2)',
    'rotate(1 2 3 4)',
    'skewX()',
    'skewX(1 2)',
    'skewY()',
    'skewY(1 2)',
    'rotate(1px)',
    'translate(1000001)',
    'translate(NaN)',
    'translate(1 2) and more',
    'translate(1 2',
  ])('%s is refused where the element stands', (text) => {
    expect(faultOf(text, 17)).toMatchObject({
      code: 'drawing/transform',
      offset: 17,
      hint: 'save the drawing without transforms',
    })
  })
})
