import { describe, expect, it } from 'vitest'
import { tapeText } from '../../src/length-text.ts'
import { type CuttingJob, cuttingList } from '../../src/quilt/cutting/cutting-list.ts'
import { cuttingText } from '../../src/quilt/cutting/cutting-text.ts'
import { patchCut, rowsLength } from '../../src/quilt/cutting/patch-cuts.ts'
import { stripsFor, upToBolt } from '../../src/quilt/cutting/tape.ts'
import type { BandSize, QuiltSize } from '../../src/quilt/layout.ts'
import { PIECED_UNITS } from '../../src/quilt/pieced-unit.ts'
import type { Corners } from '../../src/quilt/quilt.ts'
import { inches, MM_PER, toInches } from '../../src/units.ts'

const even = (w: number) => ({ top: inches(w), right: inches(w), bottom: inches(w), left: inches(w) })

const band = (name: string, width: number, corners: Corners): BandSize => ({
  name,
  width: even(width),
  fabric: `#${name}`,
  corners,
})

/** In inches. */
const sized = (width: number, height: number, bands: BandSize[]): QuiltSize => ({
  centre: { width: inches(width), height: inches(height), fabric: '#fff' },
  bands,
  binding: inches(0.25),
})

const list = (size: QuiltSize, more: Partial<CuttingJob> = {}) => cuttingList({ size, unit: 'in', ...more })

describe('strips', () => {
  it('round a 60 x 72 in centre with a 4 in border are those of the worked example', () => {
    // allpeoplequilt.com, Border and corner blocks: cut 4 1/2; sides first, 72 1/2; top and bottom 68 1/2; 68 x 80 finished.
    const { strips } = list(sized(60, 72, [band('sand', 4, 'butted-columns'), band('rope', 2, 'mitred')]))
    const [sides, rows] = strips
    expect(sides).toMatchObject({ sides: ['left', 'right'], order: 1 })
    expect(rows).toMatchObject({ sides: ['top', 'bottom'], order: 2 })
    expect(tapeText(sides!.width, 'in')).toBe('4 1/2 in')
    expect(tapeText(sides!.length, 'in')).toBe('72 1/2 in')
    expect(tapeText(rows!.length, 'in')).toBe('68 1/2 in')
  })

  it('of the last border give the binding a quarter inch in place of a seam', () => {
    // With a 1/4 in binding both come to the same: the worked example again.
    const [sides, rows] = list(sized(60, 72, [band('sand', 4, 'butted-columns')])).strips
    expect(toInches(sides!.width)).toBeCloseTo(4.5, 9)
    expect(toInches(rows!.length)).toBeCloseTo(68.5, 9)
  })

  it('cut at 1 1/2 in finish at 1 in', () => {
    // Common practice, no source.
    const { strips } = list(sized(24, 24, [band('narrow', 1, 'butted-rows'), band('next', 3, 'butted-rows')]))
    expect(toInches(strips[0]!.width)).toBeCloseTo(1.5, 9)
  })

  it('that are mitred are longer than the quilt by at least twice the width of the border', () => {
    // anniesattic.com, determining border lengths
    const { strips } = list(sized(60, 72, [band('sand', 4, 'mitred'), band('rope', 2, 'mitred')]))
    expect(toInches(strips[0]!.length)).toBeGreaterThanOrEqual(60 + 8)
    expect(toInches(strips[1]!.length)).toBeGreaterThanOrEqual(72 + 8)
  })

  it('follow the mean of the three places, rounded up to the next eighth', () => {
    // quiltersnichenews.wordpress.com, avoiding wavy borders: 60 1/8, 60, 60 1/4 have the mean 60 1/8.
    const three = (a: number, b: number, c: number) => [inches(a), inches(b), inches(c)] as const
    const measured = [{ band: -1, across: three(60.125, 60, 60.25), down: three(72, 72.25, 72.25) }]
    const { strips } = list(sized(60, 72, [band('sand', 4, 'butted-columns'), band('rope', 2, 'mitred')]), {
      measured,
    })
    // (72 + 72 1/4 + 72 1/4) / 3 = 72.1667, with 1/2 in for seams 72.6667: up to 72 3/4.
    expect(tapeText(strips[0]!.length, 'in')).toBe('72 3/4 in')
    expect(tapeText(strips[1]!.length, 'in')).toBe('68 5/8 in')
  })

  it('are joined where the fabric is too narrow', () => {
    // 40 in wide: two joined by a 1/4 in seam make 79 1/2 in; 72 1/2 takes one join. Both sides end to end: 145 in take
    // (145 - 1/2) / 39 1/2 = 3.66, four strips of 4 1/2 in: 18 in of fabric, as the rows (137 in: 3.46) another 18.
    const { strips, fabrics } = list(sized(60, 72, [band('sand', 4, 'butted-columns')]))
    expect(strips.map((s) => s.joins)).toEqual([1, 1])
    expect(strips.map((s) => s.acrossFabric)).toEqual([4, 4])
    expect(fabrics).toEqual([{ fabric: '#sand', length: MM_PER.yd }])
  })

  it('are not cut for bands that are sewn', () => {
    const size = sized(60, 72, [band('sand', 4, 'butted-rows'), band('rope', 2, 'butted-rows')])
    const { strips } = list(size, { sewn: [0] })
    expect(new Set(strips.map((s) => s.band))).toEqual(new Set(['rope']))
    expect(strips[0]!.order).toBe(1)
    expect(toInches(strips[0]!.length)).toBeCloseTo(68.5, 9)
  })

  it('end at the cornerstones, which are cut half an inch larger than they finish', () => {
    const { strips, corners } = list(
      sized(60, 72, [band('sand', 4, 'cornerstone'), band('rope', 2, 'mitred')]),
    )
    expect(strips.slice(0, 2).map((s) => tapeText(s.length, 'in'))).toEqual(['72 1/2 in', '60 1/2 in'])
    expect(corners).toHaveLength(1)
    expect(corners[0]).toMatchObject({ count: 4, order: 2 })
    expect(toInches(corners[0]!.width)).toBeCloseTo(4.5, 9)
  })
})

describe('patches', () => {
  const rules = { unit: 'in' as const, seam: inches(0.25) }
  const scaled = (points: readonly (readonly [number, number])[], size: number) =>
    points.map(([x, y]) => [inches(x * size), inches(y * size)] as const)

  it('that are squares are cut half an inch larger', () => {
    // Three 2 1/2 in strips make a nine-patch of 6 in, 6 1/2 with its seams: tamarinis.typepad.com 2021/04.
    const cut = patchCut(
      scaled(
        [
          [0, 0],
          [1, 0],
          [1, 1],
          [0, 1],
        ],
        2,
      ),
      rules,
    )
    expect(cut).toMatchObject({ kind: 'rectangle', yields: 1 })
    expect(toInches(cut.width)).toBeCloseTo(2.5, 9)
  })

  it('that are half squares come from a square 7/8 in larger', () => {
    // Common practice, no source.
    const cut = patchCut(
      scaled(
        [
          [0, 0],
          [1, 0],
          [0, 1],
        ],
        3,
      ),
      rules,
    )
    expect(cut).toMatchObject({ kind: 'half-square', yields: 2 })
    expect(tapeText(cut.width, 'in')).toBe('3 7/8 in')
  })

  it('that are quarter squares come from a square 1 1/4 in larger', () => {
    // Common practice, no source.
    const cut = patchCut(
      scaled(
        [
          [0, 0],
          [1, 0],
          [0.5, 0.5],
        ],
        4,
      ),
      rules,
    )
    expect(cut).toMatchObject({ kind: 'quarter-square', yields: 4 })
    expect(tapeText(cut.width, 'in')).toBe('5 1/4 in')
  })

  it('of other shapes are cut by a template', () => {
    expect(
      patchCut(
        scaled(
          [
            [0, 0],
            [1, 0],
            [0, 2],
          ],
          4,
        ),
        rules,
      ).kind,
    ).toBe('template')
  })

  it('are counted over the whole band', () => {
    const size = sized(24, 24, [band('stars', 4, 'mitred'), band('rope', 2, 'mitred')])
    const piecing = {
      unit: PIECED_UNITS['square-on-point'],
      fabrics: { diamond: 'gold', triangle: 'green' },
      corners: 'cornerstone' as const,
    }
    const { units, patches, fabrics } = list(size, { piecings: [piecing, undefined] })
    // 24 in: six units of 4 in a side, 24 in all; a diamond each, four triangles each, four cornerstones.
    expect(units).toMatchObject([{ band: 'stars', unit: 'Square on point', count: 24 }])
    const named = Object.fromEntries(patches.map((p) => [p.patch, p]))
    expect(named.diamond).toMatchObject({ patches: 24, count: 24, kind: 'rectangle' })
    // Side of the diamond 4 / sqrt 2 = 2.828, with seams 3.328: nearest eighth 3 3/8.
    expect(tapeText(named.diamond!.width, 'in')).toBe('3 3/8 in')
    expect(named.triangle).toMatchObject({ patches: 96, count: 48, kind: 'half-square' })
    expect(tapeText(named.triangle!.width, 'in')).toBe('2 7/8 in')
    expect(named.cornerstone).toMatchObject({ patches: 4, count: 4 })
    // Gold: 11 squares of 3 3/8 in in 40 in, so 3 rows: 10 1/8 in, sold as 3/8 yd (13 1/2 in).
    expect(fabrics.find((f) => f.fabric === 'gold')!.length).toBeCloseTo((3 / 8) * MM_PER.yd, 6)
    // Green: 13 squares of 2 7/8 in in 40 in, so 4 rows: 11 1/2 in, sold as 3/8 yd.
    expect(fabrics.find((f) => f.fabric === 'green')!.length).toBeCloseTo((3 / 8) * MM_PER.yd, 6)
  })
})

describe('binding, backing and batting', () => {
  const { binding, backing, batting, bindingFabric, caution } = list(
    sized(60, 72, [band('sand', 3.75, 'mitred')]),
  )
  // Finished: 60 + 2 x 3 3/4 + 2 x 1/4 = 68 by 80 in.

  it('bind the edge with strips of 2 1/2 in', () => {
    // 2 x (68 + 80) + 10 = 306 in; joins on the slant take 2 1/2 in: (306 - 2.5) / 37.5 = 8.09, nine strips, 22 1/2 in.
    expect(binding.strips).toBe(9)
    expect(toInches(binding.length)).toBeCloseTo(306, 9)
    expect(bindingFabric / MM_PER.yd).toBeCloseTo(0.625, 9)
  })

  it('stand out four inches on every side', () => {
    // Quilts & More, Summer 2020, p. 100: at least 4 in larger on all sides.
    expect(toInches(batting.width)).toBeCloseTo(76, 9)
    expect(toInches(batting.height)).toBeCloseTo(88, 9)
    expect(backing.width).toBe(batting.width)
  })

  it('take the fewest yards of backing', () => {
    // Upright: (76 - 1/2) / 39 1/2 = 1.91, two panels of 88 in: 176 in. Level: (88 - 1/2) / 39 1/2 = 2.2, three of 76: 228 in.
    expect(backing.panels).toBe(2)
    // 176 in = 4.89 yd, sold as 5.
    expect(backing.fabricLength / MM_PER.yd).toBeCloseTo(5, 9)
  })

  it('tell the quilter to measure first', () => {
    expect(caution).toContain('Measure your own quilt before you cut')
  })
})

describe('the cutting list in words', () => {
  it('reads in the order of work', () => {
    const size = sized(24, 24, [band('stars', 4, 'mitred'), band('rope', 2, 'butted-rows')])
    const piecing = {
      unit: PIECED_UNITS['square-on-point'],
      fabrics: { diamond: 'gold', triangle: 'green' },
      corners: 'cornerstone' as const,
    }
    const lines = cuttingText(list(size, { piecings: [piecing, undefined] }), 'in')
    expect(lines).toEqual([
      'Measure your own quilt before you cut: its real width and height, at both edges and through the middle, decide the lengths.',
      '',
      'Borders, in the order of sewing',
      '  3. rope, top and bottom: 2 of 2 1/2 in x 32 1/2 in, #rope; 2 strips across the fabric',
      '  4. rope, left and right: 2 of 2 1/2 in x 36 1/2 in, #rope; 2 strips across the fabric',
      '',
      'Pieced bands',
      '  stars: 24 units of square on point; 24 finish at 4 in x 4 in',
      '  stars, cornerstone: 4 of 4 1/2 in x 4 1/2 in, for 4 patches, #stars',
      '  stars, diamond: 24 of 3 3/8 in x 3 3/8 in, for 24 patches, gold',
      '  stars, triangle: 48 of 2 7/8 in x 2 7/8 in, each cut once from corner to corner, for 96 patches, green',
      '',
      'Finishing',
      '  binding: 5 strips of 2 1/2 in across the fabric, joined to 156 in; 3/8 yd',
      '  backing: 44 1/2 in x 44 1/2 in from 2 panels; 2 1/2 yd',
      '  batting: 44 1/2 in x 44 1/2 in',
      '',
      'Fabric to buy',
      '  #rope: 3/8 yd',
      '  #stars: 1/8 yd',
      '  gold: 3/8 yd',
      '  green: 3/8 yd',
    ])
  })

  it('tells joins, sides that differ, yardage in metres, and cornerstones', () => {
    const long = sized(60, 72, [band('sand', 4, 'butted-columns'), band('rope', 3, 'cornerstone')])
    const lines = cuttingText(cuttingList({ size: long, unit: 'cm' }), 'cm', (fabric) => `cloth ${fabric}`)
    expect(lines.filter((line) => /^ {2}\d/.test(line))).toEqual([
      '  1. sand, left and right: 2 of 11.4 cm x 184.2 cm, cloth #sand; 4 strips across the fabric, 1 join in each',
      '  2. sand, top and bottom: 2 of 11.4 cm x 174 cm, cloth #sand; 4 strips across the fabric, 1 join in each',
      '  3. rope, left and right: 2 of 8.9 cm x 204.5 cm, cloth #rope; 5 strips across the fabric, 2 joins in each',
      '  4. rope, top and bottom: 2 of 8.9 cm x 174 cm, cloth #rope; 4 strips across the fabric, 1 join in each',
      '  4. rope, cornerstones: 4 of 8.9 cm x 8.9 cm, cloth #rope',
    ])
    const text = lines.join('\n')
    expect(text).toMatch(/cloth #sand: \d+\.\d m$/m)
    expect(text).not.toMatch(/\d (in|yd)\b/)
  })
})

describe('the tape', () => {
  it('shows eighths of an inch in lowest terms, centimetres and millimetres', () => {
    expect(tapeText(inches(4.625), 'in')).toBe('4 5/8 in')
    expect(tapeText(inches(0.5), 'in')).toBe('1/2 in')
    expect(tapeText(inches(-1.25), 'in')).toBe('-1 1/4 in')
    expect(tapeText(inches(3), 'in')).toBe('3 in')
    expect(tapeText(123.4, 'mm')).toBe('123 mm')
    expect(tapeText(123.4, 'cm')).toBe('12.3 cm')
  })

  it('counts strips, rows and yards without losing a strip to rounding', () => {
    expect(stripsFor(inches(40), { usable: inches(40), lost: inches(0.5) })).toBe(1)
    expect(stripsFor(inches(79.5), { usable: inches(40), lost: inches(0.5) })).toBe(2)
    expect(stripsFor(inches(79.625), { usable: inches(40), lost: inches(0.5) })).toBe(3)
    expect(rowsLength({ width: 10, height: 7 }, 9, 40)).toBe(21)
    expect(upToBolt(MM_PER.yd / 4, 'in')).toBeCloseTo(MM_PER.yd / 4, 9)
    expect(upToBolt(201, 'mm')).toBe(300)
  })
})
