/** Disjoint sets over 0..size-1, with path halving and union by size (Tarjan 1975). */
export class UnionFind {
  private parent: Int32Array
  private size: Int32Array

  constructor(count: number) {
    this.parent = new Int32Array(count)
    this.size = new Int32Array(count)
    this.reset()
  }

  /** Puts every element back into a set of its own. */
  reset(): void {
    for (let i = 0; i < this.parent.length; i++) this.parent[i] = i
    this.size.fill(1)
  }

  /** The same sets, to be joined on their own from here. */
  copy(): UnionFind {
    const same = new UnionFind(0)
    same.parent = this.parent.slice()
    same.size = this.size.slice()
    return same
  }

  /** The representative of the set of `x`. */
  find(x: number): number {
    const parent = this.parent
    let at = x
    while (parent[at] !== at) {
      const up = parent[parent[at]!]!
      parent[at] = up
      at = up
    }
    return at
  }

  /** Joins the sets of `a` and `b`; false if they were one already. */
  union(a: number, b: number): boolean {
    let x = this.find(a)
    let y = this.find(b)
    if (x === y) return false
    if (this.size[x]! < this.size[y]!) [x, y] = [y, x]
    this.parent[y] = x
    this.size[x] = this.size[x]! + this.size[y]!
    return true
  }
}
