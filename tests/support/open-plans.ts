import fc from 'fast-check'
import { anyPlan } from './random-plans.ts'

/**
 * Plans that leave spacings open, of 1 to `most` bands: any widths, battings and densities. A third leave their fillers
 * open as well, half fill the centre, and an eighth are for a walking foot.
 */
export const openPlan = (most: number) =>
  fc
    .record({
      plan: anyPlan(most),
      limit: fc.constantFrom(0.75, 1, 1.5, 2, 3, 4, 8),
      density: fc.constantFrom('light' as const, 'medium' as const, 'dense' as const),
      fillers: fc.constantFrom('given', 'given', 'auto'),
      centre: fc.constantFrom('none', 'auto'),
      foot: fc.constantFrom('free-motion' as const, 'walking' as const),
      isWalking: fc.integer({ min: 0, max: 7 }),
      seed: fc.nat(1000),
    })
    .map(({ plan, limit, density, fillers, centre, foot, isWalking, seed }) => ({
      ...plan,
      spacing: 'auto' as const,
      density,
      seed,
      batting: { limit },
      machine: { ...plan.machine, foot: isWalking === 0 ? foot : ('free-motion' as const) },
      centre: { ...(plan.centre as { width: number; height: number }), filler: centre },
      bands: plan.bands.map((band) => ({ ...band, filler: fillers === 'auto' ? 'auto' : band.filler })),
    }))

/** The same, of few bands round a small centre, so that many can be planned whole. */
export const smallOpenPlan = openPlan(2).map(({ centre, ...plan }) => ({
  ...plan,
  centre: { ...centre, width: 5 + Number(centre.width) / 8, height: 5 + Number(centre.height) / 8 },
}))
