import type { Motif } from '../motif/contract.ts'
import type { Sides } from '../quilt/layout.ts'
import type { Corners } from '../quilt/quilt.ts'
import { BATTINGS, type BattingKind, compressedThickness } from '../stitch/batting.ts'
import { estimateBobbin } from '../stitch/bobbin.ts'
import { type ThreadSystem, texOf } from '../stitch/thread-size.ts'
import { TIME_DEFAULTS } from '../stitch/time.ts'
import { inches, type LengthUnit, MM_PER } from '../units.ts'
import { formatColour } from './colour.ts'
import { LENGTH_FORMS, parseLength } from './length.ts'
import { LIMITS } from './limits.ts'
import type {
  BandPlan,
  BattingPlan,
  FabricColour,
  FillerChoice,
  MachinePlan,
  Place,
  Plan,
  RoutePlan,
  StitchPlan,
  ThreadPlan,
} from './plan.ts'
import { type Path, type Problems, show } from './problems.ts'
import type { PlanFile } from './schema.ts'
import { settleFiller } from './settle-filler.ts'
import { nearestName } from './suggest.ts'

/** The fillers that a plan may name. */
export interface Catalog {
  readonly motifs: Readonly<Record<string, Motif>>
}

export interface Settling {
  readonly catalog: Catalog
  readonly problems: Problems
  readonly warnings: Problems
}

/** Seam allowance, mm. @source 1/4 in: common practice; cut = finished + 1/2 in, allpeoplequilt.com "Border and corner blocks" */
export const SEAM_ALLOWANCE = inches(0.25)

/** Brings a well-formed file into millimetres and fills in what it leaves out; what is wrong goes to `problems`. */
export function settlePlan(file: PlanFile, settling: Settling): Plan {
  const settler = new Settler(file, settling)
  return settler.plan()
}

interface Limits {
  readonly least?: number
  readonly greatest?: number
  readonly fallback: number
}

/** Turns what is written into settled values, noting what is wrong and going on. */
class Settler {
  readonly #units: LengthUnit

  constructor(
    readonly file: PlanFile,
    readonly settling: Settling,
  ) {
    this.#units = file.units ?? 'in'
  }

  plan(): Plan {
    const { file } = this
    const binding = this.length(file.binding, ['binding'], {
      least: 0,
      greatest: 100,
      fallback: inches(0.25),
    })
    const centre = {
      width: this.length(file.centre.width, ['centre', 'width'], { fallback: 100 }),
      height: this.length(file.centre.height, ['centre', 'height'], { fallback: 100 }),
      fabric: this.fabric(file.centre.fabric, ['centre', 'fabric'], '#f4efe4'),
      filler: undefined,
    }
    if (file.centre.filler !== undefined && file.centre.filler !== 'none') {
      this.settling.problems.add(
        'plan/filler',
        ['centre', 'filler'],
        `is ${show(file.centre.filler)}; the centre can only be none`,
      )
    }
    const bands = file.bands.map((_, index) => this.#band(index, binding))
    this.#refuseTwins(bands)
    return {
      title: file.title ?? 'Untitled quilt',
      units: this.#units,
      centre,
      bands,
      binding,
      bindingFabric: this.colour(file.bindingFabric, ['bindingFabric'], '#3b3230'),
      machine: this.#machine(),
      stitch: this.#stitch(),
      thread: this.#thread(),
      batting: this.#batting(),
      route: this.#route(bands),
      seed: file.seed ?? 1,
    }
  }

  /** A length in mm within limits (by default those of a quilt's parts). */
  length(
    written: number | string | undefined,
    path: Path,
    { least = LIMITS.least, greatest = LIMITS.greatest, fallback }: Limits,
  ): number {
    if (written === undefined) return fallback
    const mm = parseLength(written, this.#units)
    const { problems } = this.settling
    if (mm === undefined) {
      problems.add('plan/length', path, `is ${show(written)}; expected ${LENGTH_FORMS}`)
      return fallback
    }
    if (mm >= least && mm <= greatest) return mm
    const inUnits = (limit: number) =>
      `${Number((limit / MM_PER[this.#units]).toPrecision(4))} ${this.#units}`
    problems.add(
      'plan/length',
      path,
      `is ${show(written)}; allowed: ${inUnits(least)} to ${inUnits(greatest)}`,
    )
    return fallback
  }

  number(
    written: number | undefined,
    path: Path,
    limits: { least: number; greatest: number; fallback: number },
  ): number {
    if (written === undefined) return limits.fallback
    if (written >= limits.least && written <= limits.greatest) return written
    this.settling.problems.add(
      'plan/number',
      path,
      `is ${show(written)}; allowed: ${limits.least} to ${limits.greatest}`,
    )
    return limits.fallback
  }

  colour(written: string | undefined, path: Path, fallback: string): string {
    if (written === undefined) return fallback
    const colour = formatColour(written)
    if (colour) return colour
    this.settling.problems.add(
      'plan/colour',
      path,
      `is ${show(written)}; expected a CSS colour such as #3f6f86, navy or hsl(200 40% 40%)`,
    )
    return fallback
  }

  fabric(written: PlanFile['centre']['fabric'], path: Path, fallback: string): FabricColour[] {
    if (written === undefined || typeof written === 'string')
      return [{ colour: this.colour(written, path, fallback), share: 1 }]
    const colours = written.map(({ colour, share }, i) => ({
      colour: this.colour(colour, [...path, i, 'colour'], fallback),
      share: this.number(share, [...path, i, 'share'], { least: 0, greatest: 1, fallback: 0 }),
    }))
    const sum = colours.reduce((total, c) => total + c.share, 0)
    if (sum > 1 + 1e-9)
      this.settling.problems.add(
        'plan/shares',
        path,
        `the shares add up to ${Number(sum.toFixed(4))}; allowed: at most 1`,
      )
    return colours
  }

  #band(index: number, binding: number): BandPlan {
    const written = this.file.bands[index]!
    const path: Path = ['bands', index]
    const width = this.#width(index, binding)
    const corners = this.#corners(written.corners)
    const mean = (width.top + width.right + width.bottom + width.left) / 4
    return {
      name: written.name ?? `band ${index + 1}`,
      width,
      filler: this.#filler(written.filler, [...path, 'filler'], { mean, widths: Object.values(width) }),
      fabric: this.fabric(written.fabric, [...path, 'fabric'], index % 2 === 0 ? '#d9c7a0' : '#8fa9b8'),
      corners,
    }
  }

  #corners(written: PlanFile['bands'][number]['corners']): Corners {
    if (typeof written === 'object') return written.butted === 'rows-first' ? 'butted-rows' : 'butted-columns'
    return written === 'butted' ? 'butted-rows' : (written ?? 'mitred')
  }

  /** Finished widths. The seam allowances come off a cut width; the outermost band loses one and the binding's cover. */
  #width(index: number, binding: number): Sides {
    const { width, cut } = this.file.bands[index]!
    const path: Path = ['bands', index]
    const { problems } = this.settling
    if ((width === undefined) === (cut === undefined)) {
      const what = width === undefined ? 'has neither width nor cut' : 'has both width and cut'
      problems.add('plan/width', path, `${what}; give one of them`)
    }
    const isOutermost = index === this.file.bands.length - 1
    const lost = width !== undefined ? 0 : SEAM_ALLOWANCE + (isOutermost ? binding : SEAM_ALLOWANCE)
    const key = width !== undefined ? 'width' : 'cut'
    const written = width ?? cut
    const one = (value: number | string | undefined, at: Path) =>
      this.length(value, at, { least: lost + LIMITS.least, fallback: lost + inches(1) }) - lost
    if (typeof written !== 'object') {
      const mm = one(written, [...path, key])
      return { top: mm, right: mm, bottom: mm, left: mm }
    }
    const side = (name: keyof Sides) => one(written[name], [...path, key, name])
    return { top: side('top'), right: side('right'), bottom: side('bottom'), left: side('left') }
  }

  #filler(
    written: PlanFile['bands'][number]['filler'],
    path: Path,
    strip: { mean: number; widths: number[] },
  ): FillerChoice | undefined {
    if (written === undefined || written === 'none') return undefined
    return settleFiller(written, { path, strip, units: this.#units, ...this.settling })
  }

  #refuseTwins(bands: readonly BandPlan[]): void {
    const seen = new Map<string, number>()
    bands.forEach(({ name }, index) => {
      const first = seen.get(name)
      if (first === undefined) seen.set(name, index)
      else
        this.settling.problems.add(
          'plan/twin',
          ['bands', index, 'name'],
          `is ${show(name)}; bands[${first}] has that name already`,
        )
    })
  }

  #machine(): MachinePlan {
    const { machine } = this.file
    const reach = (i: 0 | 1) =>
      this.length(machine?.reach?.[i], ['machine', 'reach', i], {
        least: 25,
        greatest: 20_000,
        fallback: inches(14),
      })
    return {
      kind: machine?.kind ?? 'domestic',
      reach: [reach(0), reach(1)],
      speed: this.number(machine?.speed, ['machine', 'speed'], {
        least: 10,
        greatest: 10_000,
        fallback: TIME_DEFAULTS.stitchesPerMinute,
      }),
    }
  }

  #stitch(): StitchPlan {
    const { stitch } = this.file
    if (stitch?.length !== undefined && stitch.perInch !== undefined) {
      this.settling.problems.add('plan/stitch', ['stitch'], 'has both length and perInch; give one of them')
    }
    const perInch = this.number(stitch?.perInch, ['stitch', 'perInch'], {
      least: 2.2,
      greatest: 25,
      fallback: 10,
    })
    const fallback = stitch?.perInch === undefined ? 2.5 : MM_PER.in / perInch
    return {
      length: this.length(stitch?.length, ['stitch', 'length'], { least: 1, greatest: 12, fallback }),
      tieOffs: this.number(stitch?.tieOffs, ['stitch', 'tieOffs'], { least: 0, greatest: 30, fallback: 5 }),
    }
  }

  #thread(): ThreadPlan {
    const { thread } = this.file
    const tex = this.#tex()
    const { bobbin } = thread ?? {}
    const path: Path = ['thread', 'bobbin']
    const isEstimate = bobbin === undefined || typeof bobbin === 'object'
    const bobbinM = isEstimate
      ? estimateBobbin(typeof bobbin === 'object' ? bobbin.class : 'L', tex)
      : this.length(bobbin, path, { least: 5_000, greatest: 2_000_000, fallback: 75_000 }) / MM_PER.m
    return {
      tex,
      colour: this.colour(thread?.colour, ['thread', 'colour'], '#fbf7ea'),
      bobbinM,
      isEstimate,
      waste: this.number(thread?.waste, ['thread', 'waste'], { least: 0, greatest: 1, fallback: 0.15 }),
      candidates: (thread?.candidates ?? []).map(({ name, colour }, i) => ({
        name,
        colour: this.colour(colour, ['thread', 'candidates', i, 'colour'], '#000000'),
      })),
    }
  }

  #tex(): number {
    const systems: readonly ThreadSystem[] = ['tex', 'wt', 'denier', 'nm', 'ne']
    const thread: Partial<Record<ThreadSystem, number | undefined>> = this.file.thread ?? {}
    const given = systems.filter((system) => thread[system] !== undefined)
    if (given.length > 1) {
      this.settling.problems.add(
        'plan/thread-size',
        ['thread'],
        `gives its size as ${given.join(' and ')}; give one of them`,
      )
    }
    const [system] = given
    if (!system) return 30
    const value = this.number(thread[system], ['thread', system], {
      least: 0.1,
      greatest: 2000,
      fallback: 30,
    })
    return texOf({ system, value })
  }

  #batting(): BattingPlan {
    const { batting } = this.file
    const known = Object.keys(BATTINGS)
    const kind = batting?.kind ?? 'cotton-scrim'
    if (!known.includes(kind)) {
      const near = nearestName(kind, known)
      this.settling.problems.add(
        'plan/batting',
        ['batting', 'kind'],
        `is ${show(kind)}; allowed: ${known.join(', ')}`,
        near && `did you mean ${near}?`,
      )
    }
    const found = BATTINGS[kind as BattingKind] ?? BATTINGS['cotton-scrim']
    return {
      kind,
      limit: this.length(batting?.limit, ['batting', 'limit'], {
        least: 5,
        greatest: 1000,
        fallback: found.limitMm,
      }),
      thickness: this.length(batting?.thickness, ['batting', 'thickness'], {
        least: 0,
        greatest: 25,
        fallback: compressedThickness(found),
      }),
    }
  }

  #route(bands: readonly BandPlan[]): RoutePlan {
    const { route } = this.file
    return {
      start: this.#place(route?.start, ['route', 'start'], bands),
      end: this.#place(route?.end, ['route', 'end'], bands),
      order: route?.order ?? 'any',
      work: route?.work ?? 'areas',
    }
  }

  #place(
    written: string | { band: string; side: string } | undefined,
    path: Path,
    bands: readonly BandPlan[],
  ): Place {
    if (written === undefined || written === 'any') return { kind: 'anywhere' }
    const { problems } = this.settling
    if (typeof written === 'string') {
      const names = ['top-left', 'top-right', 'bottom-right', 'bottom-left']
      const corner = names.indexOf(written)
      if (corner >= 0) return { kind: 'corner', corner }
      const near = nearestName(written, ['any', ...names])
      problems.add(
        'plan/place',
        path,
        `is ${show(written)}; allowed: any, ${names.join(', ')}, or { band, side }`,
        near && `did you mean ${near}?`,
      )
      return { kind: 'anywhere' }
    }
    const names = bands.map((b) => b.name)
    if (!names.includes(written.band)) {
      const near = nearestName(written.band, names)
      problems.add(
        'plan/place',
        [...path, 'band'],
        `is ${show(written.band)}; allowed: ${names.join(', ')}`,
        near && `did you mean ${near}?`,
      )
    } else if (isLeftPlain(this.file.bands[names.indexOf(written.band)]!)) {
      problems.add(
        'plan/place',
        [...path, 'band'],
        `is ${show(written.band)}; nothing is stitched in that band`,
        'choose a band with a filler',
      )
    }
    return {
      kind: 'side',
      band: written.band,
      side: ['top', 'right', 'bottom', 'left'].indexOf(written.side),
    }
  }
}

/** Whether the file leaves a band unquilted. */
const isLeftPlain = ({ filler }: PlanFile['bands'][number]): boolean =>
  filler === undefined || filler === 'none'
