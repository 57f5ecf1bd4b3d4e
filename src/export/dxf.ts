import type { Point } from '../geometry/point.ts'
import type { Segment } from '../geometry/segment.ts'
import { bandName } from './band-name.ts'
import type { Drawing } from './drawing.ts'
import { asciiText, dxfComments } from './escape.ts'
import { defineExporter } from './exporter.ts'
import { numberText } from './number-text.ts'
import { type MachinePath, machinePath, type PathRun } from './path/machine-path.ts'
import { pathNotes } from './path/path-notes.ts'
import { TABLE_OPTIONS } from './path/path-options.ts'

/**
 * A machine path as DXF R12: POLYLINE and VERTEX. With `layers: 'thread-start'` one polyline a thread start, each on a
 * layer of its own; with `layers: 'band'` the line is cut where the band changes, and each band has its layer.
 *
 * @source AC1009 needs no more than ENTITIES; LWPOLYLINE is younger (ezdxf, "DXF file structure"); bulge = tan(sweep / 4)
 */
export default defineExporter({
  title: 'DXF R12 drawing',
  purpose: 'machine-path',
  extension: 'dxf',
  mediaType: 'image/vnd.dxf',
  unit: 'chosen',
  options: {
    ...TABLE_OPTIONS,
    layers: {
      kind: 'choice',
      label: 'A layer and a polyline for each',
      default: 'thread-start',
      of: ['thread-start', 'band'],
    },
    arcs: { kind: 'toggle', label: 'Arcs as bulges', default: false },
  },
  write(drawing, options) {
    const path = machinePath(drawing, options, options.arcs ? 'keep' : 'flatten')
    const polylines = polylinesOf(drawing, path, options.layers)
    const layers = [...new Set(polylines.map((p) => p.layer))]
    const number = (v: number) => numberText(v, options.decimals)
    const notes = pathNotes(drawing, path, options).flatMap(dxfComments)
    const tags: string[] = notes.flatMap((note) => ['999', note])
    tags.push(...section('HEADER', ['9', '$ACADVER', '1', 'AC1009', ...extents(path, number)]))
    tags.push(...section('TABLES', [...lineTypes(), ...layerTable(layers)]))
    const entities = ['0', 'SECTION', '2', 'ENTITIES']
    for (const polyline of polylines) writePolyline(polyline, number, entities)
    for (const tag of entities) tags.push(tag)
    tags.push('0', 'ENDSEC', '0', 'EOF')
    return `${tags.join('\n')}\n`
  },
})

interface Polyline {
  readonly layer: string
  readonly start: Point
  readonly segments: readonly Segment[]
}

function polylinesOf(drawing: Drawing, path: MachinePath, layers: 'thread-start' | 'band'): Polyline[] {
  if (!path.needleDown) return path.threads.map((runs) => joined('BOUNDS', runs))
  if (layers === 'thread-start') return path.threads.map((runs, i) => joined(`THREAD-${i + 1}`, runs))
  return path.threads.flatMap((runs) => byLayer(drawing, runs))
}

/** A thread cut where the layer changes. */
function byLayer(drawing: Drawing, runs: readonly PathRun[]): Polyline[] {
  const groups: { layer: string; runs: PathRun[] }[] = []
  for (const run of runs) {
    const layer = layerName(bandName(drawing, run.band), run.band)
    const last = groups.at(-1)
    if (last?.layer === layer) last.runs.push(run)
    else groups.push({ layer, runs: [run] })
  }
  return groups.map((group) => joined(group.layer, group.runs))
}

const joined = (layer: string, runs: readonly PathRun[]): Polyline => ({
  layer,
  start: runs[0]!.stroke.start,
  segments: runs.flatMap((r) => r.stroke.segments),
})

/** At most 31 capitals, digits, "-", "_" and "$". @source R12 symbol names (value from memory) */
function layerName(name: string, band: number | undefined): string {
  const plain = asciiText(name)
    .toUpperCase()
    .replace(/[^A-Z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
  const number = band === undefined || band < 0 ? '' : `${band + 1}-`
  return `${number}${plain}`.slice(0, 31).replace(/-+$/, '') || 'LINE'
}

const section = (name: string, tags: readonly string[]): string[] => [
  '0',
  'SECTION',
  '2',
  name,
  ...tags,
  '0',
  'ENDSEC',
]

function extents({ box }: MachinePath, number: (v: number) => string): string[] {
  const corner = (name: string, x: number, y: number) => [
    '9',
    name,
    '10',
    number(x),
    '20',
    number(y),
    '30',
    '0',
  ]
  return [...corner('$EXTMIN', box.minX, box.minY), ...corner('$EXTMAX', box.maxX, box.maxY)]
}

const lineTypes = (): string[] => [
  ...['0', 'TABLE', '2', 'LTYPE', '70', '1'],
  ...['0', 'LTYPE', '2', 'CONTINUOUS', '70', '0', '3', 'Solid line', '72', '65', '73', '0', '40', '0'],
  ...['0', 'ENDTAB'],
]

function layerTable(layers: readonly string[]): string[] {
  const rows = layers.flatMap((name, i) => [
    '0',
    'LAYER',
    '2',
    name,
    '70',
    '0',
    '62',
    String((i % 6) + 1),
    '6',
    'CONTINUOUS',
  ])
  return ['0', 'TABLE', '2', 'LAYER', '70', String(layers.length), ...rows, '0', 'ENDTAB']
}

/** A bulge belongs to the vertex before its arc. */
function writePolyline(
  { layer, start, segments }: Polyline,
  number: (v: number) => string,
  tags: string[],
): void {
  tags.push('0', 'POLYLINE', '8', layer, '66', '1', '10', '0', '20', '0', '30', '0', '70', '0')
  const vertex = ([x, y]: Point, next: Segment | undefined) => {
    tags.push('0', 'VERTEX', '8', layer, '10', number(x), '20', number(y), '30', '0')
    if (next?.kind === 'arc') tags.push('42', numberText(Math.tan(next.sweep / 4), 6))
  }
  vertex(start, segments[0])
  segments.forEach((segment, i) => {
    vertex(segment.to, segments[i + 1])
  })
  tags.push('0', 'SEQEND', '8', layer)
}
