import { describe, expect, it } from 'vitest'
import { fuzz, inputOf, tryInput } from './fuzz.ts'

describe('500 generated and broken plan files', () => {
  it('are read, or refused in words', async () => {
    expect(await fuzz({ seed: 7, from: 0, to: 480, planEvery: Number.POSITIVE_INFINITY })).toEqual([])
  }, 60_000)

  it('are planned and exported in every format if they are sound', async () => {
    expect(await fuzz({ seed: 8, from: 0, to: 80, planEvery: 20 })).toEqual([])
  }, 120_000)

  it('are the same for the same seed', () => {
    for (const index of [0, 1, 2, 3]) expect(inputOf(5, index)).toBe(inputOf(5, index))
    expect(inputOf(5, 0)).not.toBe(inputOf(6, 0))
  })
})

describe('the fuzz itself', () => {
  it('sees what is not a refusal in words', async () => {
    const before = String.prototype.charCodeAt
    // A reader that breaks is what it is there to find.
    String.prototype.charCodeAt = () => {
      throw new TypeError('broken')
    }
    try {
      expect(await tryInput('centre: {}', false)).toEqual([expect.stringMatching(/^threw TypeError: broken/)])
    } finally {
      String.prototype.charCodeAt = before
    }
  })
})
