import { describe, expect, it } from 'vitest'
import type { Drawing } from '../../src/export/drawing.ts'
import { exportDrawing } from '../../src/export/index.ts'
import { passDrawings } from '../../src/export/path/passes.ts'
import { strokeLength } from '../../src/geometry/stroke.ts'
import { harbourDrawing, lopsidedDrawing } from '../support/sample-drawings.ts'

const lengthOf = (drawing: Drawing): number =>
  drawing.lines.reduce((sum, l) => sum + l.parts.reduce((s, p) => s + strokeLength(p.stroke), 0), 0)

describe('frame passes', () => {
  it('share out the whole line, each with the areas of its pass only', () => {
    const drawing = {
      ...harbourDrawing(),
      passes: [
        [7, 0, 1, 2],
        [3, 4, 5, 6],
      ],
    }
    const passes = passDrawings(drawing)
    expect(passes).toHaveLength(2)
    expect(passes.reduce((sum, p) => sum + lengthOf(p), 0)).toBeCloseTo(lengthOf(drawing), 6)
    // Areas 0 to 2 are one unbroken stretch, area 7 another
    expect(passes.map((p) => p.lines.length)).toEqual([2, 1])
    for (const [i, pass] of passes.entries())
      for (const line of pass.lines)
        for (const part of line.parts) expect(drawing.passes[i]).toContain(part.area)
  })

  it('are the drawing itself on a machine without passes', () => {
    const drawing = lopsidedDrawing()
    expect(passDrawings(drawing)).toEqual([drawing])
  })

  it('take their needle points along', async () => {
    const stitches = [
      [
        { at: [61, 43], part: 0 },
        { at: [100, 43], part: 0 },
        { at: [201, 43], part: 2 },
        { at: [201, 91], part: 2 },
        { at: [243, 131], part: 2 },
      ] as const,
    ]
    const [, second] = passDrawings({ ...lopsidedDrawing(), stitches, passes: [[0], [1]] })
    const csv = (await exportDrawing('csv', second!, {
      points: 'stitches',
      units: 'mm',
      yAxis: 'down',
      origin: 'top-left',
    })) as string
    expect(csv.split('\r\n').filter((r) => /^\d/.test(r))).toEqual([
      '1,1,201,43,up,fill,rope,2',
      '1,2,201,91,down,fill,rope,2',
      '1,3,243,131,down,fill,rope,2',
    ])
  })
})

describe('one point a stitch', () => {
  it('is refused when there are no stitches', async () => {
    await expect(exportDrawing('csv', lopsidedDrawing(), { points: 'stitches' })).rejects.toThrow(
      /no stitches/,
    )
  })
})
