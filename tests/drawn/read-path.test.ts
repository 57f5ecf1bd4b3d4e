import fc from 'fast-check'
import { svgPathProperties } from 'svg-path-properties'
import { describe, expect, it } from 'vitest'
import { DrawingRefusal } from '../../src/drawn/drawing-fault.ts'
import { readPath } from '../../src/drawn/read-path.ts'
import { distanceToLine } from '../../src/geometry/point.ts'
import { endOf, flattenStroke, strokeLength } from '../../src/geometry/stroke.ts'

const number = fc.double({ min: -50, max: 50, noNaN: true }).map((v) => Number(v.toFixed(2)))
const many = (count: number) => fc.array(number, { minLength: count, maxLength: count })
const separator = fc.constantFrom(' ', ',', ' , ', '\n')

/** Any command but M and Z, absolute or relative, once or twice. */
const command = fc
  .tuple(
    fc.constantFrom('L', 'H', 'V', 'C', 'S', 'Q', 'T'),
    fc.boolean(),
    separator,
    fc.integer({ min: 1, max: 2 }),
  )
  .chain(([letter, isRelative, gap, times]) => {
    const counts: Record<string, number> = { L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2 }
    // T after anything but a quadratic curve is read in two ways.
    if (letter === 'T') return many(6).map((n) => `Q${n.slice(0, 4).join(gap)}T${n.slice(4).join(gap)}`)
    return many(counts[letter]! * times).map(
      (n) => `${isRelative ? letter.toLowerCase() : letter}${n.join(gap)}`,
    )
  })

const arcCommand = fc
  .tuple(many(2), fc.nat(60), fc.constantFrom('0 0', '0 1', '1 0', '1 1'), many(2))
  .map(
    ([radii, turn, flags, to]) =>
      `A${Math.abs(radii[0]!) + 1} ${Math.abs(radii[1]!) + 1} ${turn} ${flags} ${to.join(' ')}`,
  )

const refusalOf = (path: string) => {
  try {
    readPath(path)
  } catch (error) {
    if (error instanceof DrawingRefusal) return error.fault
    throw error
  }
  return undefined
}

describe('path data', () => {
  // svg-path-properties reads the same texts, arcs in 300 chords.
  it('is as long, and ends where, another reader finds', () => {
    fc.assert(
      fc.property(many(2), fc.array(command, { minLength: 1, maxLength: 6 }), (start, rest) => {
        const text = `M${start.join(' ')}${rest.join('')}`
        const [part] = readPath(text)
        const theirs = new svgPathProperties(text)
        const length = theirs.getTotalLength()
        if (!(length > 0)) return
        expect(strokeLength(part!.stroke)).toBeGreaterThan(length * 0.995 - 0.1)
        expect(strokeLength(part!.stroke)).toBeLessThan(length * 1.005 + 0.1)
        const end = theirs.getPointAtLength(length)
        expect(Math.hypot(endOf(part!.stroke)[0] - end.x, endOf(part!.stroke)[1] - end.y)).toBeLessThan(0.3)
      }),
      { seed: 1, numRuns: 150 },
    )
  })

  it('passes where another reader finds an arc, whatever its flags', () => {
    fc.assert(
      fc.property(many(2), arcCommand, (start, arc) => {
        const text = `M${start.join(' ')}${arc}`
        const points = flattenStroke(readPath(text)[0]!.stroke, 0.01)
        if (points.length < 2) return
        const theirs = new svgPathProperties(text)
        for (const share of [0.2, 0.5, 0.8]) {
          const { x, y } = theirs.getPointAtLength(share * theirs.getTotalLength())
          const near = Math.min(...points.slice(1).map((p, i) => distanceToLine([x, y], points[i]!, p)))
          expect(near).toBeLessThan(0.1)
        }
      }),
      { seed: 2, numRuns: 100 },
    )
  })

  // 4 a E(m), m = 1 - b^2 / a^2 (NIST DLMF 19.30).
  it.each([
    [2, 1, 9.68844822055],
    [3, 2, 15.8654395893],
    [5, 3, 25.5269988634],
    [4, 1.5, 18.1834313916],
  ])('draws an ellipse of half axes %d and %d in two arcs that is %d round', (a, b, length) => {
    const [part] = readPath(`M0 0A${a} ${b} 0 0 1 ${2 * a} 0A${a} ${b} 0 0 1 0 0`)
    expect(Math.abs(strokeLength(part!.stroke) / length - 1)).toBeLessThan(2e-4)
  })

  it.each([
    // The examples of SVG 2, 9.3: the same triangle and curve, written shorter (from memory of the chapter).
    ['M100 100L200 200', 'M100 100 200 200'],
    ['M 100 -200', 'M100-200'],
    ['M 0.6 0.5L1 0.5', 'M0.6.5L1 .5'],
    ['M0 0C1 1 2 2 3 3C4 4 5 5 6 6', 'm0 0c1 1 2 2 3 3 1 1 2 2 3 3'],
    ['M5 5A2 3 0 0 1 9 9', 'M5 5a2 3 0 014 4'],
    ['M1e1 0L20 0', 'M10,0,20,0'],
  ])('%s is %s', (one, other) => {
    expect(readPath(other)).toMatchObject(
      JSON.parse(JSON.stringify(readPath(one).map(({ stroke }) => ({ stroke })))),
    )
  })

  it('begins a new part after a move and after a close', () => {
    expect(readPath('M0 0L1 1M5 5L6 6ZL9 9').map(({ stroke, isClosed }) => [stroke.start, isClosed])).toEqual(
      [
        [[0, 0], false],
        [[5, 5], true],
        [[5, 5], false],
      ],
    )
  })

  it.each([
    ['', undefined],
    ['L1 1', 0],
    ['M', 1],
    ['M1', 2],
    ['M1 1L2', 6],
    ['M1 1X2 2', 4],
    ['M1 1 L2,,3', 8],
    ['M1 1A1 1 0 2 0 5 5', 11],
    ['M1 1L1e99 0', 5],
    ['M1 1L1 NaN', 7],
    ['M0 0L\u0007 1', 5],
  ])('%j is refused at character %s', (path, offset) => {
    expect(refusalOf(path)?.offset).toBe(offset)
  })

  it('of very many curves is refused', () => {
    expect(refusalOf(`M0 0${'l1 1 1-1'.repeat(501)}`)?.code).toBe('drawing/too-many-points')
  })
})
