import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { drawnMotif } from '../../src/drawn/drawn-motif.ts'
import { readDrawnRepeat } from '../../src/drawn/read-repeat.ts'
import { randomDrawing } from '../support/arbitrary-drawing.ts'
import { assertValidDrawn, defaultCases } from '../support/motif-laws.ts'
import { dice, mutateText } from './mutate.ts'

/** Seconds of work that one drawing may take. */
const MOST_SECONDS = 2
const SUITS = { min: 12.7, max: 200 }
const SAMPLE = readFileSync(new URL('../../samples/breakwater.svg', import.meta.url), 'utf8')

/** A drawing: a sound one, or one that is broken as text. The same seed gives the same text. */
export function drawingOf(seed: number, index: number): string {
  const roll = dice(seed * 1_000_003 + index)
  const { path } = fc.sample(randomDrawing, { seed: seed * 1_000_003 + index, numRuns: 1 })[0]!
  const sound = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 30"><g transform="scale(2)"><path d="${path}"/></g></svg>`
  switch (index % 4) {
    case 0:
      return mutateText(SAMPLE, roll)
    case 1:
      return mutateText(sound, roll)
    case 2:
      return sound.replace(path, mutateText(path, roll))
    default:
      return sound
  }
}

/** Reads one drawing, and draws what was read at two widths. What is found wrong is returned. */
export function tryDrawing(text: string): string[] {
  const before = process.cpuUsage()
  const found: string[] = []
  try {
    const read = readDrawnRepeat(text)
    if ('shape' in read) {
      const motif = drawnMotif({ name: 'own', shape: read.shape, suits: SUITS })
      for (const { strip, values } of defaultCases(motif, 2))
        assertValidDrawn(motif, strip, motif.draw(strip, values))
    } else if (/\p{Cc}|undefined|\[object|NaN|\bat .*:\d+:\d+\)?$/u.test(`${read.message}${read.hint ?? ''}`))
      found.push(`says ${JSON.stringify(read)}`)
  } catch (error) {
    found.push(`threw ${error instanceof Error ? `${error.name}: ${error.message}` : String(error)}`)
  }
  const { user, system } = process.cpuUsage(before)
  const seconds = (user + system) / 1e6
  if (seconds > MOST_SECONDS) found.push(`took ${seconds.toFixed(1)} s`)
  return found
}

/** Runs a range of cases. */
export function fuzzDrawings(
  seed: number,
  from: number,
  to: number,
): { case: number; what: string; text: string }[] {
  const cases = Array.from({ length: to - from }, (_, i) => from + i)
  return cases.flatMap((index) => {
    const text = drawingOf(seed, index)
    return tryDrawing(text).map((what) => ({ case: index, what, text }))
  })
}
