import { PlanError, type Problem } from '../error.ts'
import type { Point } from '../geometry/point.ts'
import { clipConvex, isConvex, outlineArea } from './outline.ts'

/** A patch of a unit, in the unit square: x along the band, y from the inner seam (0) to the outer seam (1). */
export interface UnitPatch {
  /** Its name: what its fabric and its filler are given by. */
  readonly name: string
  readonly outline: readonly Point[]
}

/** What a pieced band is made of: one small design set again and again along it. */
export interface PiecedUnit {
  readonly title: string
  /** Length along the band over size across it. */
  readonly aspect: number
  /** The designs that take turns along the band (and from row to row). */
  readonly turns: readonly (readonly UnitPatch[])[]
  /** The turns are quarter turns of each other: a unit in a corner looks like the next turn from the next side. */
  readonly rotates?: boolean
}

const SQUARE: readonly Point[] = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
]

/** The rectangle from [x0, y0] to [x1, y1]. */
const box = (x0: number, y0: number, x1: number, y1: number): Point[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
]

const third = (i: number): number => i / 3

const RAIL_NAMES = ['first', 'second', 'third']

/** The units that a plan may name. Common practice, no source. */
export const PIECED_UNITS = {
  squares: {
    title: 'Squares',
    aspect: 1,
    turns: [[{ name: 'dark', outline: SQUARE }], [{ name: 'light', outline: SQUARE }]],
  },
  'square-on-point': {
    title: 'Square on point',
    aspect: 1,
    turns: [
      [
        {
          name: 'diamond',
          outline: [
            [0.5, 0],
            [1, 0.5],
            [0.5, 1],
            [0, 0.5],
          ],
        },
        {
          name: 'triangle',
          outline: [
            [0, 0],
            [0.5, 0],
            [0, 0.5],
          ],
        },
        {
          name: 'triangle',
          outline: [
            [1, 0],
            [1, 0.5],
            [0.5, 0],
          ],
        },
        {
          name: 'triangle',
          outline: [
            [1, 1],
            [0.5, 1],
            [1, 0.5],
          ],
        },
        {
          name: 'triangle',
          outline: [
            [0, 1],
            [0, 0.5],
            [0.5, 1],
          ],
        },
      ],
    ],
  },
  'half-square-triangle': {
    title: 'Half-square triangle',
    aspect: 1,
    turns: [
      [
        {
          name: 'dark',
          outline: [
            [0, 0],
            [1, 0],
            [0, 1],
          ],
        },
        {
          name: 'light',
          outline: [
            [1, 0],
            [1, 1],
            [0, 1],
          ],
        },
      ],
    ],
  },
  'quarter-square-triangle': {
    title: 'Quarter-square triangle',
    aspect: 1,
    turns: [
      [
        {
          name: 'dark',
          outline: [
            [0, 0],
            [1, 0],
            [0.5, 0.5],
          ],
        },
        {
          name: 'light',
          outline: [
            [1, 0],
            [1, 1],
            [0.5, 0.5],
          ],
        },
        {
          name: 'dark',
          outline: [
            [1, 1],
            [0, 1],
            [0.5, 0.5],
          ],
        },
        {
          name: 'light',
          outline: [
            [0, 1],
            [0, 0],
            [0.5, 0.5],
          ],
        },
      ],
    ],
  },
  rails: {
    title: 'Rails',
    aspect: 1,
    rotates: true,
    turns: [
      RAIL_NAMES.map((name, i) => ({ name, outline: box(third(i), 0, third(i + 1), 1) })),
      RAIL_NAMES.map((name, i) => ({ name, outline: box(0, third(i), 1, third(i + 1)) })),
    ],
  },
  'flying-geese': {
    title: 'Flying geese',
    aspect: 0.5,
    turns: [
      [
        {
          name: 'goose',
          outline: [
            [0, 0],
            [1, 0.5],
            [0, 1],
          ],
        },
        {
          name: 'sky',
          outline: [
            [0, 0],
            [1, 0],
            [1, 0.5],
          ],
        },
        {
          name: 'sky',
          outline: [
            [0, 1],
            [1, 0.5],
            [1, 1],
          ],
        },
      ],
    ],
  },
  'nine-patch': {
    title: 'Nine-patch',
    aspect: 1,
    turns: [
      Array.from({ length: 9 }, (_, i) => {
        const [x, y] = [i % 3, Math.floor(i / 3)]
        return {
          name: i % 2 === 0 ? 'dark' : 'light',
          outline: box(third(x), third(y), third(x + 1), third(y + 1)),
        }
      }),
    ],
  },
} as const satisfies Record<string, PiecedUnit>

/** The names of a unit's patches, each once. */
export const patchNames = (unit: PiecedUnit): string[] => [
  ...new Set(unit.turns.flatMap((turn) => turn.map((patch) => patch.name))),
]

/** How far a drawn unit may miss the square, as a part of its area. */
const SLACK = 1e-6

/**
 * A unit drawn by the user: named polygons that fill the unit square.
 *
 * @param at  where the unit stands in the plan, for messages
 * @throws PlanError `quilt/unit-patch` (too few corners, outside the square, not convex), `quilt/unit-overlap`,
 *   `quilt/unit-gap`: everything that is wrong
 */
export function drawnUnit(patches: readonly UnitPatch[], at = 'unit'): PiecedUnit {
  const problems = patches.flatMap((patch, i) => patchProblem(patch, `${at}[${i}]`))
  if (problems.length === 0) problems.push(...coverProblems(patches, at))
  if (problems.length > 0) throw new PlanError(problems)
  return { title: 'Drawn unit', aspect: 1, turns: [patches] }
}

function patchProblem({ name, outline }: UnitPatch, at: string): Problem[] {
  const problem = (message: string): Problem[] => [{ code: 'quilt/unit-patch', at, message }]
  if (outline.length < 3) return problem(`patch ${name} has ${outline.length} corners; must have 3 or more`)
  const outside = outline.find((p) => p.some((x) => !(x >= 0 && x <= 1)))
  if (outside) return problem(`patch ${name} has a corner at ${outside.join(', ')}; must lie in 0 to 1`)
  if (!isConvex(outline)) return problem(`patch ${name} has a hollow corner; split it into convex patches`)
  return []
}

function coverProblems(patches: readonly UnitPatch[], at: string): Problem[] {
  const areas = patches.map((patch) => Math.abs(outlineArea(patch.outline)))
  const overlaps = patches.flatMap((a, i) =>
    patches.slice(i + 1).flatMap((b): Problem[] => {
      const shared = Math.abs(outlineArea(clipConvex(a.outline, b.outline)))
      if (shared < SLACK) return []
      return [{ code: 'quilt/unit-overlap', at, message: `patches ${a.name} and ${b.name} overlap` }]
    }),
  )
  const filled = areas.reduce((sum, area) => sum + area, 0)
  if (overlaps.length > 0 || Math.abs(filled - 1) < SLACK) return overlaps
  return [
    {
      code: 'quilt/unit-gap',
      at,
      message: `the patches fill ${filled.toFixed(4)} of the square; must fill 1`,
    },
  ]
}
