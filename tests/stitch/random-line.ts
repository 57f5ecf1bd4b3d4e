import fc from 'fast-check'
import type { Point } from '../../src/geometry/point.ts'
import { add, polar, subtract } from '../../src/geometry/point.ts'
import type { Segment } from '../../src/geometry/segment.ts'
import { arc, cubic, line as straight } from '../../src/geometry/segment.ts'
import { endOf } from '../../src/geometry/stroke.ts'
import type { Line, LinePart } from '../../src/stitch/line.ts'

/** One step of a random line: what is drawn, how it turns from the direction before, how large it is. */
interface Step {
  readonly kind: 'line' | 'arc' | 'cubic' | 'chain'
  readonly turn: number
  readonly length: number
  readonly bend: number
}

const steps = (turn: fc.Arbitrary<number>, length: { min: number; max: number }) =>
  fc.record({
    kind: fc.constantFrom('line' as const, 'arc' as const, 'cubic' as const, 'chain' as const),
    turn,
    length: fc.double({ ...length, noNaN: true }),
    bend: fc.double({ min: -2.6, max: 2.6, noNaN: true }),
  })

function segmentsOf({ kind, turn, length, bend }: Step, from: Point, heading: number) {
  const start = heading + turn
  const end = start + bend
  if (kind === 'line') return { segments: [straight(polar(from, length, start))], heading: start }
  if (kind === 'cubic') {
    const to = polar(from, length, start + bend / 2)
    const segments = [cubic(polar(from, length / 3, start), subtract(to, polar([0, 0], length / 3, end)), to)]
    return { segments, heading: end }
  }
  const sweep = Math.abs(bend) < 0.05 ? 0.05 : bend
  const radius = length / sweep
  const centre = add(from, polar([0, 0], radius, start + Math.PI / 2))
  const at = (share: number) => add(centre, polar([0, 0], radius, start - Math.PI / 2 + sweep * share))
  if (kind === 'arc') return { segments: [arc(at(1), centre, sweep)], heading: start + sweep }
  const count = Math.max(2, Math.ceil(Math.abs(sweep) / 0.2))
  const segments: Segment[] = Array.from({ length: count }, (_, i) => straight(at((i + 1) / count)))
  return { segments, heading: start + sweep }
}

function lineOf(drawn: readonly Step[], start: Point): Line {
  const parts: LinePart[] = []
  let [from, heading] = [start, 0]
  drawn.forEach((step, i) => {
    const next = segmentsOf(step, from, heading)
    const stroke = { start: from, segments: next.segments }
    parts.push({ kind: 'fill', band: i % 3, area: 0, stroke })
    from = endOf(stroke)
    heading = next.heading
  })
  return { parts, thread: '#443322' }
}

const turns = fc.oneof(fc.constant(0), fc.double({ min: -3.1, max: 3.1, noNaN: true }))

/** Lines of straight pieces, arcs, cubics and chains of short chords, with smooth joints and cusps. */
export const someLine = fc
  .tuple(fc.array(steps(turns, { min: 4, max: 60 }), { minLength: 1, maxLength: 12 }), fc.nat(500))
  .map(([drawn, x]) => lineOf(drawn, [x - 250, x / 3]))

/** Lines with steps far shorter than a stitch and bends far tighter. */
export const someCrampedLine = fc
  .array(steps(turns, { min: 0.05, max: 3 }), { minLength: 4, maxLength: 40 })
  .map((drawn) => lineOf(drawn, [7, -3]))
