import type { Motif } from '../src/motif/contract.ts'
import bracket from './bracket.ts'
import loopLine from './loop-line.ts'
import sEcho from './s-echo.ts'
import scallop from './scallop.ts'
import swirl from './swirl.ts'

/** Every motif by its id, which is its file's name. A test holds this list against the folder. */
export const MOTIFS: Readonly<Record<string, Motif>> = {
  bracket,
  'loop-line': loopLine,
  's-echo': sEcho,
  scallop,
  swirl,
} as unknown as Readonly<Record<string, Motif>>
