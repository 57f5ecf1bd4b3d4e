import { LIBRARY } from '../../motifs/library.ts'
import type { Option, Slot } from '../../src/choose/slot.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { readPlan } from '../../src/plan/read-plan.ts'

const CATALOG = catalogOf(LIBRARY)

/** A plan with a limit of 50 mm and two bands 90 mm wide, where spacings are chosen. */
export const planWith = (more: object = {}) =>
  readPlan(
    JSON.stringify({
      units: 'mm',
      centre: { width: 400, height: 400, filler: 'none' },
      bands: [
        { name: 'reef', width: 90, filler: 'scallop' },
        { name: 'shoal', width: 90, filler: 'wave' },
      ],
      batting: { limit: 50 },
      spacing: 'auto',
      ...more,
    }),
    CATALOG,
  ).plan

/** One way to fill a slot, with the measures that decide. */
export const option = (
  title: string,
  gapMm: number,
  { given = [], perArea = 0.1, foot = true }: { given?: string[]; perArea?: number; foot?: boolean } = {},
): Option => ({
  filler: { name: title, values: {}, given },
  title,
  open: undefined,
  ofUsual: 1,
  suits: undefined,
  measured: { gapMm, perArea, suitsWalkingFoot: foot },
})

/** A whole band 90 mm wide whose filler is given. */
export const slot = (options: Option[], more: Partial<Slot> = {}): Slot => ({
  kind: 'band',
  part: '',
  areaMm2: 1000,
  widths: [90],
  isAuto: false,
  options,
  ...more,
})
