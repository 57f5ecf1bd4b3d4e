import { line } from '../../src/geometry/segment.ts'
import { defineMotif, type Motif, type Strip } from '../../src/motif/contract.ts'
import type { Catalog } from '../../src/plan/catalog.ts'
import { inches } from '../../src/units.ts'

/** Straight along the strip's inner edge: enough of a stroke for a plan. */
const drawNothing = ({ length }: Strip) => ({
  stroke: { start: [0, 0] as const, segments: [line([length, 0])] },
  touches: [
    { edge: 'inner' as const, after: 0 },
    { edge: 'inner' as const, after: 1 },
  ],
})

const common = {
  source: 'for tests',
  ends: 'free',
  bend: 'corner',
  joints: 'cusped',
  draw: drawNothing,
} as const

/** For narrow bands; no values. */
const ripple = defineMotif({
  ...common,
  title: 'Ripple',
  params: {},
  suits: { min: inches(0.5), max: inches(2) },
  repeat: (width) => 2 * width,
})

/** For middling bands; a value of every kind. */
const waves = defineMotif({
  ...common,
  title: 'Waves',
  params: {
    spacing: {
      kind: 'length',
      label: 'Spacing',
      default: { widths: 0.25 },
      min: inches(0.2),
      max: inches(1),
    },
    gap: { kind: 'length', label: 'Gap', default: 3, min: 1, max: 10 },
    rise: { kind: 'ratio', label: 'Rise', default: 0.6, min: 0.1, max: 1 },
    count: { kind: 'count', label: 'Waves', default: 3, min: 1, max: 9 },
    tip: { kind: 'choice', label: 'Tip', default: 'round', of: ['round', 'sharp'] },
  },
  suits: { min: inches(1.5), max: inches(6) },
  repeat: (_, { spacing }) => spacing,
})

/** For wide bands. */
const tides = defineMotif({
  ...common,
  title: 'Tides',
  params: {},
  suits: { min: inches(2), max: inches(400) },
  repeat: (width) => width,
})

/** A small catalog of made-up fillers. */
export const PLAN_CATALOG = {
  motifs: { ripple, waves, tides } as unknown as Readonly<Record<string, Motif>>,
  centreFillers: { grid: { params: waves.params }, rays: { params: {} } },
  cornerMotifs: ['anchor', 'star'],
  patchFillers: { arcs: { params: {} }, lattice: { params: waves.params } },
  units: { squares: ['dark', 'light'], diamonds: ['diamond', 'triangle'] },
} as const satisfies Catalog
