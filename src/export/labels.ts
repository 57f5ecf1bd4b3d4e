import { type LengthUnit, MM_PER } from '../units.ts'
import { numberText } from './number-text.ts'

/** Every text that an output says. A length is written in the plan's own unit. */

/**
 * A length for reading: inches to the nearest sixteenth as a fraction, centimetres to the millimetre, whole mm.
 *
 * @param mm  length, mm
 * @example lengthText(63.5, 'in') // '2 1/2 in'
 */
export function lengthText(mm: number, units: LengthUnit): string {
  if (units === 'in') return `${fractionText(mm / MM_PER.in)} in`
  if (units === 'cm') return `${numberText(mm / MM_PER.cm, 1)} cm`
  return `${numberText(mm, 0)} mm`
}

function fractionText(inches: number): string {
  const sixteenths = Math.round(Math.abs(inches) * 16)
  const sign = inches < 0 && sixteenths > 0 ? '-' : ''
  const whole = Math.floor(sixteenths / 16)
  let [over, under] = [sixteenths % 16, 16]
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2]
  if (over === 0) return `${sign}${whole}`
  return whole > 0 ? `${sign}${whole} ${over}/${under}` : `${sign}${over}/${under}`
}

/** A long length: yards, or metres. */
export const longLengthText = (mm: number, units: LengthUnit): string =>
  units === 'in' ? `${numberText(mm / MM_PER.yd, 1)} yd` : `${numberText(mm / MM_PER.m, 1)} m`

/** Said in every file for a machine that moves by itself. */
export const FRAME_CAUTIONS: readonly string[] = [
  'CAUTION: the machine moves by itself.',
  'Check the travel limits of your frame against the size of this path.',
  'Run the outline with the needle up first.',
  'Keep hands and hair clear, and stay at the stop switch.',
  "Follow the machine maker's instructions.",
]

const UNIT_NAMES: Readonly<Record<LengthUnit, string>> = {
  in: 'inches',
  cm: 'centimetres',
  mm: 'millimetres',
}

export const LABELS = {
  path: {
    made: 'Machine path by Ditchline',
    bounds: 'Outline only: run it with the needle up',
    quilt: (title: string): string => `Quilt: ${title}`,
    frame: (units: LengthUnit, yAxis: 'up' | 'down', origin: string): string =>
      `Coordinates in ${UNIT_NAMES[units]}, x to the right, y ${yAxis}, origin: ${origin}`,
    size: (width: string, height: string): string => `Size of the path: ${width} x ${height}`,
    speed: (spm: number, feed: string): string => `${spm} stitches a minute: feed ${feed} a minute`,
    start: (number: number, of: number): string => `Thread start ${number} of ${of}`,
  },
} as const
