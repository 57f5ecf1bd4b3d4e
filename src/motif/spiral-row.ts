import { distanceToLine, type Point, polar } from '../geometry/point.ts'
import { type DoubleSpiral, doubleSpiral } from './double-spiral.ts'
import type { FreeStrip, LedLine } from './free-end.ts'
import { type Circle, nestle, round, slant } from './nest.ts'

const DEGREE = Math.PI / 180

/** What is the same all along a strip, and where the big spirals stand. */
export interface Frame {
  /** Up to the end line at half the width, mm. */
  readonly length: number
  readonly width: number
  /** Between lines. */
  readonly s: number
  /** Radius of a big spiral. */
  readonly big: number
  /** How far the end line leans: x per y. */
  readonly lean: number
  readonly centres: readonly Point[]
}

/** Where the spirals stand in a strip of a length in which they are round, as near to the strip's as can be. */
interface Layout {
  readonly length: number
  readonly lean: number
  readonly centres: readonly Point[]
}

/** How close the spirals of a row may stand, mm. */
export interface Room {
  /** From an end of the strip to the nearest centre. */
  readonly end: number
  /** From centre to centre. */
  readonly pitch: number
  /** By how much each of these may grow. */
  readonly give: number
}

interface Row {
  readonly s: number
  readonly count: number
  readonly room: Room
}

/** The frame for a strip: as many spirals as leave them nearly round, one more or less than the strip's repeats. */
export function frameFor(strip: FreeStrip, s: number, room: Room): Frame {
  return { width: strip.width, s, big: (strip.width - s) / 2, ...arrange(strip, s, room) }
}

function arrange(strip: FreeStrip, s: number, room: Room): Layout {
  const { repeats, length } = strip
  const strain = (layout: Layout) => Math.abs(Math.log(length / layout.length))
  return [repeats - 1, repeats, repeats + 1]
    .filter((count) => count > 0)
    .map((count) => settle(strip, { s, count, room }))
    .reduce((best, next) => (strain(next) < strain(best) ? next : best))
}

/** A layout of `count` spirals: the end line leans more where the strip is to be pressed together. */
function settle(strip: FreeStrip, row: Row): Layout {
  let layout = layOut(strip, row)
  for (let i = 0; i < 4; i++) {
    const lean = (strip.lean * layout.length) / strip.length
    layout = layOut({ ...strip, lean }, row)
  }
  return { ...layout, lean: (strip.lean * layout.length) / strip.length }
}

function layOut({ length, width, lean, returns }: FreeStrip, { s, count, room }: Row): Layout {
  const gap = lean > 0 && returns ? 2.1 * s : 1.6 * s
  const beside = lean === 0 ? room.end : Math.hypot(1, lean) * (width / 2 - s / 2 + gap)
  const least = room.end + beside + (count - 1) * room.pitch
  const most = least + (count + 1) * room.give
  const fair = Math.min(most, Math.max(least, length))
  const spare = (fair - least) / (count + 1)
  const first = room.end + spare
  const pitch = room.pitch + spare
  const centres = Array.from({ length: count }, (_, i): Point => [first + i * pitch, width / 2])
  return { length: fair, lean, centres }
}

/** Leads a line into a double spiral and out of it again. */
export function follow(line: LedLine, spiral: DoubleSpiral): void {
  const { entry, exit, segments } = doubleSpiral(spiral)
  line.to(entry).along(segments, exit.heading)
}

/** The same, led round a circle where the straight way there would cut into it. */
export function followRound(line: LedLine, circle: Circle, spiral: DoubleSpiral): void {
  leadRound(line, circle, doubleSpiral(spiral).entry.at)
  follow(line, spiral)
}

/** Leads a line past a circle, if the straight way to `at` would cut into it. */
export function leadRound(line: LedLine, { centre, radius }: Circle, at: Point): void {
  if (distanceToLine(centre, line.at, at) >= radius) return
  const [a, b] = [angleTo(centre, line.at), angleTo(centre, at)]
  const middle = Math.atan2(Math.sin(a) + Math.sin(b), Math.cos(a) + Math.cos(b))
  const side = Math.sign(Math.sin(b - a))
  line.to({ at: polar(centre, radius, middle), heading: middle + (side * Math.PI) / 2 })
}

/** The direction from one point to another, radians. */
export const angleTo = (from: Point, to: Point): number => Math.atan2(to[1] - from[1], to[0] - from[0])

/** The small spiral in the acute corner that the end line makes with the edge towards which it leans. */
export function mitreNest({ length, width, s, big, lean, centres }: Frame): Circle {
  const last = centres.at(-1)!
  const tip = length + (Math.abs(lean) * width) / 2
  const { centre, radius } = nestle({
    left: round({ centre: last, radius: big + 0.15 * s }),
    right: slant({ foot: tip - (s / 2) * Math.hypot(1, lean), slope: -Math.abs(lean) }),
    floor: 0.75 * s,
    most: width / 3,
    within: { min: last[0], max: tip },
  })
  return { centre: lean > 0 ? [centre[0], width - centre[1]] : centre, radius }
}

/** From the last big spiral through one in the mitre's acute corner to one end of the end line. */
export function closeAtMitre(line: LedLine, frame: Frame, returns: boolean): void {
  const { length, width, lean, s, big, centres } = frame
  const last = centres.at(-1)!
  const nest = mitreNest(frame)
  const towards = angleTo(nest.centre, last)
  const spiral = { ...nest, spacing: s, turn: -1 } as const
  const end: Point = [length + (returns ? -1 : 1) * lean * (width / 2), returns ? 0 : width]
  const up = returns ? -1 : 1
  if (lean > 0 !== returns) {
    // To the acute corner, round the small spiral.
    const [inAt, outAt] = returns ? [20 * DEGREE, -80 * DEGREE] : [100 * DEGREE, -65 * DEGREE]
    const angle = towards - 50 * DEGREE
    line.to({ at: polar(nest.centre, nest.radius + 0.3 * s, angle), heading: angle - 90 * DEGREE })
    follow(line, { ...spiral, radius: nest.radius - (returns ? 0.6 * s : 0), inAt, outAt })
  } else {
    // Back between the big spiral and the end line to the obtuse corner.
    const radius = nest.radius - (returns ? 0 : 0.25 * s)
    follow(line, {
      ...spiral,
      radius,
      inAt: towards - 30 * DEGREE,
      outAt: (returns ? -125 : 12) * DEGREE,
    })
    const hook: Point = [end[0] - 0.7 * s, end[1] - up * s]
    leadRound(line, { centre: last, radius: big + (returns ? 1.35 : 0.9) * s }, hook)
    line.to({ at: hook, heading: up * 95 * DEGREE })
  }
  line.to({ at: end, heading: 0 })
}
