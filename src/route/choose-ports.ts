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
 * The cheapest sequence of handovers by the stages' tables, estimates among them; undefined if there is none. Stages are
 * asked to make sure of what the choice rests on, until it rests on nothing else.
 */
export function estimatePorts(problem: PortProblem): PortChoice | undefined {
  for (;;) {
    const choice = cheapestPorts(problem)
    if (!choice || !changes(problem, choice, (stage, p, q) => stage.makeSure(p, q))) return choice
  }
}

/** Whether anything that a choice rests on changes. */
function changes(
  { stages }: PortProblem,
  { ports }: PortChoice,
  change: (stage: Stage, p: number, q: number) => boolean,
): boolean {
  let changed = false
  stages.forEach((stage, s) => {
    if (change(stage, ports[s]!, ports[s + 1]!)) changed = true
  })
  return changed
}

/**
 * The cheapest sequence of handovers by dynamic programming over the stages' tables as they are.
 *
 * @source the hierarchical Chinese postman with a linear order: Dror, Stern, Trudeau, Networks 17 (1987)
 */
function cheapestPorts({ stages, handovers, startCost }: PortProblem): PortChoice | undefined {
  let reach = handovers[0]!.map(() => 0)
  const back: number[][] = []
  stages.forEach((stage, s) => {
    const from: number[] = []
    const starting = (q: number) => (s + 1 < stages.length && q === ANYWHERE ? startCost : 0)
    // No stage costs less than nothing, so whoever comes after one that is far behind need not be asked.
    const soonest = [...reach.keys()].sort((i, j) => reach[i]! - reach[j]! || i - j)
    const before = reach
    reach = handovers[s + 1]!.map((q, j) => {
      let best = Number.POSITIVE_INFINITY
      for (const i of soonest) {
        if (!(before[i]! + starting(q) < best)) break
        const cost = before[i]! + stage.cost(handovers[s]![i]!, q) + starting(q)
        if (cost >= best) continue
        best = cost
        from[j] = i
      }
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
    if (!choice || !changes(problem, choice, (stage, p, q) => stage.settle(p, q))) return choice
  }
}
