import { describe, expect, it } from 'vitest'
import { tapeText } from '../../src/length-text.ts'
import { type CuttingJob, cuttingList } from '../../src/quilt/cutting/cutting-list.ts'
import { cuttingText } from '../../src/quilt/cutting/cutting-text.ts'
import { PIECED_UNITS } from '../../src/quilt/pieced-unit.ts'
import type { CentreShape, PolygonBand, PolygonSize } from '../../src/quilt/polygon-layout.ts'
import type { Corners } from '../../src/quilt/quilt.ts'
import { inches, toInches } from '../../src/units.ts'

const band = (name: string, width: number, corners: Corners = 'mitred'): PolygonBand => ({
  name,
  width: inches(width),
  fabric: `#${name}`,
  corners,
})
const round = (shape: CentreShape, ...bands: PolygonBand[]): PolygonSize => ({
  centre: { shape, fabric: '#fff' },
  bands,
  binding: inches(0.25),
})
const regular = (sides: number, across: number): CentreShape => ({
  kind: 'regular',
  sides,
  across: inches(across),
})
const onPoint = (across: number): CentreShape => ({
  kind: 'on-point',
  width: inches(across),
  height: inches(across),
})
const list = (size: PolygonSize, more: Partial<CuttingJob> = {}) => cuttingList({ size, unit: 'in', ...more })

/** Side of a regular polygon by its size across the flats. @source side = across tan(180 degrees / sides), school formula */
const sideOf = (sides: number, across: number) => across * Math.tan(Math.PI / sides)

describe('strips round a hexagon or an octagon', () => {
  it.each([6, 8])('with %i sides are as long as the outer side, with what slanted ends take', (sides) => {
    const { strips } = list(round(regular(sides, 18), band('lamp', 2), band('rope', 1)))
    expect(strips.map((s) => s.sides.length)).toEqual([sides, sides])
    expect(strips.map((s) => s.order)).toEqual([1, 2])
    expect(strips.map((s) => tapeText(s.width, 'in'))).toEqual(['2 1/2 in', '1 1/2 in'])
    // Outer side, 1/4 in at both ends, and 2 in to trim (as for mitred strips): up to the next eighth.
    strips.forEach((strip, i) => {
      const long = sideOf(sides, i === 0 ? 22 : 24) + 2.5
      expect(toInches(strip.length)).toBeGreaterThanOrEqual(long - 1e-6)
      expect(toInches(strip.length)).toBeLessThan(long + 0.125)
    })
  })

  it('end square at cornerstones, which are kites cut by a template', () => {
    const { strips, corners } = list(round(regular(6, 18), band('lamp', 2, 'cornerstone')))
    expect(strips.map((s) => s.sides)).toEqual([
      ['top', 'lower right', 'lower left'],
      ['upper right', 'bottom', 'upper left'],
    ])
    // An 18 in hexagon has sides of 10.392 in; with 1/2 in for seams 10.892: up to 11 in.
    expect(strips.map((s) => tapeText(s.length, 'in'))).toEqual(['11 in', '11 in'])
    expect(corners).toMatchObject([{ count: 6, isTemplate: true, order: 2 }])
  })

  it('that are butted reach over the ends of those sewn first', () => {
    const [first, second] = list(round(regular(6, 18), band('lamp', 2, 'butted-rows'))).strips
    // Ends that follow the neighbour's inner seam lean out by 2 in / tan 60 degrees at either end, then 2 1/2 in as above.
    expect(toInches(first!.length)).toBeCloseTo(sideOf(6, 18) + 4 / Math.tan(Math.PI / 3) + 2.5, 0)
    // The others run from slant to slant: each slant is 2 in / sin 60 degrees long.
    expect(toInches(second!.length)).toBeCloseTo(sideOf(6, 18) + 4 / Math.sin(Math.PI / 3) + 2.5, 0)
  })

  it('are bound, backed and pieced by the outline', () => {
    const job = round(regular(8, 20), band('points', 2, 'cornerstone'))
    const piecing = {
      unit: PIECED_UNITS['half-square-triangle'],
      fabrics: {},
      corners: 'cornerstone',
    } as const
    const { binding, batting, patches, units } = list(job, { piecings: [piecing] })
    // 8 sides of an octagon 24 1/2 in across, and 10 in over.
    expect(toInches(binding.length)).toBeGreaterThanOrEqual(8 * sideOf(8, 24.5) + 10 - 1e-6)
    expect(toInches(binding.length)).toBeLessThan(8 * sideOf(8, 24.5) + 10.125)
    expect(tapeText(batting.width, 'in')).toBe('32 1/2 in')
    expect(units[0]!.count).toBe(8 * 4)
    // The side is 8.284 in: 4 units of 2.071 by 2 in. The kites are all one shape.
    expect(patches.filter((p) => p.patch === 'cornerstone')).toMatchObject([{ patches: 8, kind: 'template' }])
  })

  it('are told in one line a band', () => {
    const text = cuttingText(list(round(regular(8, 18), band('lamp', 2))), 'in')
    expect(text).toContain(
      '  1. lamp, all sides: 8 of 2 1/2 in x 11 5/8 in, #lamp; 3 strips across the fabric',
    )
  })
})

describe('round a square on point', () => {
  const setting: PolygonBand = { ...band('cliffs', 0), isSetting: true }
  const triangles = { triangleFabric: undefined }

  it('corner triangles of a 12 in block are cut from two squares of 9 3/8 in', () => {
    // Block over 1.414, plus 7/8 in, cut once from corner to corner: common practice, no source. 8.485 + 0.875 = 9.36.
    const { patches } = list(round(onPoint(12), setting, band('rope', 1)), { piecings: [triangles] })
    expect(patches).toMatchObject([{ kind: 'half-square', count: 2, patches: 4, patch: 'triangle' }])
    expect(tapeText(patches[0]!.width, 'in')).toBe('9 3/8 in')
  })

  it('strips inside the triangles are named by the way they face, those outside as ever', () => {
    const size = round(
      onPoint(12),
      band('halo', 1, 'butted-rows'),
      setting,
      band('rope', 1, 'butted-columns'),
    )
    const { strips } = list(size, { piecings: [undefined, triangles] })
    expect(strips.map((s) => s.sides)).toEqual([
      ['upper left', 'lower right'],
      ['lower left', 'upper right'],
      ['left', 'right'],
      ['top', 'bottom'],
    ])
    expect(strips.slice(0, 2).map((s) => tapeText(s.length, 'in'))).toEqual(['12 1/2 in', '14 1/2 in'])
    // 14 in on point makes 14 x 1.4142 = 19.799 in; with 1/2 in for seams 20.299: up to 20 3/8.
    expect(tapeText(strips[2]!.length, 'in')).toBe('20 3/8 in')
  })
})
