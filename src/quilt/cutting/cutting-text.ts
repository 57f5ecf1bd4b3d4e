import { tapeText } from '../../length-text.ts'
import { type LengthUnit, MM_PER } from '../../units.ts'
import type { StripCut } from './border-strips.ts'
import type { CuttingList, UnitCut, UnitsOf } from './cutting-list.ts'

/** What the names of fabrics are for, where a plan knows more than a colour. */
export type FabricName = (fabric: string) => string

/**
 * The cutting list in words, a line each: strips in the order of sewing, patches, binding, backing, batting, yardage, and the
 * caution first.
 *
 * @param unit  of the tape
 * @param name  how to call a fabric; its colour if left out
 */
export function cuttingText(
  list: CuttingList,
  unit: LengthUnit,
  name: FabricName = (fabric) => fabric,
): string[] {
  const size = (width: number, height: number) => `${tapeText(width, unit)} x ${tapeText(height, unit)}`
  const cloth = (mm: number) => boltText(mm, unit)
  const strips = [...list.strips, ...list.corners].sort((a, b) => a.order - b.order)
  const { binding, backing, batting } = list
  return [
    list.caution,
    ...section('Borders, in the order of sewing', [
      ...strips.map((cut) =>
        'sides' in cut
          ? stripText(cut, { size, name })
          : `${cut.order}. ${cut.band}, cornerstones: ${cut.count} of ${size(cut.width, cut.height)}${cut.isTemplate ? CUTS.template : ''}, ${name(cut.fabric)}`,
      ),
    ]),
    ...section('Pieced bands', [
      ...list.units.map((units) => unitsText(units, size)),
      ...list.patches.map((patch) => patchText(patch, { size, name })),
    ]),
    ...section('Finishing', [
      `binding: ${binding.strips} strips of ${tapeText(binding.width, unit)} across the fabric, joined to ${tapeText(binding.length, unit)}; ${cloth(list.bindingFabric)}`,
      `backing: ${size(backing.width, backing.height)} from ${counted(backing.panels, 'panel')}; ${cloth(backing.fabricLength)}`,
      `batting: ${size(batting.width, batting.height)}`,
    ]),
    ...section(
      'Fabric to buy',
      list.fabrics.map(({ fabric, length }) => `${name(fabric)}: ${cloth(length)}`),
    ),
  ]
}

type SizeText = (width: number, height: number) => string

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  ${line}`)]

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`

const sidesText = (sides: readonly string[]): string => {
  if (sides.length < 3) return sides.join(' and ')
  return sides.length > 4 ? 'all sides' : `${sides.slice(0, -1).join(', ')} and ${sides.at(-1)}`
}

function stripText(cut: StripCut, { size, name }: { size: SizeText; name: FabricName }): string {
  const joins = cut.joins > 0 ? `, ${counted(cut.joins, 'join')} in each` : ''
  const across = counted(cut.acrossFabric, 'strip')
  return `${cut.order}. ${cut.band}, ${sidesText(cut.sides)}: ${cut.sides.length} of ${size(cut.width, cut.length)}, ${name(cut.fabric)}; ${across} across the fabric${joins}`
}

function unitsText({ band, unit, count, sizes }: UnitsOf, size: SizeText): string {
  const list = sizes.map((s) => `${s.count} finish at ${size(s.width, s.height)}`).join(', ')
  return `${band}: ${counted(count, 'unit')} of ${unit.toLowerCase()}; ${list}`
}

const CUTS: Readonly<Record<UnitCut['kind'], string>> = {
  rectangle: '',
  'half-square': ', each cut once from corner to corner',
  'quarter-square': ', each cut twice from corner to corner',
  template: ', each cut by a template',
}

function patchText(cut: UnitCut, { size, name }: { size: SizeText; name: FabricName }): string {
  const pieces = `${cut.count} of ${size(cut.width, cut.height)}${CUTS[cut.kind]}`
  return `${cut.band}, ${cut.patch}: ${pieces}, for ${cut.patches} ${cut.patches === 1 ? 'patch' : 'patches'}, ${name(cut.fabric)}`
}

/** A length of fabric in yards, to the eighth, or in metres. */
function boltText(mm: number, unit: LengthUnit): string {
  if (unit !== 'in') return `${(mm / MM_PER.m).toFixed(1)} m`
  // Eighths of a yard read as eighths of an inch do.
  return tapeText((mm / MM_PER.yd) * MM_PER.in, 'in').replace(' in', ' yd')
}
