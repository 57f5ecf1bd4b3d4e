/** What a stage may pass over beside its own pieces: the edges whose rank lies below a limit. */
export class Passable {
  /**
   * @param rank   per edge; shared between stages
   * @param key    the same for the same edges
   */
  constructor(
    private readonly rank: Int32Array,
    private readonly below: number,
    readonly key: string,
  ) {}

  allows(edge: number): boolean {
    return this.rank[edge]! < this.below
  }
}
