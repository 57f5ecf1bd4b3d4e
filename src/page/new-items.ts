import type { Option } from '../plan/options.ts'
import { type LengthUnit, toUnit } from '../units.ts'
import { patternOf } from './paths.ts'
import type { Path } from './plan-text.ts'
import { laid, scene } from './planning.ts'
import { plan } from './state.ts'

const unitsNow = (): LengthUnit => plan.value.file?.units ?? 'in'

/** A length as the plan would write it: in its unit, with few figures. */
const written = (mm: number): number => Number(toUnit(mm, unitsNow()).toFixed(unitsNow() === 'mm' ? 0 : 2))

/** A circle in the middle of the quilt. */
function middleCircle(): unknown {
  const { widthMm = 500, heightMm = 500 } = scene.value?.quilt ?? {}
  const at = [written(widthMm / 2), written(heightMm / 2)]
  return { circle: { at, radius: written(Math.min(widthMm, heightMm) / 10) } }
}

/** The outermost band, at the size that it is planned. */
function plannedSize(): unknown {
  const now = laid.value?.plan
  if (!now) return { band: 'centre', across: [1, 1, 1], down: [1, 1, 1] }
  const width = now.bands.reduce((sum, band) => sum + band.width.left + band.width.right, now.centre.width)
  const height = now.bands.reduce((sum, band) => sum + band.width.top + band.width.bottom, now.centre.height)
  const three = (mm: number) => [written(mm), written(mm), written(mm)]
  return { band: now.bands.at(-1)!.name, across: three(width), down: three(height) }
}

/** What a new thing of a list begins with: something that makes sense on this quilt, or the least that must be written. */
export function newItem(path: Path, option: Option): unknown {
  switch (patternOf(path)) {
    case 'avoid':
      return middleCircle()
    case 'measured':
      return plannedSize()
    case 'motifs.':
      // A wave of two arcs: something to draw over.
      return { path: 'M0 10 C20 0 30 0 50 10 C70 20 80 20 100 10' }
    case 'route.ditch':
      return { inside: laid.value?.plan.bands[0]?.name ?? 'band 1' }
    default:
      return leastOf(option)
  }
}

function leastOf(option: Option): unknown {
  switch (option.kind) {
    case 'group':
      return Object.fromEntries(
        Object.entries(option.of).flatMap(([key, part]) => (part.isOptional ? [] : [[key, leastOf(part)]])),
      )
    case 'list':
      return [leastOf(option.of)]
    case 'row':
      return option.of.map(leastOf)
    case 'choice':
      return option.of[0]
    case 'colour':
    case 'fabric':
      return '#7d8f8a'
    case 'length':
    case 'number':
    case 'whole':
    case 'share':
      return 1
    default:
      return 'new'
  }
}
