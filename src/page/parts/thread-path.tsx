import { laid } from '../planning.ts'
import { edgeOf } from '../thread-edge.ts'

const PLAIN = '#ffffff'

/** A line in the plan's thread, over a faint edge. */
export function ThreadPath({ data }: { data: string }) {
  const colour = laid.value?.plan.thread.colour ?? PLAIN
  const stroke = { d: data, fill: 'none', 'vector-effect': 'non-scaling-stroke' as const }
  return (
    <>
      <path {...stroke} stroke={edgeOf(colour, 0.4)} stroke-width="2.4" />
      <path {...stroke} stroke={colour} stroke-width="1.3" />
    </>
  )
}
