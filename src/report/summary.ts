import { countText, lengthText, longLengthText } from '../export/labels.ts'
import type { Report } from './report.ts'
import { WAY_NAMES } from './way-names.ts'

/** What a quilter wants to know first, in plain words. */
export function summaryText(report: Report): string {
  const { quilt, line, stitches, thread, time, gap, washed, units } = report
  const size = `${lengthText(quilt.widthMm, units)} x ${lengthText(quilt.heightMm, units)}`
  const starts =
    line.threadStarts === 1
      ? 'One line, one thread start'
      : `${line.threadStarts} lines, ${line.threadStarts} thread starts`
  const quilted = report.bands.filter((band) => band.filler).length
  return [
    `${report.title}: ${size} with its binding, ${count(report.bands.length, 'band')}, ${quilted} quilted`,
    ...(report.allOver ? [`All over: ${report.allOver.filler}, whatever the bands are`] : []),
    `${starts}: ${longLengthText(line.lengthMm, units)}, in ${count(line.areas, 'area')}; the quilt is moved ${times(line.repositions)}`,
    ...strategyLines(report),
    `Travel in seams ${extra(line.travelMm, line.lengthMm, units)}; stitched over ${extra(line.overlapMm, line.lengthMm, units)}`,
    `${countText(stitches.count)} stitches; needle thread ${longLengthText(thread.topM * 1000, units)}, bobbin thread ${longLengthText(thread.bobbinM * 1000, units)}: ${count(thread.bobbins, 'bobbin')}`,
    ...threadLines(report),
    ...spoolLines(report),
    ...regionLines(report),
    `About ${durationText(time.minutes)} of work`,
    ...thread.bobbinChanges.map(
      ({ where, alongMm }, i) => `Bobbin change ${i + 1}: after ${longLengthText(alongMm, units)}, ${where}`,
    ),
    `Largest gap ${lengthText(gap.largestMm, units)} across, largest square ${lengthText(gap.squareMm, units)}; the batting allows ${lengthText(gap.limitMm, units)}`,
    `After washing ${rangeText(washed.widthMm, units)} x ${rangeText(washed.heightMm, units)}`,
    ...choiceLines(report),
    ...walkingFootLines(report),
    ...(line.turning.foot === 'walking' ? [turningText(line.turning)] : []),
    ...report.warnings.map(({ message, at }) => `Mind: ${at ? `${at}: ` : ''}${message}`),
  ].join('\n')
}

const count = (n: number, noun: string): string => `${n} ${noun}${n === 1 ? '' : 's'}`
/** How many spools of each colour there must be, if the plan says what one holds. */
function spoolLines({ thread: { spools, spoolM }, units }: Report): string[] {
  if (spoolM === null) return []
  const each = longLengthText(spoolM * 1000, units)
  return spools.map((colour) => `${count(colour.spools ?? 0, 'spool')} of ${each} of ${colour.thread}`)
}

/** How the work is divided, and why so; on a frame it can be divided in one way only. */
function strategyLines({ line: { strategies } }: Report): string[] {
  const [first] = strategies
  if (first === undefined || first.way === 'frame') return []
  return strategies.map(({ thread, way, why }) =>
    strategies.length === 1
      ? `Worked ${WAY_NAMES[way]}: ${why}`
      : `Thread ${thread} worked ${WAY_NAMES[way]}: ${why}`,
  )
}

/** What each thread takes, and when it is put in, if there are several. */
function threadLines({ thread: { spools, changes, changesBound }, units }: Report): string[] {
  if (spools.length < 2) return []
  const long = (m: number) => longLengthText(m * 1000, units)
  const fewest =
    changes.length === changesBound ? 'as seldom as can be' : `${changesBound} would be the fewest`
  return [
    `${spools.length} threads; the thread is changed ${times(changes.length)}, ${fewest}`,
    ...spools.map(
      ({ thread, bands, lineMm, starts, needleM, bobbinM, bobbins }) =>
        `Thread ${thread} for ${bands.join(', ')}: ${longLengthText(lineMm, units)} of line in ${count(starts, 'start')}; needle ${long(needleM)}, bobbin ${long(bobbinM)}: ${count(bobbins, 'bobbin')}`,
    ),
    ...changes.map(
      ({ start, to, where }) => `Before start ${start} put in thread ${to}: it begins at ${where}`,
    ),
  ]
}

/** How much a quilter turns the quilt under a foot that feeds forward only. */
const turningText = ({ turns, sectorDegrees }: Report['line']['turning']): string =>
  `The quilt is turned ${turns.toFixed(0)} times right round in all: the foot feeds forward only, ${sectorDegrees} degrees of direction are comfortable`

/** What is kept free of stitching, and how its edge is stitched. */
function regionLines({ regions, units }: Report): string[] {
  return regions.map(({ name, outlined, edgeMm, roundMm }) => {
    if (edgeMm === 0) return `Kept free: ${name}, which lies in another region or beside the quilting`
    const round = roundMm > 0 ? `; ${lengthText(roundMm, units)} more along it to go round` : ''
    const edge = outlined
      ? `stitched along its whole edge, ${lengthText(edgeMm, units)}`
      : 'its edge is not stitched all round'
    return `Kept free: ${name}, ${edge}${round}`
  })
}

/** A length that may lie between two, in words. */
export function rangeText([least, most]: readonly [number, number], units: Report['units']): string {
  const [low, high] = [lengthText(least, units), lengthText(most, units)]
  return low === high ? low : `${low.replace(` ${units}`, '')} to ${high}`
}

/** What was chosen where the plan says auto. */
function choiceLines({ choices }: Report): string[] {
  return (choices?.made ?? []).map(
    ({ at, part, filler, reason }) =>
      `Chosen for ${at}${part === null ? '' : `, ${part}`}: ${filler ?? 'no filler'}: ${reason}`,
  )
}

/** Which bands a walking foot cannot stitch. */
function walkingFootLines({ bands }: Report): string[] {
  const quilted = bands.filter(({ walkingFoot }) => walkingFoot)
  const cannot = quilted
    .filter(({ walkingFoot }) => walkingFoot?.verdict === 'cannot')
    .map(({ name }) => name)
  if (quilted.length === 0) return []
  if (cannot.length === 0) return ['A walking foot can stitch every band']
  if (cannot.length === quilted.length) return ['A walking foot can stitch none of the bands']
  return [`A walking foot cannot stitch ${cannot.join(', ')}`]
}

const times = (n: number): string => (n === 0 ? 'never' : n === 1 ? 'once' : n === 2 ? 'twice' : `${n} times`)

function extra(mm: number, whole: number, units: Report['units']): string {
  if (mm === 0) return 'none'
  const share = (mm / whole) * 100
  return `${lengthText(mm, units)} (${share < 0.05 ? 'under 0.1' : share.toFixed(1)} %)`
}

/** Minutes in words. */
export function durationText(minutes: number): string {
  const whole = Math.round(minutes)
  if (whole < 60) return count(whole, 'minute')
  const rest = whole % 60
  return `${count(Math.floor(whole / 60), 'hour')}${rest > 0 ? ` ${count(rest, 'minute')}` : ''}`
}
