import type { PatchFiller } from './contract.ts'
import crosshatch from './crosshatch.ts'
import ditch from './ditch.ts'
import echo from './echo.ts'
import orangePeel from './orange-peel.ts'
import spiral from './spiral.ts'
import swirl from './swirl.ts'

/** The fillers that a patch may be given, by name. `none` is said by naming no filler. */
export const PATCH_FILLERS: Readonly<Record<string, PatchFiller>> = {
  'orange-peel': orangePeel,
  spiral,
  swirl,
  echo,
  crosshatch,
  'ditch-only': ditch,
}
