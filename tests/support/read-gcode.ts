import { createRequire } from 'node:module'

interface Modal {
  readonly motion: string
}
interface Place {
  readonly x: number
  readonly y: number
}
interface Toolpath {
  loadFromStringSync(text: string): void
}
type ToolpathClass = new (handlers: {
  addLine: (modal: Modal, from: Place, to: Place) => void
  addArcCurve: (modal: Modal, from: Place, to: Place, centre: Place) => void
}) => Toolpath

const loaded = createRequire(import.meta.url)('gcode-toolpath')
const ToolpathReader: ToolpathClass = loaded.default ?? loaded

/** One move as gcode-toolpath understands it, mm. */
export interface GcodeMove {
  readonly motion: string
  readonly from: readonly [number, number]
  readonly to: readonly [number, number]
  readonly centre?: readonly [number, number]
}

/** The moves of a file, read by gcode-toolpath 3, which answers in mm whatever the file's unit. */
export function readGcode(text: string): GcodeMove[] {
  const moves: GcodeMove[] = []
  const at = (p: Place) => [p.x, p.y] as const
  new ToolpathReader({
    addLine: (modal, from, to) => moves.push({ motion: modal.motion, from: at(from), to: at(to) }),
    addArcCurve: (modal, from, to, centre) =>
      moves.push({ motion: modal.motion, from: at(from), to: at(to), centre: at(centre) }),
  }).loadFromStringSync(text)
  return moves
}
