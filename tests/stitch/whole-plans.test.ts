import fc from 'fast-check'
import { expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { planFromText } from '../../src/pipeline.ts'
import { STITCH_DEFAULTS } from '../../src/stitch/settings.ts'
import { anyPlan } from '../support/random-plans.ts'
import { faultsOf } from './valid-stitches.ts'

it('stitches keep every rule along the lines of whole plans', () => {
  for (const file of fc.sample(anyPlan(4), { seed: 11, numRuns: 6 })) {
    const { drawing, reckoning, plan } = planFromText(JSON.stringify(file), catalogOf(LIBRARY))
    const settings = { ...STITCH_DEFAULTS, lengthMm: plan.stitch.length }
    drawing.lines.forEach((line, k) => {
      expect(faultsOf(line, reckoning.stitches[k]!, settings)).toEqual([])
      expect(reckoning.stitches[k]!.worstChordError).toBeLessThanOrEqual(settings.chordTolerance)
    })
  }
})
