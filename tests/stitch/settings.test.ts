import { describe, expect, it } from 'vitest'
import { assertStitchSettings, STITCH_DEFAULTS } from '../../src/stitch/settings.ts'
import { refusalsOf } from '../support/refusals.ts'

const refused = (more: object) => refusalsOf(() => assertStitchSettings({ ...STITCH_DEFAULTS, ...more }))

describe('the settings of stitches', () => {
  it('may be what they usually are', () => {
    expect(refused({})).toEqual([])
    // 10 stitches to the inch are 2.54 mm each: common practice, no source.
    expect(Math.abs(STITCH_DEFAULTS.lengthMm - 2.54)).toBeLessThan(0.1)
  })

  it('are refused all at once, each with what it may be', () => {
    const broken = {
      lengthMm: 13,
      chordTolerance: 0,
      minLength: 3,
      cuspAngle: 4,
      tieOff: { count: -1, lengthMm: 3 },
    }
    expect(refused(broken)).toEqual([
      'stitch/setting stitch.minLength: 3 mm is not allowed; it may be 0.1 to 2 mm',
      'stitch/setting stitch.length: 13 mm is not allowed; it may be 6 to 12 mm',
      'stitch/setting stitch.chordTolerance: 0 mm is not allowed; it may be 0.005 to 2 mm',
      `stitch/setting stitch.cuspAngle: 4 radians is not allowed; it may be 0.05 to ${Math.PI} radians`,
      'stitch/setting stitch.tieOff.count: -1 stitches is not allowed; it may be 0 to 30 stitches',
      'stitch/setting stitch.tieOff.length: 3 mm is not allowed; it may be 0.1 to 2 mm',
    ])
  })

  it('want a stitch at least twice as long as the shortest, so that any can be split', () => {
    expect(refused({ lengthMm: 1, minLength: 0.5 })).toEqual([])
    expect(refused({ lengthMm: 0.99, minLength: 0.5 })).toEqual([
      'stitch/setting stitch.length: 0.99 mm is not allowed; it may be 1 to 12 mm',
    ])
  })

  it('may leave the thread untied', () => {
    expect(refused({ tieOff: { count: 0, lengthMm: 0.1 } })).toEqual([])
  })
})
