import fc from 'fast-check'
import paper from 'paper/dist/paper-core.js'
import { beforeAll, describe, expect, it } from 'vitest'
import { MOTIFS } from '../../motifs/index.ts'
import { strokeLength } from '../../src/geometry/stroke.ts'
import { defaultValues } from '../../src/plan/settle-filler.ts'
import { svgPathOf } from '../support/svg-path.ts'

/** Paper.js, a general-purpose vector library, reads our strokes as SVG paths and measures them by its own means. */
describe('a stroke measured by an independent vector library', () => {
  beforeAll(() => {
    paper.setup(new paper.Size(1, 1))
    paper.settings.insertItems = false
  })

  it.each(Object.entries(MOTIFS))('%s is as long as Paper.js finds it', (_, motif) => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.integer({ min: 1, max: 4 }),
        (t, repeats) => {
          const width = motif.suits.min + t * (motif.suits.max - motif.suits.min)
          const values = defaultValues(motif.params, width)
          const count = motif.ends === 'alternate' ? repeats - 0.5 : repeats
          const length = count * motif.repeat(width, values)
          const strip = {
            length,
            width,
            from: 'inner',
            to: 'outer',
            repeats: count,
            mirrorStart: false,
            mirrorEnd: false,
            seed: 1,
          } as const
          const { stroke } = motif.draw(strip, values)
          const path = new paper.CompoundPath(svgPathOf(stroke))
          // Paper.js turns arcs into cubics that are up to 1.4e-4 too long, and its quadrature errs at cusps.
          expect(Math.abs(path.length / strokeLength(stroke) - 1)).toBeLessThan(3e-3)
        },
      ),
      { seed: 81, numRuns: 6 },
    )
  })

  it('finds every point of a swirl inside its strip', () => {
    const motif = MOTIFS.swirl!
    const values = defaultValues(motif.params, 80)
    const strip = {
      length: 400,
      width: 80,
      from: 'inner',
      to: 'outer',
      repeats: 4,
      mirrorStart: false,
      mirrorEnd: false,
      seed: 1,
    } as const
    const { bounds } = new paper.CompoundPath(svgPathOf(motif.draw(strip, values).stroke))
    expect(bounds.left).toBeGreaterThan(-0.1)
    expect(bounds.top).toBeGreaterThan(-0.1)
    expect(bounds.right).toBeLessThan(400.1)
    expect(bounds.bottom).toBeLessThan(80.1)
  })
})
