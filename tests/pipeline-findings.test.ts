import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../motifs/library.ts'
import { catalogOf } from '../src/engine-input.ts'
import { flattenStroke } from '../src/geometry/stroke.ts'
import { fillQuilt } from '../src/pipeline.ts'
import { readPlan } from '../src/plan/read-plan.ts'
import { depthInside } from './pieces/piece-laws.ts'

const CATALOG = catalogOf(LIBRARY)

/** How far the fillers leave their bands at most, mm. */
function farthestOut(file: object): number {
  const { quilt, pieces } = fillQuilt(
    readPlan(JSON.stringify({ units: 'mm', ...file }), CATALOG).plan,
    CATALOG,
  )
  const out = pieces.pieces.flatMap(({ band, stroke }) =>
    flattenStroke(stroke, 0.01).map((p) =>
      Math.max(-depthInside(p, quilt.rings[band + 1]!), depthInside(p, quilt.rings[band]!)),
    ),
  )
  return Math.max(...out)
}

const sides = (top: number, right: number, bottom: number, left: number) => ({ top, right, bottom, left })

/** Each is named after what it was, and stays in its band now. */
describe('what fuzzing found', () => {
  it('keys ran backwards where a band’s left and right sides differ by much', () => {
    const keys = { width: sides(54, 38.1, 66.7, 76.2), filler: 'piano-keys' }
    const scallops = { width: sides(57.1, 47.6, 63.5, 41.3), filler: 'scallop' }
    const centre = { width: 101.6, height: 146.05 }
    expect(farthestOut({ centre, bands: [keys, scallops], machine: { reach: [300, 300] } })).toBeLessThan(0.1)
  })

  it('a pearl was wider than its band', () => {
    const ribbon = {
      width: sides(63.5, 69.8, 47.6, 60.3),
      corners: { butted: 'columns-first' },
      filler: 'ribbon',
    }
    const key = { width: 38.1, corners: { butted: 'columns-first' }, filler: 'square-key' }
    const pearls = { width: sides(63.5, 69.8, 57.1, 63.5), filler: 'pearls' }
    expect(
      farthestOut({ centre: { width: 133.35, height: 165.1 }, bands: [ribbon, key, pearls] }),
    ).toBeLessThan(0.1)
  })

  it('a long lead to the first pearl bulged out of the band', () => {
    const meander = { width: 63.5, corners: 'butted', filler: 'meander' }
    const pearls = { width: sides(41.3, 63.5, 60.3, 57.1), corners: 'butted', filler: 'pearls' }
    const loops = { width: sides(38.1, 76.2, 54, 41.3), corners: 'cornerstone', filler: 'loop-line' }
    const centre = { width: 174.625, height: 130.175 }
    const machine = { reach: [900, 900] }
    expect(farthestOut({ centre, bands: [meander, pearls, loops], machine })).toBeLessThan(0.1)
  })

  it('a motif in a cornerstone that was measured out of square left it', () => {
    const pearls = { width: 63.5, filler: 'pearls', cornerstone: 'four-petal' }
    const measured = [{ band: 'band 1', across: [261.25, 262.95, 259.35], down: [238.6, 240.7, 238.4] }]
    const centre = { width: 133.35, height: 114.3 }
    expect(farthestOut({ centre, bands: [pearls], binding: 0, measured })).toBeLessThan(0.1)
  })
})
