import { countText, lengthText, longLengthText } from '../export/labels.ts'
import type { Report } from './report.ts'
import { figuresOf } from './report-page.ts'
import { durationText } from './summary.ts'

/** One figure of two plans, in words, and how much more or less the other has; empty where they are the same. */
export interface Difference {
  readonly label: string
  readonly one: string
  readonly other: string
  readonly change: string
}

interface Measure {
  of(report: Report): number
  words(size: number, units: Report['units']): string
}

const count: Measure['words'] = countText

/** What can be told as more or less, by the figures' labels. */
const MEASURES: Readonly<Record<string, Measure>> = {
  'Thread starts': { of: ({ line }) => line.threadStarts, words: count },
  'Length of line': { of: ({ line }) => line.lengthMm, words: longLengthText },
  'Travel in seams': { of: ({ line }) => line.travelMm, words: lengthText },
  'Stitched over': { of: ({ line }) => line.overlapMm, words: lengthText },
  Areas: { of: ({ line }) => line.areas, words: count },
  'Moves of the quilt': { of: ({ line }) => line.repositions, words: count },
  Stitches: { of: ({ stitches }) => stitches.count, words: count },
  'Needle thread': { of: ({ thread }) => thread.topM * 1000, words: longLengthText },
  'Bobbin thread': { of: ({ thread }) => thread.bobbinM * 1000, words: longLengthText },
  Bobbins: { of: ({ thread }) => thread.bobbins, words: count },
  Time: { of: ({ time }) => time.minutes, words: durationText },
  'Largest circle without stitching': { of: ({ gap }) => gap.largestMm, words: lengthText },
  'Largest square without stitching': { of: ({ gap }) => gap.squareMm, words: lengthText },
  'The batting allows': { of: ({ gap }) => gap.limitMm, words: lengthText },
}

/** The figures that a quilter reads first, of two plans side by side: the other's in the words and units of the first. */
export function differencesOf(one: Report, other: Report): Difference[] {
  const others = new Map(figuresOf({ ...other, units: one.units }).map(({ label, value }) => [label, value]))
  return figuresOf(one).map(({ label, value }) => {
    const beside = others.get(label) ?? ''
    const measure = MEASURES[label]
    const change = value === beside ? '' : measure ? changeOf(measure, one, other) : 'another'
    return { label, one: value, other: beside, change }
  })
}

/** More or less, by how much. */
function changeOf({ of, words }: Measure, one: Report, other: Report): string {
  const more = of(other) - of(one)
  const less = words === count ? 'fewer' : 'less'
  return `${words(Math.abs(more), one.units)} ${more > 0 ? 'more' : less}`
}
