import { PlanError, type Problem } from '../error.ts'
import type { FramePass } from './frame-passes.ts'
import { type PlaceContext, placeVertex } from './place-vertex.ts'
import type { Wishes } from './plan-line.ts'

const refusal = (at: string, message: string, hint: string): Problem => ({
  code: 'route/frame',
  at,
  message,
  hint,
})

/** What a frame can't do: it works from top to bottom and never goes back. */
export function refuseFrameWishes({ order, work }: Pick<Wishes, 'order' | 'work'>): void {
  const problems = [
    ...(order === 'any'
      ? []
      : [
          refusal('route.order', `a frame can't work ${order}`, 'a frame works strip by strip; leave it out'),
        ]),
    ...(work === 'laps'
      ? [refusal('route.work', "a frame can't work lap by lap", 'a frame works strip by strip; leave it out')]
      : []),
  ]
  if (problems.length > 0) throw new PlanError(problems)
}

/**
 * Where the line begins and ends on a frame, as vertices; left out where nothing is asked for.
 *
 * @throws PlanError `route/frame` for a start that is not stitched in the first pass or an end that is not stitched in
 * the last, `route/place` where nothing is stitched
 */
export function frameEnds(
  wishes: Pick<Wishes, 'start' | 'end'>,
  context: PlaceContext,
  passes: readonly FramePass[],
): { readonly start?: number; readonly end?: number } {
  const start = placeVertex(wishes.start, context, 'route.start')
  const end = placeVertex(wishes.end, context, 'route.end')
  const touches = (pass: FramePass | undefined, vertex: number) =>
    pass?.area.required.some((edge) => {
      const { u, v } = context.net.fills[edge] ?? context.net.seams[edge - context.net.fills.length]!
      return u === vertex || v === vertex
    })
  const problems = [
    ...(start !== undefined && !touches(passes[0], start)
      ? [
          refusal(
            'route.start',
            'lies below the first pass',
            'a frame begins at the top; choose a place there',
          ),
        ]
      : []),
    ...(end !== undefined && !touches(passes.at(-1), end)
      ? [refusal('route.end', 'lies above the last pass', 'a frame ends at the bottom; choose a place there')]
      : []),
  ]
  if (problems.length > 0) throw new PlanError(problems)
  return { ...(start !== undefined && { start }), ...(end !== undefined && { end }) }
}

/** With several threads each begins and ends where its own work does. */
export function refuseFrameEnds({ start, end }: Pick<Wishes, 'start' | 'end'>): void {
  const problems = Object.entries({ start, end }).flatMap(([key, place]) =>
    place.kind === 'anywhere'
      ? []
      : [
          refusal(
            `route.${key}`,
            'is not planned on a frame with several threads',
            'leave it out, or use one thread',
          ),
        ],
  )
  if (problems.length > 0) throw new PlanError(problems)
}
