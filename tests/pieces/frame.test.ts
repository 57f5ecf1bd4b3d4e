import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { MOTIFS } from '../../motifs/index.ts'
import { boundsOf, flattenStroke } from '../../src/geometry/stroke.ts'
import { planLine } from '../../src/pieces/plan-line.ts'
import { fillQuilt, lineTaskOf } from '../../src/pipeline.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { anyPlan } from '../support/random-plans.ts'
import { SAMPLES } from '../support/samples.ts'

const catalog = { motifs: MOTIFS }
const THROAT = 18 * 25.4
const onFrame = SAMPLES['harbour-medallion']!.replace(
  /machine: .*/,
  'machine: { kind: frame, throat: 18 in }',
)

describe('the nine-band sample on a frame with a throat of 18 in', () => {
  const { plan } = readPlan(onFrame, catalog)
  const task = lineTaskOf(fillQuilt(plan, catalog))
  const { lines, frame, route, graph } = planLine(task)

  it('keeps every pass within its strip', () => {
    for (const part of lines.flatMap(({ parts }) => parts)) {
      if (part.stroke.segments.length === 0) continue
      const { minY, maxY } = boundsOf(flattenStroke(part.stroke, 0.1))
      const { top, bottom } = frame!.passes[part.area]!
      expect(bottom - top).toBeCloseTo(THROAT, 6)
      expect(minY).toBeGreaterThanOrEqual(top - 0.2)
      expect(maxY).toBeLessThanOrEqual(bottom + 0.2)
    }
  })

  it('works down the quilt and never goes back', () => {
    const areas = lines.flatMap(({ parts }) => parts.map(({ area }) => area))
    expect(areas).toEqual([...areas].sort((a, b) => a - b))
    const { passes } = frame!
    for (const [i, pass] of passes.entries())
      if (i > 0) expect(pass.top).toBeLessThanOrEqual(passes[i - 1]!.bottom - plan.machine.overlap! + 1e-6)
  })

  it('stitches every required piece once, in its pass', () => {
    const passOf = new Map<number, number>()
    for (const { edge, area } of route.walks.flatMap(({ steps }) => steps))
      if (!passOf.has(edge)) passOf.set(edge, area)
    graph.edges.forEach(({ required }, edge) => {
      if (required) expect(frame!.passes[passOf.get(edge)!]!.area.required).toContain(edge)
    })
    expect(route.overlapMm).toBe(0)
  })

  it('has as few starts as the passes allow', () => {
    expect(route.walks).toHaveLength(frame!.startsBound)
    expect(route.walks).toHaveLength(1)
  })
})

describe('wishes on a frame', () => {
  const planned = (route: string) => {
    const { plan } = readPlan(`${onFrame}\nroute: ${route}\n`, catalog)
    return planLine(lineTaskOf(fillQuilt(plan, catalog)))
  }

  it.each([
    ['{ order: middle-out }', /route\.order/],
    ['{ work: laps }', /route\.work/],
    ['{ start: bottom-left }', /route\.start/],
    ['{ end: top-left }', /route\.end/],
  ])('refuses %s, with its place', (route, message) => {
    expect(() => planned(route)).toThrow(message)
  })

  it('begins in the corner that is asked for if that lies in the first pass', () => {
    const { lines, net, route } = planned('{ start: top-left }')
    const [x, y] = net.positions[route.walks[0]!.start]!
    expect(Math.hypot(x, y)).toBeLessThan(60)
    const at = lines[0]!.parts[0]!.stroke.start
    expect(Math.hypot(at[0] - x, at[1] - y)).toBeLessThan(0.01)
  })
})

it('any plan on a frame stays in its strips, works downward, stitches all and starts as seldom as its passes allow', () => {
  fc.assert(
    fc.property(anyPlan(3), fc.integer({ min: 16, max: 24 }), (file, throat) => {
      const text = JSON.stringify({ ...file, machine: { kind: 'frame', throat } })
      const { plan } = readPlan(text, catalog)
      let planned: ReturnType<typeof planLine>
      try {
        planned = planLine(lineTaskOf(fillQuilt(plan, catalog)))
      } catch (error) {
        expect(String(error)).toMatch(/throat/)
        return
      }
      const { frame, route, graph, lines } = planned
      expect(route.walks).toHaveLength(frame!.startsBound)
      const steps = route.walks.flatMap((walk) => walk.steps)
      expect(steps.map(({ area }) => area)).toEqual(steps.map(({ area }) => area).sort((a, b) => a - b))
      const stitched = new Set(steps.map(({ edge }) => edge))
      expect(graph.edges.every(({ required }, edge) => !required || stitched.has(edge))).toBe(true)
      for (const { area, stroke } of lines.flatMap(({ parts }) => parts)) {
        if (stroke.segments.length === 0) continue
        const { minY, maxY } = boundsOf(flattenStroke(stroke, 0.1))
        expect(minY).toBeGreaterThanOrEqual(frame!.passes[area]!.top - 0.6)
        expect(maxY).toBeLessThanOrEqual(frame!.passes[area]!.bottom + 0.6)
      }
    }),
    { seed: 7, numRuns: 6 },
  )
})

it('refuses a filler whose pieces are deeper than the throat, with the band', () => {
  const text = JSON.stringify({
    centre: { width: 30, height: 30 },
    bands: [{ name: 'rails', width: 4, filler: 'echo-rails' }],
    machine: { kind: 'frame', throat: 3 },
  })
  const { plan } = readPlan(text, catalog)
  expect(() => planLine(lineTaskOf(fillQuilt(plan, catalog)))).toThrow(/bands\[0\].*throat/)
})

describe('seams asked for', () => {
  const withDitch = (ditch: unknown) => {
    const file = {
      centre: { width: 10, height: 13 },
      bands: [
        { name: 'sand', width: 1, filler: 'bracket' },
        { name: 'rope', width: 1.5, filler: 'loop-line' },
        { name: 'foam', width: 1.5, filler: 'scallop' },
      ],
      route: { ditch },
    }
    const { plan } = readPlan(JSON.stringify(file), catalog)
    return planLine(lineTaskOf(fillQuilt(plan, catalog)))
  }
  const ditchLength = ({ lines }: ReturnType<typeof planLine>) =>
    lines
      .flatMap(({ parts }) => parts)
      .filter(({ kind }) => kind === 'ditch')
      .reduce((sum, { stroke }) => {
        const points = flattenStroke(stroke, 0.1)
        return (
          sum +
          points.slice(1).reduce((s, p, i) => s + Math.hypot(p[0] - points[i]![0], p[1] - points[i]![1]), 0)
        )
      }, 0)

  it('are stitched in the ditch, whole and once, in the same line', () => {
    const planned = withDitch([{ inside: 'rope' }])
    expect(planned.lines).toHaveLength(1)
    expect(ditchLength(planned)).toBeCloseTo(2 * (12 + 15) * 25.4, 6)
  })

  it('add the seams at the corners', () => {
    const planned = withDitch([{ corners: 'sand' }])
    expect(planned.lines).toHaveLength(1)
    expect(ditchLength(planned)).toBeCloseTo(4 * Math.SQRT2 * 25.4, 6)
  })

  it('are none unless asked for', () => {
    expect(ditchLength(withDitch([]))).toBe(0)
  })
})
