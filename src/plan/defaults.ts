import { TIME_DEFAULTS } from '../stitch/time.ts'
import { inches } from '../units.ts'
import { roundLength } from './length.ts'

const { stitchesPerMinute: speed, ...rates } = TIME_DEFAULTS

/**
 * What a plan is taken to say where it says nothing. A bare number is mm.
 *
 * @source 10 stitches to the inch (2.5 mm), tie-offs of a few short stitches, 1/4 in under the binding:
 * common practice, no source; rates as in `stitch/time.ts`
 */
export const DEFAULTS = {
  title: 'Untitled quilt',
  units: 'in',
  centreFabric: '#f4efe4',
  /** In turn, from the inside out. */
  fabrics: ['#d9c7a0', '#8fa9b8'],
  binding: roundLength(inches(0.25)),
  bindingFabric: '#3b3230',
  machine: {
    kind: 'domestic',
    foot: 'free-motion',
    sector: 60,
    reach: roundLength(inches(14)),
    overlap: roundLength(inches(1)),
    speed,
    ...rates,
  },
  stitch: { length: 2.5, chordTolerance: 0.1, tieOff: { count: 5, length: 0.4 } },
  thread: { tex: 30, colour: '#fbf7ea', bobbin: 'L', tail: 150, waste: 0.15 },
  batting: { kind: 'cotton-scrim' },
  spacing: 'own',
  density: 'medium',
  route: { order: 'any', work: 'any', ditchOrder: 'any', turning: { 'free-motion': 0, walking: 0.5 } },
  seed: 1,
} as const

/** The part of the throat by which strips overlap where a plan for a domestic machine is tried on a frame. */
export const STRIP_OVERLAP = 0.1
