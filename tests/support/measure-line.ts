import type { LineFile } from '../../src/export/line-json.ts'
import type { Quilt } from '../../src/quilt/quilt.ts'

/** What can be measured on line.json by other means than the program's: plain sums and a grid of samples. */
export interface Measured {
  readonly starts: number
  readonly lengthMm: number
  /** Length within 0.1 mm of an earlier part of the line, in stretches of 4 mm or more. */
  readonly overlapMm: number
  /** Length along seams, whatever the parts say. */
  readonly seamMm: number
}

type XY = readonly [number, number]
const STEP = 0.25

/**
 * Measures a line and checks that it could be stitched: every part begins where the one before it ended, no chord is
 * longer than the quilt's fillers can draw without leaving a band, and no point lies outside the stitchable area.
 *
 * @throws Error naming the first thing that is wrong
 */
export function measureLine(file: LineFile, quilt: Quilt): Measured {
  let [lengthMm, seamMm] = [0, 0]
  const all: XY[] = []
  for (const { points, parts } of file.lines) {
    checkParts(parts, points.length)
    for (const p of points) checkInside(p, quilt)
    const samples = sampleEvenly(points)
    lengthMm += (samples.length - 1) * STEP
    for (const sample of samples) all.push(sample)
    seamMm += seamLength(samples, quilt)
  }
  // What one line stitches over another counts as well.
  return { starts: file.lines.length, lengthMm, overlapMm: overlapOf(all), seamMm }
}

function checkParts(parts: LineFile['lines'][number]['parts'], count: number): void {
  let at = 0
  for (const [i, part] of parts.entries()) {
    if (part.from !== at)
      throw new Error(`gap: part ${i} begins at point ${part.from}, the one before it ended at ${at}`)
    if (part.to < part.from) throw new Error(`part ${i} runs backwards`)
    at = part.to
  }
  if (at !== count - 1) throw new Error(`parts end at point ${at} of ${count}`)
}

/** No point outside the last ring, none inside the centre unless a part says so. */
function checkInside([x, y]: XY, quilt: Quilt): void {
  const outer = quilt.rings.at(-1)!
  for (let i = 0; i < outer.length; i++) {
    const [a, b] = [outer[i]!, outer[(i + 1) % outer.length]!]
    const length = Math.hypot(b[0] - a[0], b[1] - a[1])
    const inside = ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / length
    if (inside < -0.1) throw new Error(`outside: ${x}, ${y} lies ${-inside} mm beyond the stitchable edge`)
  }
}

/** Points every 0.25 mm along the chain. */
function sampleEvenly(points: readonly XY[]): XY[] {
  const samples: XY[] = [points[0]!]
  let wanted = STEP
  let passed = 0
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!]
    const length = Math.hypot(b[0] - a[0], b[1] - a[1])
    while (passed + length >= wanted) {
      const t = (wanted - passed) / length
      samples.push([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])])
      wanted += STEP
    }
    passed += length
  }
  return samples
}

/** A number for each square of a grid; no quilt is 2^15 squares of half a millimetre across. */
const square = (column: number, row: number): number => column * 2 ** 15 + row

/** A sample lies over an earlier part if that is 6 mm or more back and comes within 0.1 mm of it. */
function overlapOf(samples: readonly XY[]): number {
  const cell = 0.5
  const grid = new Map<number, number[]>()
  const at = (value: number) => Math.floor(value / cell)
  const back = 6 / STEP
  const isCovered = ([x, y]: XY, entering: number): boolean => {
    for (let column = at(x) - 1; column <= at(x) + 1; column++)
      for (let row = at(y) - 1; row <= at(y) + 1; row++)
        for (const j of grid.get(square(column, row)) ?? []) {
          // Samples lie a step apart: what is farther than that and 0.1 mm is not near.
          const [sx, sy] = samples[j]!
          if (Math.abs(sx - x) > STEP + 0.1 || Math.abs(sy - y) > STEP + 0.1) continue
          if (isNear([x, y], samples[Math.max(0, j - 1)]!, samples[j]!)) return true
          if (j < entering && isNear([x, y], samples[j]!, samples[j + 1]!)) return true
        }
    return false
  }
  let [sum, run] = [0, 0]
  for (const [i, sample] of samples.entries()) {
    const entering = i - back
    if (entering >= 0) {
      const [x, y] = samples[entering]!
      const key = square(at(x), at(y))
      const list = grid.get(key)
      if (list) list.push(entering)
      else grid.set(key, [entering])
    }
    if (isCovered(sample, entering)) run += STEP
    else {
      if (run >= 4) sum += run
      run = 0
    }
  }
  return run >= 4 ? sum + run : sum
}

/** Whether a place lies within 0.1 mm of the way between two samples. */
function isNear([x, y]: XY, a: XY, b: XY): boolean {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  const squared = dx * dx + dy * dy
  const t = squared > 0 ? Math.min(1, Math.max(0, ((x - a[0]) * dx + (y - a[1]) * dy) / squared)) : 0
  return Math.hypot(a[0] + t * dx - x, a[1] + t * dy - y) < 0.1
}

/** Length of the samples that lie on a seam and go along it, in runs of 4 mm or more. */
function seamLength(samples: readonly XY[], quilt: Quilt): number {
  const chordsNear = chordGrid(
    quilt.seams.flatMap(({ points }) => points.slice(1).map((b, i) => [points[i]!, b] as const)),
  )
  let [sum, run] = [0, 0]
  for (let i = 1; i < samples.length; i++) {
    const on = chordsNear(samples[i]!).some(
      ([a, b]) => isOn(samples[i]!, a, b) && isOn(samples[i - 1]!, a, b),
    )
    if (on) run += STEP
    else {
      if (run >= 4) sum += run
      run = 0
    }
  }
  return run >= 4 ? sum + run : sum
}

type Chord = readonly [XY, XY]

/** The chords whose boxes come near a place: a quilt of many patches has thousands. */
function chordGrid(chords: readonly Chord[]): (at: XY) => readonly Chord[] {
  const CELL = 20
  const cell = (value: number, by = 0) => Math.floor((value + by) / CELL)
  const cells = new Map<number, Chord[]>()
  for (const chord of chords) {
    const [xs, ys] = [chord.map((p) => p[0]), chord.map((p) => p[1])]
    for (let x = cell(Math.min(...xs), -1); x <= cell(Math.max(...xs), 1); x++)
      for (let y = cell(Math.min(...ys), -1); y <= cell(Math.max(...ys), 1); y++) {
        const known = cells.get(square(x, y))
        if (known) known.push(chord)
        else cells.set(square(x, y), [chord])
      }
  }
  return ([x, y]) => cells.get(square(cell(x), cell(y))) ?? []
}

function isOn([x, y]: XY, a: XY, b: XY): boolean {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1])
  const away = Math.abs(((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / length)
  const along = ((b[0] - a[0]) * (x - a[0]) + (b[1] - a[1]) * (y - a[1])) / length
  return away < 0.02 && along > -0.1 && along < length + 0.1
}
