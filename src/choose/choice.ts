import { UNEVEN_RATIO } from '../check/evenness.ts'
import { lengthText } from '../export/labels.ts'
import type { Plan } from '../plan/plan.ts'
import type { Ground, Option, Slot } from './slot.ts'
import { DENSITY, type Mix, type Scales, shareName, suitsFoot } from './weigh.ts'

/** A choice that was made for a plan, in the words of its report. Lengths in mm. */
export interface Choice {
  /** The band's name, or `centre`. */
  readonly at: string
  /** Name of the side or the patch; empty for a whole band and for the centre. */
  readonly part: string
  /** What was open: the filler, its spacing, or both. */
  readonly what: 'filler' | 'spacing' | 'filler and spacing'
  /** The filler; undefined: none suits. */
  readonly filler: string | undefined
  /** The chosen value: its name and what it is, mm; undefined if the filler has none to choose. */
  readonly value: { readonly key: string; readonly mm: number } | undefined
  readonly reason: string
}

/** What choices are told from. */
export interface Telling {
  readonly plan: Plan
  readonly grounds: readonly Ground[]
  /** The mix of each ground. */
  readonly mixes: readonly Mix[]
  readonly aims: Scales['aims']
  readonly unfed: Scales['unfed']
}

/** Every choice that was made, from the inside out, each with its reasons. */
export function tellChoices(telling: Telling): Choice[] {
  return telling.grounds.flatMap((ground, i) =>
    ground.slots.flatMap((slot, k) => {
      const option = telling.mixes[i]!.options[k]
      if (!slot.isAuto && !option?.open) return []
      return [choiceOf({ telling, i, slot, option })]
    }),
  )
}

interface Case {
  readonly telling: Telling
  /** Which ground. */
  readonly i: number
  readonly slot: Slot
  readonly option: Option | undefined
}

function choiceOf(chosen: Case): Choice {
  const { telling, i, slot, option } = chosen
  const { open } = option ?? {}
  const reasons = option
    ? [
        ...(slot.isAuto ? fillerReasons(chosen, option) : []),
        ...(open ? [spacingReason(chosen, option)] : []),
      ]
    : [`no filler suits ${widthText(slot, telling.plan)}: it is left unquilted`]
  return {
    at: telling.grounds[i]!.at,
    part: slot.part,
    what: !slot.isAuto ? 'spacing' : open ? 'filler and spacing' : 'filler',
    filler: option?.filler.name,
    value: open && option ? { key: open.key, mm: option.filler.values[open.key] as number } : undefined,
    reason: reasons.join('; '),
  }
}

function widthText({ widths }: Slot, { units }: Plan): string {
  const [least, most] = [Math.min(...widths), Math.max(...widths)].map((mm) => lengthText(mm, units))
  return least === most ? `a width of ${least}` : `widths of ${least} to ${most}`
}

/* Why this filler. */

function fillerReasons({ telling, i, slot }: Case, option: Option): string[] {
  const { plan } = telling
  return [
    suitsReason(option, slot, plan),
    ...neighbourReason(telling, i),
    ...(plan.machine.foot === 'walking'
      ? [
          suitsFoot(option, telling.grounds[i]!, telling)
            ? 'its curves and corners suit a walking foot'
            : 'no filler of that width suits a walking foot',
        ]
      : []),
    ...(option.open ? [] : [`${densityText(option)}, for ${plan.density} quilting`]),
  ]
}

function suitsReason({ suits }: Option, slot: Slot, plan: Plan): string {
  if (slot.kind === 'patch') return `fills patches ${lengthText(slot.widths[0]!, plan.units)} across`
  if (!suits) return 'fills a rectangle of any size'
  const isTooWide = Math.max(...slot.widths) > suits.max + 1e-6
  return isTooWide
    ? `no filler suits ${widthText(slot, plan)}; this one comes nearest`
    : `suits ${widthText(slot, plan)}`
}

/** The nearest stitched grounds inside and outside of one. */
function neighboursOf({ grounds, mixes }: Telling, i: number): { ground: Ground; mix: Mix }[] {
  const stitched = grounds.map((ground, k) => ({ ground, mix: mixes[k]! }))
  const before = stitched
    .slice(0, i)
    .reverse()
    .find(({ mix }) => mix.perArea > 0)
  const after = stitched.slice(i + 1).find(({ mix }) => mix.perArea > 0)
  return [before, after].filter((neighbour) => neighbour !== undefined)
}

function neighbourReason(telling: Telling, i: number): string[] {
  const neighbours = neighboursOf(telling, i)
  if (neighbours.length === 0) return []
  const same = neighbours.filter(({ mix }) => shareName(mix, telling.mixes[i]!))
  if (same.length === 0) return ['differs from its neighbours']
  return [`${same.map(({ ground }) => ground.at).join(' and ')} beside it has it too: no other would do`]
}

const densityText = ({ measured }: Option): string =>
  `${(measured.perArea * 100).toFixed(1)} mm of line to the cm²`

/* Why this spacing. */

/** Values this near to the usual one are it. */
const AS_USUAL = 0.03

function spacingReason(chosen: Case, option: Option): string {
  const { telling } = chosen
  const { units } = telling.plan
  const { key, label } = option.open!
  const mm = option.filler.values[key] as number
  const chose = `${label} ${lengthText(mm, units)}`
  if (Math.abs(option.ofUsual - 1) < AS_USUAL)
    return `${chose}, its usual one, suits ${telling.plan.density} quilting: ${densityText(option)}`
  const usual = lengthText(mm / option.ofUsual, units)
  const way = option.ofUsual < 1 ? 'closer' : 'wider'
  return `${chose}, ${way} than its usual ${usual}, ${whyOff(chosen, option)}: ${densityText(option)}`
}

function whyOff({ telling, i, slot }: Case, option: Option): string {
  const { plan, aims, grounds } = telling
  const ground = grounds[i]!
  const usual = slot.options.find((o) => o.filler.name === option.filler.name && o.ofUsual === 1)
  const aim = aims.get(ground.band)!
  const isCloser = option.ofUsual < 1
  if (usual && isCloser && Math.max(...slot.widths) > aim && usual.measured.gapMm > aim)
    return `to keep gaps within the ${lengthText(plan.batting.limit, plan.units)} that the batting allows`
  const uneven = neighboursOf(telling, i).filter(({ mix }) => usual && isUneven(usual, mix, isCloser))
  if (uneven.length > 0)
    return `to be even with ${uneven.map(({ ground: { at } }) => at).join(' and ')} (within ${UNEVEN_RATIO} times)`
  if (plan.machine.foot === 'walking' && usual && !suitsFoot(usual, ground, telling))
    return 'so that a walking foot can follow it'
  const target = DENSITY[plan.density]
  const towards = isCloser === (usual !== undefined && usual.measured.perArea < target)
  return towards ? `for ${plan.density} quilting` : 'to be even with its neighbours'
}

/** Whether a filler at its usual value would be much sparser (or denser) than a neighbour. */
function isUneven({ measured }: Option, { perArea }: Mix, isSparser: boolean): boolean {
  const ratio = isSparser ? perArea / measured.perArea : measured.perArea / perArea
  return ratio > 0.8 * UNEVEN_RATIO
}
