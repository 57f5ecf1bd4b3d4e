import { bandName } from './band-name.ts'
import type { Drawing } from './drawing.ts'

/** A thread in plain words: its colour, and the bands that are stitched with it. */
export function threadName(drawing: Drawing, thread: string): string {
  const parts = drawing.lines.filter((line) => line.thread === thread).flatMap((line) => line.parts)
  const bands = new Set(
    parts.flatMap(({ kind, band }) => (kind === 'fill' && band !== undefined ? [band] : [])),
  )
  const names = [...bands].sort((a, b) => a - b).map((band) => bandName(drawing, band))
  return names.length > 0 ? `${thread} (${names.join(', ')})` : thread
}

/** Whether a drawing's lines are stitched with several threads. */
export const hasThreads = ({ lines }: Drawing): boolean => new Set(lines.map(({ thread }) => thread)).size > 1
