import { distance, norm, type Point, subtract } from './point.ts'
import { pointAt, type Segment, splitAt } from './segment.ts'
import { eachSegment, endOf, type Stroke } from './stroke.ts'

/**
 * How far a point lies outside of a shape, mm; negative inside, 0 on its edge. It changes by no more than the distance
 * gone, so that one value says where there can be no edge.
 */
export type Outside = (p: Point) => number

/** A part of a stroke outside of a shape, and which of its ends lie where the shape's edge cut it. */
export interface OutsidePart {
  readonly stroke: Stroke
  readonly isCutAtStart: boolean
  readonly isCutAtEnd: boolean
}

/** Two crossings closer together than this are not told from none, mm. */
const FINE = 2e-3
/** Decimals to which a crossing is found: halvings of an interval of FINE. */
const HALVINGS = 24
/** A stroke that dips into the shape by less is not cut, mm: less than a thread is thick. */
const DIP = 0.05
/** A part between two cuts that strays from the edge by less is left out: stitching along the edge covers it, mm. */
const SLIVER = 0.5

/**
 * The parts of a stroke that lie outside of a shape, in order; the stroke itself if it stays outside.
 *
 * Post-condition: no point of a part is deeper inside than 0.05 mm; what is left out and outside lies within 0.5 mm of the
 * edge.
 */
export function partsOutside(stroke: Stroke, outside: Outside): OutsidePart[] {
  const runs = mergeDips(runsOf(stroke, outside))
  if (runs.length === 1 && runs[0]!.isOutside) return [{ stroke, isCutAtStart: false, isCutAtEnd: false }]
  return runs.flatMap(({ isOutside, from, segments, most }, i): OutsidePart[] => {
    const [isCutAtStart, isCutAtEnd] = [i > 0, i < runs.length - 1]
    const isSliver = most < (isCutAtStart && isCutAtEnd ? SLIVER : DIP)
    if (!isOutside || isSliver) return []
    return [{ stroke: { start: from, segments }, isCutAtStart, isCutAtEnd }]
  })
}

/** A stretch of a stroke on one side of the edge, and how far from the edge it gets, mm. */
interface SideRun {
  readonly isOutside: boolean
  readonly from: Point
  readonly segments: readonly Segment[]
  readonly most: number
}

function runsOf(stroke: Stroke, outside: Outside): SideRun[] {
  const runs: SideRun[] = []
  eachSegment(stroke, (from, segment) => {
    for (const part of splitAtCrossings(from, segment, outside)) join(runs, sideRun(part, outside))
  })
  return runs
}

function join(runs: SideRun[], next: SideRun): void {
  const last = runs.at(-1)
  if (last?.isOutside !== next.isOutside) runs.push(next)
  else
    runs[runs.length - 1] = {
      ...last,
      segments: [...last.segments, ...next.segments],
      most: Math.max(last.most, next.most),
    }
}

/** Dips too shallow to be seen are taken for outside. */
function mergeDips(runs: readonly SideRun[]): SideRun[] {
  const merged: SideRun[] = []
  for (const run of runs) join(merged, !run.isOutside && run.most < DIP ? { ...run, isOutside: true } : run)
  return merged
}

/** How many places of a segment are looked at to know how far it gets from the edge. */
const LOOKS = 12

function sideRun({ from, segment }: Part, outside: Outside): SideRun {
  const looks = Array.from({ length: LOOKS - 1 }, (_, i) => outside(pointAt(from, segment, (i + 1) / LOOKS)))
  const sum = looks.reduce((total, value) => total + value, 0)
  const most = Math.max(...looks.map(Math.abs))
  return { isOutside: sum >= 0, from, segments: [segment], most }
}

interface Part {
  readonly from: Point
  readonly segment: Segment
}

/** The segment cut wherever it crosses the edge. */
function splitAtCrossings(from: Point, segment: Segment, outside: Outside): Part[] {
  return splitSegment(from, segment, crossings(from, segment, outside))
}

/** A segment cut at ascending parameters in 0..1. */
export function splitSegment(from: Point, segment: Segment, at: readonly number[]): Part[] {
  const parts: Part[] = []
  let [start, rest, passed] = [from, segment, 0]
  for (const t of at) {
    const [part, after] = splitAt(start, rest, (t - passed) / (1 - passed))
    if (distance(start, part.to) < 1e-9 || distance(part.to, after.to) < 1e-9) continue
    parts.push({ from: start, segment: part })
    ;[start, rest, passed] = [part.to, after, t]
  }
  return [...parts, { from: start, segment: rest }]
}

/**
 * Where a segment crosses the edge of a shape: parameters in 0..1, ascending.
 *
 * Halves the segment wherever its ends' distances from the edge do not rule a crossing out, down to 0.002 mm.
 */
export function crossings(from: Point, segment: Segment, outside: Outside): number[] {
  const valueAt = (t: number) => outside(pointAt(from, segment, t))
  const speed = topSpeed(from, segment)
  const found: number[] = []
  const search = (a: Sample, b: Sample) => {
    const length = speed * (b.t - a.t)
    const isSame = a.value >= 0 === b.value >= 0
    if (isSame && (Math.abs(a.value) + Math.abs(b.value) > length || length < FINE)) return
    if (!isSame && length < FINE) {
      found.push(bisect(a, b, valueAt))
      return
    }
    const t = (a.t + b.t) / 2
    const middle = { t, value: valueAt(t) }
    search(a, middle)
    search(middle, b)
  }
  search({ t: 0, value: valueAt(0) }, { t: 1, value: valueAt(1) })
  return found
}

interface Sample {
  readonly t: number
  readonly value: number
}

/** Halves an interval with a crossing until it is nothing; the end outside. */
function bisect(a: Sample, b: Sample, valueAt: (t: number) => number): number {
  let [inner, outer] = a.value < 0 ? [a.t, b.t] : [b.t, a.t]
  for (let i = 0; i < HALVINGS; i++) {
    const t = (inner + outer) / 2
    if (valueAt(t) < 0) inner = t
    else outer = t
  }
  return outer
}

/** No part of the segment is run through faster than this, mm. */
function topSpeed(from: Point, segment: Segment): number {
  switch (segment.kind) {
    case 'line':
      return distance(from, segment.to)
    case 'arc':
      return norm(subtract(from, segment.centre)) * Math.abs(segment.sweep)
    case 'cubic': {
      const { c1, c2, to } = segment
      return 3 * Math.max(distance(from, c1), distance(c1, c2), distance(c2, to))
    }
  }
}

/** Whether a stroke can come within `reach` of a shape at all, by its ends and its length. */
export const mayMeet = (stroke: Stroke, outside: Outside, length: number): boolean =>
  outside(stroke.start) + outside(endOf(stroke)) <= length
