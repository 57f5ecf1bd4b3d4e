/** A thread put in, and the passes of a frame that are worked with it one after the other. */
export interface ThreadTurn {
  readonly thread: string
  readonly passes: readonly number[]
}

/**
 * The order in which threads are put in on a frame, where a pass is done before the next begins: the thread that ends a
 * pass goes on in the next wherever that needs it, so that threads are changed as seldom as can be.
 *
 * @param passes  the threads that each pass needs, none twice
 * @source dynamic programming over the thread that ends each pass; a change is saved wherever the next pass begins with it
 */
export function orderThreads(passes: readonly (readonly string[])[]): ThreadTurn[] {
  const turns: { thread: string; passes: number[] }[] = []
  bestOrders(passes).forEach((order, pass) => {
    for (const thread of order) {
      const last = turns.at(-1)
      if (last?.thread === thread) last.passes.push(pass)
      else turns.push({ thread, passes: [pass] })
    }
  })
  return turns
}

interface State {
  readonly saved: number
  /** The order of threads in each pass so far. */
  readonly orders: readonly (readonly string[])[]
}

/** For each pass, its threads in the order of work. */
function bestOrders(passes: readonly (readonly string[])[]): readonly (readonly string[])[] {
  let states = new Map<string, State>([['', { saved: 0, orders: [] }]])
  for (const threads of passes) {
    const next = new Map<string, State>()
    for (const [before, state] of states)
      for (const order of ordersOf(threads, before)) {
        const saved = state.saved + (order[0] === before ? 1 : 0)
        const end = order.at(-1) ?? before
        const known = next.get(end)
        if (!known || saved > known.saved) next.set(end, { saved, orders: [...state.orders, order] })
      }
    states = next
  }
  return [...states.values()].reduce((best, state) => (state.saved > best.saved ? state : best)).orders
}

/** Orders worth trying: with the thread that is in the machine first, or any, and each of the others last. */
function ordersOf(threads: readonly string[], before: string): (readonly string[])[] {
  if (threads.length < 2) return [threads]
  return threads.flatMap((first) =>
    threads
      .filter((last) => last !== first)
      .filter(() => first === before || !threads.includes(before))
      .map((last) => [first, ...threads.filter((t) => t !== first && t !== last), last]),
  )
}
