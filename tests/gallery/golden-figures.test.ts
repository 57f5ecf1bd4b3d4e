import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { bandFigure } from '../../src/gallery/band-figure.ts'
import type { Figure } from '../../src/gallery/figure.ts'
import { figureSvg } from '../../src/gallery/figure-svg.ts'
import { centreEntry, cornerEntry } from '../../src/gallery/gallery-entries.ts'
import type { Motif } from '../../src/motif/contract.ts'
import { defaultValues } from '../../src/plan/settle-filler.ts'

// What the gallery draws, pinned. After a change that is meant, look at the gallery again and write the figures anew:
// PIN=1 npx vitest run tests/gallery/golden-figures.test.ts

const folder = new URL('../data/motifs/', import.meta.url)

/** A motif at the middle of its widths, in ratio. */
function middleFigure(name: string, motif: Motif): Figure {
  const width = Math.sqrt(motif.suits.min * motif.suits.max)
  return bandFigure({ name, motif, values: defaultValues(motif.params, width) }, width)
}

/** A motif at its middle width, straight and round a corner; numbers to a hundredth of a mm. */
const pinned: Readonly<Record<string, () => Figure>> = Object.fromEntries([
  ...Object.entries(LIBRARY.motifs).map(([name, motif]) => [name, () => middleFigure(name, motif)]),
  ...Object.entries(LIBRARY.centres).map(([name, filler]) => [
    `centre-${name}`,
    () => centreEntry(name, filler).figures[0]!,
  ]),
  ...Object.entries(LIBRARY.corners).map(([name, motif]) => [
    `corner-${name}`,
    () => cornerEntry(name, motif).figures[1]!,
  ]),
])

const svgOf = (figure: Figure): string =>
  `${figureSvg(figure, 'xmlns="http://www.w3.org/2000/svg" fill="none" stroke="#223"').replaceAll('M', '\nM')}\n`

/** The numbers and letters of an SVG: numbers may differ by a rounding. */
const partsOf = (svg: string): { words: string; numbers: number[] } => ({
  words: svg.replace(/-?\d+(\.\d+)?/g, '#'),
  numbers: [...svg.matchAll(/-?\d+(\.\d+)?/g)].map(([number]) => Number(number)),
})

function expectAlike(svg: string, golden: string): void {
  const [ours, theirs] = [partsOf(svg), partsOf(golden)]
  expect(ours.words).toBe(theirs.words)
  const furthest = Math.max(...ours.numbers.map((number, i) => Math.abs(number - theirs.numbers[i]!)))
  expect(furthest).toBeLessThanOrEqual(0.02)
}

describe('the golden figure', () => {
  it.each(Object.keys(pinned))('of %s is what is drawn', (name) => {
    const svg = svgOf(pinned[name]!())
    const file = new URL(`${name}.svg`, folder)
    if (process.env.PIN) writeFileSync(file, svg)
    expectAlike(svg, readFileSync(file, 'utf8'))
  })

  it('stands for every filler, and no other stands there', () => {
    expect(readdirSync(folder).sort()).toEqual(
      Object.keys(pinned)
        .map((name) => `${name}.svg`)
        .sort(),
    )
  })

  it('tells a moved point and a missing one', () => {
    const golden = readFileSync(new URL('wave.svg', folder), 'utf8')
    const moved = golden.replace(/(\d+)\.(\d\d) /, (_, whole, rest) => `${Number(whole) + 1}.${rest} `)
    expect(() => expectAlike(moved, golden)).toThrow()
    expect(() => expectAlike(golden.replace(/C[^CM]*/, ''), golden)).toThrow()
  })
})
