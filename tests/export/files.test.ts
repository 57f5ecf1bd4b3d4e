import { describe, expect, it } from 'vitest'
import { fileStem, machineFiles } from '../../src/export/files.ts'
import { gcodeFaults } from '../support/check-gcode.ts'
import { readGcode } from '../support/read-gcode.ts'
import { harbourDrawing, lopsidedDrawing } from '../support/sample-drawings.ts'

describe('the files of a machine path', () => {
  it('are the path and its bounds, with the unit in the name', async () => {
    const files = await machineFiles('dxf', lopsidedDrawing(), { units: 'mm' })
    expect(files.map((f) => f.name)).toEqual(['lopsided-sample-mm.dxf', 'lopsided-sample-mm-bounds.dxf'])
  })

  it('are a pair for each frame pass', async () => {
    const drawing = { ...harbourDrawing(), passes: [[0, 1, 2], [], [3, 4, 5, 6, 7]] }
    const files = await machineFiles('gcode', drawing)
    expect(files.map((f) => f.name)).toEqual([
      'harbour-raffle-quilt-pass-1-in.ngc',
      'harbour-raffle-quilt-pass-1-in-bounds.ngc',
      'harbour-raffle-quilt-pass-2-in.ngc',
      'harbour-raffle-quilt-pass-2-in-bounds.ngc',
    ])
    for (const { content } of files) expect(gcodeFaults(content as string)).toEqual([])
  })

  it('never start the needle on the run round the bounds, and go round what the path touches', async () => {
    const [path, bounds] = (await machineFiles('gcode', harbourDrawing())).map((f) => f.content as string)
    expect(bounds).not.toMatch(/^M3/m)
    expect(bounds).toMatch(/needle up/)
    const [run, line] = [readGcode(bounds!), readGcode(path!)]
    const extent = (moves: typeof run, axis: 0 | 1) => {
      const values = moves.map((m) => m.to[axis])
      return [Math.min(...values), Math.max(...values)] as const
    }
    for (const axis of [0, 1] as const) {
      expect(extent(run, axis)[0]).toBeCloseTo(extent(line, axis)[0], 0)
      expect(extent(run, axis)[1]).toBeCloseTo(extent(line, axis)[1], 0)
    }
  })

  it('have names that any file system takes', () => {
    expect(fileStem('../..\\CON: "\u{1F9F5}" R\u00e9sum\u00e9?*')).toBe('con-resume')
    expect(fileStem('\u2603')).toBe('quilt')
    expect(fileStem("Keeper's window")).toBe('keepers-window')
    expect(fileStem('x'.repeat(300))).toHaveLength(60)
  })
})
