import { describe, expect, it } from 'vitest'
import { solvePostman } from '../../src/route/index.ts'
import { assertValidRoute } from './assert-valid-route.ts'
import { readInstances } from './rpp-data.ts'

/** From so many rounds on the exact search may price cuts, which it does where it is not done at once. */
const iterations = 200

/** Published instances whose pieces lie apart, so that parity alone does not join them. */
const NAMES = ['R6', 'R8', 'P16', 'P23', 'D20', 'G18']

describe('the exact search with prices on cuts', () => {
  const instances = readInstances().filter(({ name }) => NAMES.includes(name))

  it.each(instances.map((instance) => [instance.name, instance] as const))(
    'finds the published optimum of %s',
    (_, { graph, requiredLength, closed }) => {
      const { walk, cost } = solvePostman(graph, { closed: true, iterations })
      assertValidRoute(graph, { walks: [walk], extra: cost })
      expect(requiredLength + cost).toBeCloseTo(closed!, 6)
    },
  )
})
