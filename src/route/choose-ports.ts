import { ANYWHERE, type Stage } from './stage.ts'

/** A choice of handovers: `ports[s]` is where stage s begins and `ports[s + 1]` where it ends; ANYWHERE inside = a new start. */
export interface PortChoice {
  readonly ports: readonly number[]
  readonly cost: number
}

/** What to choose from: the stages in order, and for each of the stages + 1 handovers its candidates. */
export interface PortProblem {
  readonly stages: readonly Stage[]
  readonly handovers: readonly (readonly number[])[]
  /** The cost of a new thread start, in the stages' unit. */
  readonly startCost: number
}

/**
 * The cheapest sequence of handovers by dynamic programming over the stages' tables, estimates among them; undefined if
 * there is none.
 *
 * @source the hierarchical Chinese postman with a linear order: Dror, Stern, Trudeau, Networks 17 (1987)
 */
export function estimatePorts({ stages, handovers, startCost }: PortProblem): PortChoice | undefined {
  let reach = handovers[0]!.map(() => 0)
  const back: number[][] = []
  stages.forEach((stage, s) => {
    const inner = s + 1 < stages.length
    const from: number[] = []
    reach = handovers[s + 1]!.map((q, j) => {
      let best = Number.POSITIVE_INFINITY
      handovers[s]!.forEach((p, i) => {
        if (!(reach[i]! < best)) return
        const cost = reach[i]! + stage.cost(p, q) + (inner && q === ANYWHERE ? startCost : 0)
        if (cost >= best) return
        best = cost
        from[j] = i
      })
      return best
    })
    back.push(from)
  })
  let at = reach.indexOf(Math.min(...reach))
  const cost = reach[at]!
  if (cost === undefined || !Number.isFinite(cost)) return undefined
  const ports = [handovers[stages.length]![at]!]
  for (let s = stages.length - 1; s >= 0; s--) {
    at = back[s]![at]!
    ports.unshift(handovers[s]![at]!)
  }
  return { ports, cost }
}

/**
 * The cheapest handovers, with every pair that is used settled for good: the tables of disconnected stages are estimates
 * at first, so the choice is repeated until it rests on settled values only.
 */
export function choosePorts(problem: PortProblem): PortChoice | undefined {
  for (;;) {
    const choice = estimatePorts(problem)
    if (!choice) return undefined
    let changed = false
    problem.stages.forEach((stage, s) => {
      if (stage.settle(choice.ports[s]!, choice.ports[s + 1]!)) changed = true
    })
    if (!changed) return choice
  }
}
