import type { CentreFiller } from '../src/motif/centre-contract.ts'
import type { Motif } from '../src/motif/contract.ts'
import type { CornerMotif } from '../src/motif/corner-contract.ts'
import clamshell from './centres/clamshell.ts'
import crosshatch from './centres/crosshatch.ts'
import echoRails from './centres/echo-rails.ts'
import meander from './centres/meander.ts'
import swirl from './centres/swirl.ts'
import echoSquare from './corners/echo-square.ts'
import fourPetal from './corners/four-petal.ts'
import spiral from './corners/spiral.ts'
import { MOTIFS } from './index.ts'

/** All that fills cloth: bands, the centre, cornerstones. A test holds each list against its folder. */
export interface Library {
  readonly motifs: Readonly<Record<string, Motif>>
  readonly centres: Readonly<Record<string, CentreFiller>>
  readonly corners: Readonly<Record<string, CornerMotif>>
}

export const LIBRARY = {
  motifs: MOTIFS,
  centres: { clamshell, crosshatch, 'echo-rails': echoRails, meander, swirl },
  corners: { 'echo-square': echoSquare, 'four-petal': fourPetal, spiral },
} as unknown as Library
