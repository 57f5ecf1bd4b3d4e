/** A binary heap of (key, vertex) in typed arrays, with stale entries left in place. */
export class Heap {
  private keys: Float64Array
  private items: Int32Array
  size = 0

  constructor(capacity: number) {
    this.keys = new Float64Array(capacity)
    this.items = new Int32Array(capacity)
  }

  clear(): void {
    this.size = 0
  }

  push(key: number, item: number): void {
    const { keys, items } = this
    let i = this.size++
    while (i > 0) {
      const up = (i - 1) >> 1
      if (keys[up]! <= key) break
      keys[i] = keys[up]!
      items[i] = items[up]!
      i = up
    }
    keys[i] = key
    items[i] = item
  }

  get topKey(): number {
    return this.keys[0]!
  }

  pop(): number {
    const { keys, items } = this
    const top = items[0]!
    const n = --this.size
    const key = keys[n]!
    const item = items[n]!
    let i = 0
    for (;;) {
      let down = 2 * i + 1
      if (down >= n) break
      if (down + 1 < n && keys[down + 1]! < keys[down]!) down++
      if (keys[down]! >= key) break
      keys[i] = keys[down]!
      items[i] = items[down]!
      i = down
    }
    keys[i] = key
    items[i] = item
    return top
  }
}
