/** How a quilt is worked. */
export type Way = 'areas' | 'laps' | 'frame'

/** In words. */
export const WAY_NAMES: Readonly<Record<Way, string>> = {
  areas: 'area by area',
  laps: 'lap by lap',
  frame: 'frame passes',
}
