import { MM_PER } from '../units.ts'
import { DEFAULTS } from './defaults.ts'
import type { Entry } from './entry.ts'
import { roundLength } from './length.ts'
import type { MachinePlan, StitchPlan } from './plan.ts'

/** Nothing can be quilted within less, mm. */
const LEAST_REACH = 25

export function settleMachine(entry: Entry): MachinePlan {
  const usual = DEFAULTS.machine
  const kind = entry.at('kind').choice(['domestic', 'frame'], usual.kind)
  const reach = (i: 0 | 1) => entry.at('reach').at(i).length({ least: LEAST_REACH, fallback: usual.reach })
  const seconds = (key: keyof typeof usual & `${string}Seconds`) =>
    entry.at(key).number({ least: 0, greatest: 7200, fallback: usual[key] })
  const size: MachinePlan['reach'] = [reach(0), reach(1)]
  return {
    kind,
    foot: settleFoot(entry.at('foot'), kind),
    sector: entry.at('sector').number({ least: 10, greatest: 360, fallback: usual.sector }),
    reach: size,
    ...(kind === 'frame' ? settleStrip(entry, size[1]) : refuseStrip(entry)),
    speed: entry.at('speed').number({ least: 10, greatest: 10_000, fallback: usual.speed }),
    tightCurveSpeed: entry
      .at('tightCurveSpeed')
      .number({ least: 0.05, greatest: 1, fallback: usual.tightCurveSpeed }),
    tightRadius: entry.at('tightRadius').length({ least: 0, greatest: 1000, fallback: usual.tightRadius }),
    repositionSeconds: seconds('repositionSeconds'),
    bobbinSeconds: seconds('bobbinSeconds'),
    startSeconds: seconds('startSeconds'),
    advanceSeconds: seconds('advanceSeconds'),
    threadSeconds: seconds('threadSeconds'),
    turnSeconds: seconds('turnSeconds'),
  }
}

/** On a frame the machine moves freely. */
function settleFoot(entry: Entry, kind: MachinePlan['kind']): MachinePlan['foot'] {
  const foot = entry.choice(['free-motion', 'walking'], DEFAULTS.machine.foot)
  if (kind === 'frame' && foot === 'walking') {
    const message = 'is walking, which is for a domestic machine, but the machine is on a frame'
    entry.refuse({ code: 'plan/contradiction', message })
  }
  return foot
}

type FrameStrip = Pick<MachinePlan, 'throat' | 'overlap'>

function settleStrip(entry: Entry, reachHeight: number): FrameStrip {
  const throat = entry.at('throat').length({ least: LEAST_REACH, fallback: reachHeight })
  const usual = roundLength(Math.min(DEFAULTS.machine.overlap, throat / 4))
  const overlap = entry.at('overlap').length({ least: 0, fallback: usual })
  if (overlap > throat / 2) {
    const message = 'is more than half the depth of a strip (throat); strips would hardly move on'
    entry.at('overlap').refuse({ code: 'plan/contradiction', message })
  }
  return { throat, overlap }
}

function refuseStrip(entry: Entry): FrameStrip {
  for (const key of ['throat', 'overlap'])
    if (entry.at(key).isGiven)
      entry
        .at(key)
        .refuse({ code: 'plan/contradiction', message: 'is for a frame, but the machine is domestic' })
  return { throat: undefined, overlap: undefined }
}

export function settleStitch(entry: Entry): StitchPlan {
  const usual = DEFAULTS.stitch
  const tieOff = entry.at('tieOff')
  return {
    length: settleStitchLength(entry),
    chordTolerance: entry
      .at('chordTolerance')
      .length({ least: 0.005, greatest: 2, fallback: usual.chordTolerance }),
    tieOff: {
      count: tieOff.at('count').number({ greatest: 30, fallback: usual.tieOff.count, whole: true }),
      length: tieOff.at('length').length({ least: 0.1, greatest: 2, fallback: usual.tieOff.length }),
    },
  }
}

/** Longest and shortest stitch, mm. */
const STITCH = { least: 1, greatest: 12 }

/** A stitch's length, mm, from a length or from stitches per inch. */
function settleStitchLength(entry: Entry): number {
  if (entry.has('length') && entry.has('perInch'))
    entry.refuse({ code: 'plan/contradiction', message: 'has both length and perInch; give one of them' })
  const perInch = entry.at('perInch').number({
    least: Number((MM_PER.in / STITCH.greatest).toFixed(2)),
    greatest: MM_PER.in / STITCH.least,
    fallback: undefined,
  })
  const usual = perInch === undefined ? DEFAULTS.stitch.length : roundLength(MM_PER.in / perInch)
  return entry.at('length').length({ ...STITCH, fallback: usual })
}
