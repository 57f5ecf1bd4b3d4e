import type { Net, SeamEdge } from './net.ts'

/** The edges of regions that no piece can be reached from are not stitched: getting there would take a line through the open. */
export function dropUnreached(seams: readonly SeamEdge[], fills: Net['fills']): SeamEdge[] {
  if (!seams.some(({ edge }) => edge)) return [...seams]
  const beside = new Map<number, number[]>()
  const join = (a: number, b: number) => {
    const list = beside.get(a)
    if (list) list.push(b)
    else beside.set(a, [b])
  }
  for (const { u, v } of [...fills, ...seams]) {
    join(u, v)
    join(v, u)
  }
  const reached = new Set(fills.map(({ u }) => u))
  const open = [...reached]
  for (let x = open.pop(); x !== undefined; x = open.pop())
    for (const y of beside.get(x) ?? [])
      if (!reached.has(y)) {
        reached.add(y)
        open.push(y)
      }
  return seams.map((seam) => {
    if (!seam.edge || seam.ditch === undefined || reached.has(seam.u)) return seam
    const { ditch: _, ...unasked } = seam
    return unasked
  })
}
