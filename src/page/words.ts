import { lengthText } from '../export/labels.ts'
import type { Option } from '../plan/options.ts'
import type { LengthUnit } from '../units.ts'
import type { Scene, ScenePart } from './worker/messages.ts'

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** What a part of the line is, in a sentence. */
export function partWords(part: ScenePart, scene: Scene, fillers: readonly string[]): string {
  const band = part.band === undefined ? undefined : scene.quilt.bands[part.band]
  const inArea = `area ${part.area + 1} of ${scene.areaCount}`
  switch (part.kind) {
    case 'fill': {
      const filler = part.band === undefined ? undefined : fillers[part.band]
      return `${capital(band?.name ?? 'centre')}${filler ? `, ${filler.toLowerCase()}` : ''}; ${inArea}`
    }
    case 'travel':
      return `Travel in a seam${part.reason ? `: ${part.reason}` : ', to get where the line goes on'}; ${inArea}`
    case 'ditch':
      return `Stitched in the ditch; ${inArea}`
    case 'crossing':
      return `Crossing: the line passes from one band into the next; ${inArea}`
    case 'tie-off':
      return `Tie-off: very short stitches that hold the thread; ${inArea}`
  }
}

/** A length in the plan's unit; small ones in inches with the nearest sixteenth. */
export const sizeText = (mm: number, units: LengthUnit): string => lengthText(mm, units)

/** Minutes as a clock shows them: 1:05 h. */
export function clockText(minutes: number): string {
  const whole = Math.floor(minutes)
  if (whole < 60) return `${whole}:${String(Math.floor((minutes - whole) * 60)).padStart(2, '0')} min`
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')} h`
}

/** A key of the plan in words: `tieOff` is Tie off. */
export const keyWords = (key: string | number): string =>
  typeof key === 'number'
    ? String(key + 1)
    : capital(
        key.replaceAll(/([A-Z])/g, (_, letter: string) => ` ${letter.toLowerCase()}`).replaceAll('-', ' '),
      )

/** What a plan writes as a word. */
export const choiceWords = (choice: string): string => choice.replaceAll('-', ' ')

/** More letters than this make a note under a field, fewer its name. */
const SHORT = 36

/** How a field is called, and what is said under it: from what the plan file's format says of its key. */
export function fieldWords(key: string | number, { about, kind }: Option): { label: string; note: string } {
  const plain = about.replace(/, (a|two|three) lengths?(?=$|\.)/, '')
  const isName = plain !== '' && plain.length <= SHORT && !/[:;,[]|CSS/.test(plain) && kind !== 'group'
  if (isName) return { label: capital(plain), note: '' }
  return { label: keyWords(key), note: plain === 'CSS colour' ? '' : capital(plain) }
}
