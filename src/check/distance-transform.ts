/** A grid of square cells, row by row. */
export interface Grid {
  readonly columns: number
  readonly rows: number
}

/**
 * The squared distance, in cells, from each cell's centre to the centre of the nearest marked cell; Infinity if none
 * is marked.
 *
 * @param marked  1 for a marked cell, row by row
 * @source Felzenszwalb and Huttenlocher, Theory of Computing 8 (2012) 415-428: lower envelopes of parabolas
 */
export function squaredDistances(marked: Uint8Array, { columns, rows }: Grid): Float32Array {
  const field = startFrom(marked)
  const envelope = makeEnvelope(Math.max(columns, rows))
  for (let x = 0; x < columns; x++) transformLine(field, { start: x, step: columns, count: rows }, envelope)
  for (let y = 0; y < rows; y++)
    transformLine(field, { start: y * columns, step: 1, count: columns }, envelope)
  return field
}

/** 0 for a marked cell, else Infinity. */
function startFrom(marked: Uint8Array): Float32Array {
  const field = new Float32Array(marked.length).fill(Number.POSITIVE_INFINITY)
  for (let i = 0; i < marked.length; i++) if (marked[i] === 1) field[i] = 0
  return field
}

interface Walk {
  readonly start: number
  readonly step: number
  readonly count: number
}

interface Envelope {
  readonly values: Float64Array
  /** Where each parabola of the envelope has its vertex. */
  readonly vertices: Int32Array
  /** Where each begins to be the lowest. */
  readonly from: Float64Array
}

const makeEnvelope = (size: number): Envelope => ({
  values: new Float64Array(size),
  vertices: new Int32Array(size),
  from: new Float64Array(size + 1),
})

function transformLine(field: Float32Array, { start, step, count }: Walk, envelope: Envelope): void {
  const { values, vertices, from } = envelope
  let last = -1
  for (let q = 0; q < count; q++) {
    const value = field[start + q * step]!
    values[q] = value
    if (value === Infinity) continue
    let meet = -Infinity
    while (last >= 0) {
      const v = vertices[last]!
      meet = (value + q * q - values[v]! - v * v) / (2 * (q - v))
      if (meet > from[last]!) break
      last--
    }
    last++
    vertices[last] = q
    from[last] = last === 0 ? -Infinity : meet
  }
  if (last < 0) return
  let k = 0
  for (let q = 0; q < count; q++) {
    while (k < last && from[k + 1]! < q) k++
    const v = vertices[k]!
    field[start + q * step] = (q - v) * (q - v) + values[v]!
  }
}

/**
 * The greater of columns and rows between each cell and the nearest marked one; Infinity if none is marked.
 *
 * @param marked  1 for a marked cell, row by row
 * @source Rosenfeld and Pfaltz, Pattern Recognition 1 (1968) 33-61: one pass down, one up
 */
export function chessboardDistances(marked: Uint8Array, { columns, rows }: Grid): Float32Array {
  const field = startFrom(marked)
  for (let y = 0; y < rows; y++) {
    for (let x = 0; x < columns; x++) {
      const at = y * columns + x
      if (x > 0) relax(field, at, at - 1)
      if (y > 0) relaxFromRow(field, at, { above: at - columns, x, columns })
    }
  }
  for (let y = rows - 1; y >= 0; y--) {
    for (let x = columns - 1; x >= 0; x--) {
      const at = y * columns + x
      if (x + 1 < columns) relax(field, at, at + 1)
      if (y + 1 < rows) relaxFromRow(field, at, { above: at + columns, x, columns })
    }
  }
  return field
}

/** One more than the neighbour, if that is less. */
function relax(field: Float32Array, at: number, from: number): void {
  const value = field[from]! + 1
  if (value < field[at]!) field[at] = value
}

/** Looks at the three neighbours in the row before. */
function relaxFromRow(
  field: Float32Array,
  at: number,
  { above, x, columns }: { readonly above: number; readonly x: number; readonly columns: number },
): void {
  relax(field, at, above)
  if (x > 0) relax(field, at, above - 1)
  if (x + 1 < columns) relax(field, at, above + 1)
}
