import { describe, expect, it } from 'vitest'
import { drawingOf, fuzzDrawings, tryDrawing } from './svg-motif.ts'

describe('500 generated and broken drawings', () => {
  it('are read and drawn, or refused in words', () => {
    expect(fuzzDrawings(9, 0, 500)).toEqual([])
  }, 120_000)

  it('are the same for the same seed', () => {
    for (const index of [0, 1, 2, 3]) expect(drawingOf(5, index)).toBe(drawingOf(5, index))
    expect(drawingOf(5, 0)).not.toBe(drawingOf(6, 0))
  })
})

describe('the fuzz of drawings itself', () => {
  it('sees what is not a refusal in words', () => {
    expect(tryDrawing(undefined as never)).toEqual([expect.stringMatching(/^threw TypeError: /)])
  })
})
