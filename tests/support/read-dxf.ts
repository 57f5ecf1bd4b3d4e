import DxfParser from 'dxf-parser'

/** A polyline as dxf-parser understands it. */
export interface DxfPolyline {
  readonly layer: string
  readonly points: readonly (readonly [number, number])[]
  readonly bulges: readonly number[]
}

/** The polylines of a file, read by dxf-parser 1.1, in the file's unit. */
export function readDxf(text: string): DxfPolyline[] {
  const parsed = new DxfParser().parseSync(text)
  if (!parsed) throw new Error('not a DXF file')
  return parsed.entities.map((entity) => {
    if (entity.type !== 'POLYLINE') throw new Error(`unexpected ${entity.type}`)
    const { vertices } = entity as unknown as { vertices: { x: number; y: number; bulge?: number }[] }
    return {
      layer: entity.layer,
      points: vertices.map((v) => [v.x, v.y] as const),
      bulges: vertices.map((v) => v.bulge ?? 0),
    }
  })
}
