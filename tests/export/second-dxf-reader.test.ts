import { parseString } from 'dxf'
import { expect, it } from 'vitest'
import { exportDrawing } from '../../src/export/index.ts'
import { strokeLength } from '../../src/geometry/stroke.ts'
import { MM_PER } from '../../src/units.ts'
import { harbourDrawing, lopsidedDrawing } from '../support/sample-drawings.ts'

interface Polyline {
  readonly type: string
  readonly vertices: readonly { readonly x: number; readonly y: number }[]
}

/** A second reader that we did not write, beside dxf-parser: the package dxf. */
const polylinesOf = (text: string): readonly Polyline[] => parseString(text).entities as readonly Polyline[]

it.each([
  ['a lopsided drawing', lopsidedDrawing()],
  ['a bordered quilt', harbourDrawing()],
])('dxf, a second independent reader, finds %s as long as the plan and where it ends', async (_, drawing) => {
  const text = (await exportDrawing('dxf', drawing, { units: 'mm', deviation: 0.01 })) as string
  const lines = polylinesOf(text)
  expect(lines.every(({ type }) => type === 'POLYLINE')).toBe(true)
  expect(lines).toHaveLength(drawing.lines.length)
  lines.forEach(({ vertices }, i) => {
    const length = vertices
      .slice(1)
      .reduce((sum, v, k) => sum + Math.hypot(v.x - vertices[k]!.x, v.y - vertices[k]!.y), 0)
    const planned = drawing.lines[i]!.parts.reduce((sum, { stroke }) => sum + strokeLength(stroke), 0)
    expect(Math.abs(length / planned - 1)).toBeLessThan(1e-3)
    // The origin is the quilt's bottom left corner and y goes up.
    const [x, y] = drawing.lines[i]!.parts[0]!.stroke.start
    expect(vertices[0]!.x).toBeCloseTo(x / MM_PER.mm, 2)
    expect(vertices[0]!.y).toBeCloseTo(drawing.quilt.heightMm - y, 2)
  })
})
