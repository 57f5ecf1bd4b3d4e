declare module 'edmonds-blossom-fixed' {
  /** Maximum-weight matching; with `maxCardinality`, among those of most pairs. Partner of each vertex, or -1. */
  export default function edmonds(edges: [number, number, number][], maxCardinality?: boolean): number[]
}
