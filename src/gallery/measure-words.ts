import type { Param, Params } from '../motif/contract.ts'
import type { GalleryEntry } from './figure.ts'
import type { Measures } from './measure.ts'
import { rangeText, sizeText } from './size-text.ts'

/** A label and what it says. */
export type Row = readonly [label: string, value: string]

/** What was measured over all sizes of a filler. */
export function measureRows({ suits, figures }: GalleryEntry): Row[] {
  const all = figures.map(({ measures }) => measures)
  const retraced = Math.max(...all.map(({ retraceShare }) => retraceShare))
  return [
    ['Suits', suits],
    ['Largest gap', rangeOf(all, 'gapMm', 'mm')],
    ['Stitched', rangeOf(all, 'mmPerCm2', 'mm for each cm²')],
    ['Tightest curve', radiusText(Math.min(...all.map(({ radiusMm }) => radiusMm)))],
    ['Stitched twice', percentText(retraced)],
  ]
}

/** What was measured on one figure, in a line. */
export const figureWords = ({ mmPerCm2, gapMm, radiusMm, retraceShare }: Measures): string =>
  [
    `${short(mmPerCm2)} mm for each cm²`,
    `largest gap ${short(gapMm)} mm`,
    radiusText(radiusMm),
    ...(retraceShare > 0 ? [`${percentText(retraceShare)} twice`] : []),
  ].join(', ')

/** The values that a filler takes, each with its range and what it is unless said. */
export const paramRows = (params: Params): Row[] =>
  Object.entries(params).map(([key, param]) => {
    const label = param.label.toLowerCase()
    return [key, label === key ? paramText(param) : `${label}: ${paramText(param)}`]
  })

function paramText(param: Param): string {
  switch (param.kind) {
    case 'choice':
      return `${param.of.join(' or ')}; ${param.default} unless said`
    case 'length': {
      const usual =
        typeof param.default === 'number' ? sizeText(param.default) : `${param.default.widths} x the width`
      return `${rangeText(param.min, param.max)}; ${usual} unless said`
    }
    default:
      return `${param.min} to ${param.max}; ${param.default} unless said`
  }
}

const rangeOf = (all: readonly Measures[], key: 'gapMm' | 'mmPerCm2', unit: string): string => {
  const values = all.map((measures) => measures[key])
  const [least, most] = [short(Math.min(...values)), short(Math.max(...values))]
  return least === most ? `${least} ${unit}` : `${least} to ${most} ${unit}`
}

/** Tighter than this a curve is a corner, mm. */
const CORNER = 0.2

const radiusText = (mm: number): string => {
  if (mm === Number.POSITIVE_INFINITY) return 'straight lines only'
  return mm < CORNER ? 'turns on the spot' : `radius ${short(mm)} mm`
}

/** Two figures are enough to compare by. */
const short = (value: number): string => String(Number(value.toPrecision(2)))

const percentText = (share: number): string => {
  const percent = 100 * share
  if (percent === 0) return 'nothing'
  return percent < 0.1 ? 'less than 0.1 %' : `${Number(percent.toFixed(1))} %`
}
