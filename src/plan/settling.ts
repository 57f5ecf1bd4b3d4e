import type { Motif } from '../motif/contract.ts'
import { type LengthUnit, MM_PER } from '../units.ts'
import { formatColour } from './colour.ts'
import { LENGTH_FORMS, lengthHint, parseLength } from './length.ts'
import { type Range, rangeText } from './limits.ts'
import { type Path, type Problems, show } from './problems.ts'
import { nearestName } from './suggest.ts'

/** The fillers that a plan may name. */
export interface Catalog {
  readonly motifs: Readonly<Record<string, Motif>>
}

/** Reads values, notes what is wrong with them and goes on with what would have been usual. */
export class Settling {
  constructor(
    readonly units: LengthUnit,
    readonly catalog: Catalog,
    readonly problems: Problems,
    readonly warnings: Problems,
  ) {}

  /** A length in mm within `range`, mm. */
  length(
    written: number | string | undefined,
    path: Path,
    { range, fallback }: { range: Range; fallback: number },
  ): number {
    if (written === undefined) return fallback
    const mm = parseLength(written, this.units)
    if (mm === undefined) {
      this.problems.add(
        'plan/length',
        path,
        `is ${show(written)}; expected ${LENGTH_FORMS}`,
        lengthHint(written),
      )
      return fallback
    }
    if (isIn(range, mm)) return mm
    const allowed = `${this.text(range[0])} to ${this.text(range[1])}`
    this.problems.add('plan/length', path, `is ${show(written)}; allowed: ${allowed}`)
    return fallback
  }

  number(
    written: number | undefined,
    path: Path,
    { range, fallback }: { range: Range; fallback: number },
  ): number {
    if (written === undefined) return fallback
    if (isIn(range, written)) return written + 0
    this.problems.add('plan/number', path, `is ${show(written)}; allowed: ${rangeText(range)}`)
    return fallback
  }

  colour(written: string | undefined, path: Path, fallback: string): string {
    if (written === undefined) return fallback
    const colour = formatColour(written)
    if (colour) return colour
    this.problems.add(
      'plan/colour',
      path,
      `is ${show(written)}; expected a CSS colour such as #3f6f86, navy or hsl(200 40% 40%)`,
    )
    return fallback
  }

  /** Refuses a name, tells the known ones and the nearest of them. */
  refuseName(
    code: string,
    path: Path,
    { name, known, or = '' }: { name: string; known: readonly string[]; or?: string },
  ): void {
    const near = nearestName(name, known)
    const allowed = known.length > SHOWN ? [...known.slice(0, SHOWN), '...'] : known
    this.problems.add(
      code,
      path,
      `is ${show(name)}; allowed: ${allowed.join(', ')}${or}`,
      near && `did you mean ${near}?`,
    )
  }

  /** A length as a message shows it, in the plan's units. */
  text(mm: number): string {
    return `${Number((mm / MM_PER[this.units]).toPrecision(4))} ${this.units}`
  }
}

/** Names told in one message. */
const SHOWN = 40

const isIn = ([least, greatest]: Range, value: number): boolean => value >= least && value <= greatest
