import { DEFAULTS } from './defaults.ts'
import type { Entry } from './entry.ts'
import { BATTINGS, estimateBobbin, THREAD_SYSTEMS, type ThreadSystem, toTex } from './materials.ts'
import { type BattingPlan, BOBBIN_CLASSES, type ThreadPlan } from './plan.ts'
import { show } from './problems.ts'

export function settleThread(entry: Entry): ThreadPlan {
  const usual = DEFAULTS.thread
  const tex = settleTex(entry)
  return {
    tex,
    colour: entry.at('colour').colour(usual.colour),
    ...settleBobbin(entry.at('bobbin'), tex),
    spoolM: entry.at('spool').metres({ least: 10, greatest: 100_000, fallback: undefined }),
    tail: entry.at('tail').length({ least: 0, greatest: 1000, fallback: usual.tail }),
    waste: entry.at('waste').share({ fallback: usual.waste }),
    candidates: entry
      .at('candidates')
      .items()
      .map((item) => ({
        name: item.at('name').text() ?? '',
        colour: item.at('colour').colour(usual.colour),
      })),
  }
}

type BobbinPlan = Pick<ThreadPlan, 'bobbinM' | 'bobbinClass' | 'isEstimate'>

/** What the plan says that a bobbin holds, or an estimate from its class. */
function settleBobbin(entry: Entry, tex: number): BobbinPlan {
  if (entry.isGiven && !entry.isGroup) {
    const bobbinM = entry.metres({ least: 5, greatest: 2000, fallback: 5 })
    return { bobbinM, bobbinClass: undefined, isEstimate: false }
  }
  const written = String(entry.at('class').value ?? DEFAULTS.thread.bobbin)
  const bobbinClass = BOBBIN_CLASSES.find((name) => name === written) ?? DEFAULTS.thread.bobbin
  return { bobbinM: estimateBobbin(bobbinClass, tex), bobbinClass, isEstimate: true }
}

/** Sizes of thread that can be sewn, tex. */
const TEX = { least: 2, greatest: 500 }

/** The thread's size in tex, whatever system it is written in. */
function settleTex(entry: Entry): number {
  const given = THREAD_SYSTEMS.filter((system) => entry.has(system))
  if (given.length > 1) {
    const message = `gives the thread's size as ${given.join(' and ')}; give one of them`
    entry.refuse({ code: 'plan/contradiction', message })
  }
  const [system] = given
  return system === undefined
    ? DEFAULTS.thread.tex
    : (texFrom(entry.at(system), system) ?? DEFAULTS.thread.tex)
}

function texFrom(entry: Entry, system: ThreadSystem): number | undefined {
  const { value } = entry
  if (value === undefined) return undefined
  const [size = Number.NaN, plies = 1] = typeof value === 'number' ? [value] : pliedSize(String(value))
  const tex = toTex(system, size) * plies
  if (size > 0 && plies >= 1 && tex >= TEX.least && tex <= TEX.greatest) return tex
  const [least, greatest] = [TEX.least, TEX.greatest]
    .map((limit) => fromTex(system, limit))
    .sort((a, b) => a - b)
  const message = `is ${show(value)}; allowed: ${least} to ${greatest}, or with plies such as 40/2`
  return entry.refuse({ code: 'plan/thread-size', message })
}

/** Every system counts either in proportion to tex, or against it. */
const fromTex = (system: ThreadSystem, tex: number): number => {
  const isDirect = toTex(system, 2) > toTex(system, 1)
  return Number((isDirect ? tex / toTex(system, 1) : toTex(system, 1) / tex).toPrecision(3))
}

/** `40/2`: size and plies. */
function pliedSize(text: string): number[] {
  const parts = /^(\d{1,6}(?:\.\d{1,9})?)(?:\s*\/\s*(\d{1,2}))?$/.exec(text.trim())
  return parts ? parts.slice(1).flatMap((part) => (part === undefined ? [] : [Number(part)])) : []
}

export function settleBatting(entry: Entry): BattingPlan {
  const kinds = Object.keys(BATTINGS) as (keyof typeof BATTINGS)[]
  const kind = entry.at('kind').choice(kinds, DEFAULTS.batting.kind)
  const usual = BATTINGS[kind]
  return {
    kind,
    limit: entry.at('limit').length({ least: 5, greatest: 1000, fallback: usual.limitMm }),
    thickness: entry.at('thickness').length({ least: 0, greatest: 25, fallback: usual.thicknessMm }),
    shrinkage: entry.at('shrinkage').share({ greatest: 0.5, fallback: usual.shrinkage }),
  }
}
