import fc from 'fast-check'

/** A well-formed repeat as SVG path data, y down: random, but with ends that join and nothing beyond them. */
export interface RandomDrawing {
  readonly path: string
  /** `level`: it ends as high as it starts; `across`: it leads from its lowest place to its highest. */
  readonly form: 'level' | 'across'
}

const round = (v: number): number => Math.round(v * 100) / 100

/** Heights of the crests and troughs in turn, mm below the top; the first and last are the ends'. */
const crests = fc.array(fc.double({ min: 0, max: 8, noNaN: true }), { minLength: 1, maxLength: 4 })
const run = fc.double({ min: 12, max: 26, noNaN: true })
const handle = fc.double({ min: 0.25, max: 0.6, noNaN: true })

/** Up and down between crests and troughs, each reached level: smooth; the pull of the handles and the steps are random. */
const wavy = fc
  .record({
    form: fc.constantFrom('level' as const, 'across' as const),
    heights: crests,
    runs: fc.array(run, { minLength: 10, maxLength: 10 }),
    handles: fc.array(handle, { minLength: 20, maxLength: 20 }),
  })
  .map(({ form, heights, runs, handles }): RandomDrawing => {
    const inner = heights.map((h, i) => (i % 2 === 0 ? h : 30 - h))
    if (form === 'level' && inner.length % 2 === 0) inner.pop()
    if (form === 'across' && inner.length % 2 === 1) inner.pop()
    const stops = [30, ...inner, form === 'level' ? 30 : 0]
    // The lowest and the highest place are there in any case.
    if (form === 'level') stops[1] = 0
    let [x, d] = [0, `M0 ${stops[0]}`]
    stops.slice(1).forEach((y, i) => {
      const [w, before] = [runs[i]!, stops[i]!]
      const [a, b] = [handles[2 * i]! * w, handles[2 * i + 1]! * w]
      d += `C${round(x + a)} ${round(before)} ${round(x + w - b)} ${round(y)} ${round(x + w)} ${round(y)}`
      x += w
    })
    return { path: d, form }
  })

/** Straight from place to place: corners. */
const angular = fc
  .record({
    steps: fc.array(
      fc.record({
        run: fc.double({ min: 3, max: 20, noNaN: true }),
        y: fc.double({ min: 2, max: 28, noNaN: true }),
      }),
      { minLength: 1, maxLength: 8 },
    ),
    peak: fc.nat({ max: 7 }),
  })
  .map(({ steps, peak }): RandomDrawing => {
    let [x, d] = [0, 'M0 30']
    steps.forEach((step, i) => {
      x += step.run
      d += `L${round(x)} ${i === peak % steps.length ? 0 : round(step.y)}`
    })
    return { path: `${d}L${round(x + 10)} 30`, form: 'level' }
  })

/** Corners that lean back over what comes next, so that the top is no place to cut at. */
const hooked = fc
  .record({
    back: fc.double({ min: 3, max: 6, noNaN: true }),
    y: fc.double({ min: 15, max: 20, noNaN: true }),
  })
  .map(
    ({ back, y }): RandomDrawing => ({
      path: `M0 30L20 0L${round(20 - back)} ${round(y)}L${round(34 + back)} 30`,
      form: 'level',
    }),
  )

/** A line that runs along, with a loop in it. */
const looped = fc
  .record({
    half: fc.double({ min: 0.25, max: 0.7, noNaN: true }),
    start: fc.double({ min: 26, max: 30, noNaN: true }),
    tail: fc.double({ min: 0, max: 12, noNaN: true }),
  })
  .map(({ half, start, tail }): RandomDrawing => {
    const w = 20 * half
    return {
      path: `M0 ${round(start)}C14 ${round(start)} ${round(24 + w)} 20 ${round(24 + w)} 10C${round(24 + w)} 0 ${round(24 - w)} 0 ${round(24 - w)} 10C${round(24 - w)} 20 ${round(34 + tail)} ${round(start)} ${round(48 + tail)} ${round(start)}`,
      form: 'level',
    }
  })

/** Repeats of every kind, as SVG path data. */
export const randomDrawing: fc.Arbitrary<RandomDrawing> = fc.oneof(wavy, angular, hooked, looped)
