import type { Motif } from '../src/motif/contract.ts'
import bracket from './bracket.ts'
import cable from './cable.ts'
import clamshell from './clamshell.ts'
import crosshatch from './crosshatch.ts'
import echoRails from './echo-rails.ts'
import feather from './feather.ts'
import leafVine from './leaf-vine.ts'
import loopLine from './loop-line.ts'
import meander from './meander.ts'
import pearls from './pearls.ts'
import pianoKeys from './piano-keys.ts'
import ribbon from './ribbon.ts'
import sEcho from './s-echo.ts'
import scallop from './scallop.ts'
import spiralChain from './spiral-chain.ts'
import squareKey from './square-key.ts'
import swirl from './swirl.ts'
import wave from './wave.ts'

/** Every motif by its id, which is its file's name. A test holds this list against the folder. */
export const MOTIFS: Readonly<Record<string, Motif>> = {
  bracket,
  cable,
  clamshell,
  crosshatch,
  'echo-rails': echoRails,
  feather,
  'leaf-vine': leafVine,
  'loop-line': loopLine,
  meander,
  pearls,
  'piano-keys': pianoKeys,
  ribbon,
  's-echo': sEcho,
  scallop,
  'spiral-chain': spiralChain,
  'square-key': squareKey,
  swirl,
  wave,
} as unknown as Readonly<Record<string, Motif>>
