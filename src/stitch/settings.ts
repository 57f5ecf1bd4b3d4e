import { assertWithin } from './within-limits.ts'

/** The shortest stitch outside of a tie-off, mm. Common practice: shorter ones cut the cloth and pile up thread. */
const SHORTEST_STITCH = 0.5

/** How stitches are laid. A bare number is mm or radians. */
export interface StitchSettings {
  /** The longest stitch, mm. */
  readonly lengthMm: number
  /** How far a stitch may cut a curve, mm. */
  readonly chordTolerance: number
  /** The shortest stitch outside of a tie-off, mm. */
  readonly minLength: number
  /** A direction that jumps by more than this is a cusp and gets a needle point, radians. */
  readonly cuspAngle: number
  readonly tieOff: {
    /** How many very short stitches at either end of a thread; 0 for none. */
    readonly count: number
    /** mm */
    readonly lengthMm: number
  }
}

/**
 * Ten stitches to the inch, a thread's half thickness of chord error, five tie-off stitches of 0.4 mm.
 *
 * @source 10 to 12 stitches to the inch, and a few very short stitches to tie off: common practice, no source
 */
export const STITCH_DEFAULTS: StitchSettings = {
  lengthMm: 2.5,
  chordTolerance: 0.1,
  minLength: SHORTEST_STITCH,
  cuspAngle: Math.PI / 6,
  tieOff: { count: 5, lengthMm: 0.4 },
}

/** @throws PlanError `stitch/setting` naming every setting that cannot be worked with */
export function assertStitchSettings(settings: StitchSettings): void {
  const { lengthMm, chordTolerance, minLength, cuspAngle, tieOff } = settings
  assertWithin('stitch/setting', [
    { at: 'stitch.minLength', value: minLength, min: 0.1, max: 2, unit: 'mm' },
    { at: 'stitch.length', value: lengthMm, min: 2 * minLength, max: 12, unit: 'mm' },
    { at: 'stitch.chordTolerance', value: chordTolerance, min: 0.005, max: 2, unit: 'mm' },
    { at: 'stitch.cuspAngle', value: cuspAngle, min: 0.05, max: Math.PI, unit: 'radians' },
    { at: 'stitch.tieOff.count', value: tieOff.count, min: 0, max: 30, unit: 'stitches' },
    { at: 'stitch.tieOff.length', value: tieOff.lengthMm, min: 0.1, max: 2, unit: 'mm' },
  ])
}
