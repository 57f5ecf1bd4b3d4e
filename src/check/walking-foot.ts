import type { Line } from '../stitch/line.ts'
import { layTrack, startOfPiece, type Track } from '../stitch/track.ts'
import { assertWithin } from '../stitch/within-limits.ts'

/** What can be stitched with a walking foot. Bare numbers are mm and radians. */
export interface WalkingFootSettings {
  /** Curves tighter than this cannot be fed straight. */
  readonly tightestRadius: number
  /** Curves tighter than this need care: slowly, with both hands. */
  readonly gentleRadius: number
  /** A jump of direction by more than this is a pivot: needle down, foot up, turn the quilt. */
  readonly pivotAngle: number
  /** A jump by more than this turns the quilt right round. */
  readonly reversalAngle: number
  /** More pivots or reversals on a metre than these are too many. */
  readonly mostPivots: number
  readonly mostReversals: number
}

/** Only straight and gently curved lines: common practice, no source for any of the figures. */
export const WALKING_FOOT_DEFAULTS: WalkingFootSettings = {
  tightestRadius: 25,
  gentleRadius: 75,
  pivotAngle: Math.PI / 6,
  reversalAngle: (3 * Math.PI) / 4,
  mostPivots: 15,
  mostReversals: 2,
}

/** Whether a band can be stitched with a walking foot, and why not. */
export interface WalkingFootCheck {
  /** Index of the band; -1 for the centre, undefined for the seams. */
  readonly band: number | undefined
  readonly lengthMm: number
  /** mm; Infinity where all is straight */
  readonly smallestRadius: number
  readonly pivots: number
  readonly reversals: number
  readonly verdict: 'suits' | 'with care' | 'cannot'
  readonly reasons: readonly string[]
}

type Counts = { -readonly [K in 'lengthMm' | 'smallestRadius' | 'pivots' | 'reversals']: number }

/**
 * Checks each band of some lines for a walking foot, in the order in which they are first entered.
 *
 * @param tracks  the lines' tracks at the settings' pivot angle, if they are at hand
 * @throws PlanError `check/walking-foot` for nonsense settings
 */
export function checkWalkingFoot(
  lines: readonly Line[],
  settings: WalkingFootSettings = WALKING_FOOT_DEFAULTS,
  tracks: readonly Track[] = lines.map((line) => layTrack(line, settings.pivotAngle)),
): WalkingFootCheck[] {
  assertSettings(settings)
  const bands = new Map<number | undefined, Counts>()
  lines.forEach((line, at) => {
    const track = tracks[at]!
    track.ends.forEach((_, i) => {
      const band = line.parts[track.parts[i]!]!.band
      const counts = bands.get(band) ?? { lengthMm: 0, smallestRadius: Infinity, pivots: 0, reversals: 0 }
      bands.set(band, addPiece(counts, { track, i }, settings))
    })
  })
  return [...bands].map(([band, counts]) => ({ band, ...counts, ...judge(counts, settings) }))
}

function assertSettings(settings: WalkingFootSettings): void {
  const { tightestRadius, gentleRadius, pivotAngle, reversalAngle } = settings
  assertWithin('check/walking-foot', [
    { at: 'tightestRadius', value: tightestRadius, min: 0, max: 1e4, unit: 'mm' },
    { at: 'gentleRadius', value: gentleRadius, min: tightestRadius, max: 1e4, unit: 'mm' },
    { at: 'pivotAngle', value: pivotAngle, min: 0.05, max: Math.PI, unit: 'radians' },
    { at: 'reversalAngle', value: reversalAngle, min: pivotAngle, max: Math.PI, unit: 'radians' },
    { at: 'mostPivots', value: settings.mostPivots, min: 0, max: 1e4, unit: 'a metre' },
    { at: 'mostReversals', value: settings.mostReversals, min: 0, max: 1e4, unit: 'a metre' },
  ])
}

function addPiece(
  counts: Counts,
  { track, i }: { readonly track: Track; readonly i: number },
  { pivotAngle, reversalAngle }: WalkingFootSettings,
): Counts {
  const jump = track.jumps[i]!
  return {
    lengthMm: counts.lengthMm + track.ends[i]! - startOfPiece(track, i),
    smallestRadius: Math.min(counts.smallestRadius, 1 / track.curvatures[i]!),
    pivots: counts.pivots + (jump > pivotAngle ? 1 : 0),
    reversals: counts.reversals + (jump > reversalAngle ? 1 : 0),
  }
}

function judge(
  { lengthMm, smallestRadius, pivots, reversals }: Counts,
  settings: WalkingFootSettings,
): Pick<WalkingFootCheck, 'verdict' | 'reasons'> {
  const metres = Math.max(lengthMm / 1000, 1)
  const radius = smallestRadius.toFixed(0)
  const hard = [
    smallestRadius < settings.tightestRadius ? `curves as tight as ${radius} mm in radius` : '',
    pivots / metres > settings.mostPivots ? `${(pivots / metres).toFixed(0)} pivots to the metre` : '',
    reversals / metres > settings.mostReversals
      ? `the quilt turned right round ${(reversals / metres).toFixed(0)} times to the metre`
      : '',
  ].filter((reason) => reason !== '')
  if (hard.length > 0) return { verdict: 'cannot', reasons: hard }
  const soft = [
    smallestRadius < settings.gentleRadius ? `curves of ${radius} mm in radius: slowly` : '',
    pivots > 0 ? `${pivots} pivots: stop with the needle down` : '',
  ].filter((reason) => reason !== '')
  return { verdict: soft.length > 0 ? 'with care' : 'suits', reasons: soft }
}
