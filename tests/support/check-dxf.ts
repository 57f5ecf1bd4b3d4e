/** What value a group code takes. @source P. Bourke, Minimum requirements for creating a DXF file, 1990/93 */
const FORMS: readonly (readonly [from: number, to: number, form: RegExp])[] = [
  [0, 9, /^[\x20-\x7e]{0,255}$/],
  [10, 59, /^-?\d+(\.\d+)?$/],
  [60, 79, /^-?\d+$/],
  [210, 239, /^-?\d+(\.\d+)?$/],
  [999, 999, /^[\x20-\x7e]{0,255}$/],
]
const R12_ENTITIES = new Set(['POLYLINE', 'VERTEX', 'SEQEND', 'LINE', 'ARC', 'CIRCLE', 'POINT', 'TEXT'])

/**
 * What is wrong with a file by the rules of DXF R12, one sentence a fault.
 *
 * @source ezdxf documentation, "DXF file structure", POLYLINE and LWPOLYLINE: R12 has no LWPOLYLINE; sections close;
 *   POLYLINE needs 66 = 1, a dummy point, VERTEX entities and SEQEND
 */
export function dxfFaults(text: string): string[] {
  const lines = text.split('\n')
  if (lines.at(-1) === '') lines.pop()
  const faults: string[] = []
  if (lines.length % 2 !== 0) return ['the lines are not pairs']
  const tags: (readonly [code: number, value: string])[] = []
  for (let i = 0; i < lines.length; i += 2) {
    const [code, value] = [Number(lines[i]), lines[i + 1]!]
    const form = FORMS.find(([from, to]) => code >= from && code <= to)
    if (!/^ *\d+$/.test(lines[i]!) || !form) faults.push(`line ${i + 1}: no such group code "${lines[i]}"`)
    else if (!form[2].test(value)) faults.push(`line ${i + 2}: "${value}" is no value for group ${code}`)
    tags.push([code, value])
  }
  return [...faults, ...structureFaults(tags.filter(([code]) => code !== 999))]
}

function structureFaults(tags: readonly (readonly [number, string])[]): string[] {
  const faults: string[] = []
  if (tags.at(-1)?.join(' ') !== '0 EOF') faults.push('the file does not end with EOF')
  if (!tags.some(([c, v], i) => c === 1 && v === 'AC1009' && tags[i - 1]?.[1] === '$ACADVER'))
    faults.push('the version is not AC1009')
  let section = ''
  let polyline: { vertices: number } | undefined
  tags.forEach(([code, value], i) => {
    if (code !== 0) return
    if (value === 'SECTION') {
      if (section) faults.push(`section in section ${section}`)
      section = tags[i + 1]?.[1] ?? '?'
    } else if (value === 'ENDSEC') section = ''
    else if (section === 'ENTITIES') {
      if (!R12_ENTITIES.has(value)) faults.push(`${value} is no entity of R12`)
      const own = groupsAfter(tags, i)
      if (!own.has(8)) faults.push(`${value} has no layer`)
      if (value === 'POLYLINE') {
        if (polyline) faults.push('a POLYLINE starts before SEQEND')
        polyline = { vertices: 0 }
        if (own.get(66) !== '1') faults.push('a POLYLINE without 66 = 1')
        for (const group of [10, 20, 30])
          if (own.get(group) !== '0') faults.push(`a POLYLINE without ${group} = 0`)
      }
      if (value === 'VERTEX') {
        if (!polyline) faults.push('a VERTEX outside a POLYLINE')
        else polyline.vertices += 1
        if (!own.has(10) || !own.has(20)) faults.push('a VERTEX without a place')
      }
      if (value === 'SEQEND') {
        if (!polyline || polyline.vertices < 2) faults.push('a POLYLINE of fewer than two vertices')
        polyline = undefined
      }
    }
  })
  if (section) faults.push(`section ${section} is not closed`)
  if (polyline) faults.push('the last POLYLINE has no SEQEND')
  return faults
}

function groupsAfter(tags: readonly (readonly [number, string])[], start: number): Map<number, string> {
  const groups = new Map<number, string>()
  for (let i = start + 1; i < tags.length && tags[i]![0] !== 0; i++) groups.set(tags[i]![0], tags[i]![1])
  return groups
}
