import type { Ground } from './slot.ts'
import { againCost, type Mix, mixesOf, pairCost, type Scales } from './weigh.ts'

/** How often all choices are looked over again for fillers that come too often. */
const SWEEPS = 4

/**
 * A mix for every ground, so that all together cost least: the best row of neighbours first (dynamic programming over the
 * grounds from the inside out), then each ground once more, with an eye on the fillers of all the others.
 */
export function pickMixes(grounds: readonly Ground[], scales: Scales): Mix[] {
  const mixes = grounds.map((ground) => mixesOf(ground, scales))
  const stitched = grounds.flatMap((_, i) => (mixes[i]!.some(isStitched) ? [i] : []))
  const isOpen = (i: number) => grounds[i]!.slots.some(({ isAuto }) => isAuto)
  const row: Row = {
    mixes: stitched.map((i) => mixes[i]!),
    isOpen: stitched.map(isOpen),
  }
  const picked = lookOver(row, bestRow(row))
  return grounds.map((_, i) => {
    const at = stitched.indexOf(i)
    return at < 0 ? mixes[i]![0]! : picked[at]!
  })
}

const isStitched = ({ perArea }: Mix): boolean => perArea > 0

/** Neighbours in order, each with its mixes; open are those whose filler may be chosen. */
interface Row {
  readonly mixes: readonly (readonly Mix[])[]
  readonly isOpen: readonly boolean[]
}

const between = ({ isOpen }: Row, i: number, a: Mix, b: Mix): number =>
  pairCost(a, b, isOpen[i]! || isOpen[i + 1]!)

function bestRow(row: Row): Mix[] {
  const { mixes } = row
  if (mixes.length === 0) return []
  let costs = mixes[0]!.map(({ cost }) => cost)
  const cameFrom: number[][] = []
  for (let i = 1; i < mixes.length; i++) {
    const steps = mixes[i]!.map((mix) => {
      const ways = mixes[i - 1]!.map((before, k) => costs[k]! + between(row, i - 1, before, mix))
      const least = Math.min(...ways)
      return { from: ways.indexOf(least), cost: least + mix.cost }
    })
    cameFrom.push(steps.map(({ from }) => from))
    costs = steps.map(({ cost }) => cost)
  }
  let at = costs.indexOf(Math.min(...costs))
  const picked = [mixes.at(-1)![at]!]
  for (let i = mixes.length - 1; i > 0; i--) {
    at = cameFrom[i - 1]![at]!
    picked.unshift(mixes[i - 1]![at]!)
  }
  return picked
}

function lookOver(row: Row, first: readonly Mix[]): Mix[] {
  const picked = [...first]
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    let isSame = true
    picked.forEach((now, i) => {
      const best = bestAt(row, picked, i)
      if (best !== now) isSame = false
      picked[i] = best
    })
    if (isSame) break
  }
  return picked
}

function bestAt(row: Row, picked: readonly Mix[], i: number): Mix {
  const others = picked.filter((_, k) => Math.abs(k - i) > 1)
  const costs = row.mixes[i]!.map(
    (mix) =>
      mix.cost +
      (i > 0 ? between(row, i - 1, picked[i - 1]!, mix) : 0) +
      (i + 1 < picked.length ? between(row, i, mix, picked[i + 1]!) : 0) +
      (row.isOpen[i] ? againCost(mix, others) : 0),
  )
  return row.mixes[i]![costs.indexOf(Math.min(...costs))]!
}
