import type { Report } from '../../report/report.ts'
import { needleAt } from '../canvas/look-up.ts'
import { toWindow, type View } from '../canvas/view.ts'
import { layers, pointedAt, pointedBand } from '../look.ts'
import type { Scene } from '../worker/messages.ts'

/** A stretch of the work in one area. */
export interface Chapter {
  readonly area: number
  readonly begin: number
  readonly end: number
}

/** The areas in the order of work. */
export function chaptersOf(scene: Scene): Chapter[] {
  const chapters: { area: number; begin: number; end: number }[] = []
  for (const { area, along } of scene.parts) {
    const last = chapters.at(-1)
    if (last?.area === area) last.end = along[1]
    else chapters.push({ area, begin: along[0], end: along[1] })
  }
  return chapters.filter(({ begin, end }) => end > begin)
}

/** Where an area's number goes: the middle of its longest part in its outermost band, clear of its neighbours'. */
function placeForName({ parts }: Scene, { begin, end }: Chapter): number {
  const within = parts.filter(({ along, kind }) => kind === 'fill' && along[0] >= begin && along[1] <= end)
  const outermost = Math.max(...within.map(({ band }) => band ?? -1))
  const lengthOf = ({ along }: Scene['parts'][number]) => along[1] - along[0]
  const [longest] = within.filter(({ band }) => band === outermost).sort((a, b) => lengthOf(b) - lengthOf(a))
  return longest ? (longest.along[0] + longest.along[1]) / 2 : (begin + end) / 2
}

/** Numbers nearer to each other than this could not be read, px. */
const CROWDED = 25

/** The areas' numbers in the window; where they crowd, the later ones wait until the view is closer. */
function areaNames(scene: Scene, view: View): { area: number; place: readonly [number, number] }[] {
  const names: { area: number; place: readonly [number, number] }[] = []
  for (const chapter of chaptersOf(scene)) {
    const at = needleAt(scene, placeForName(scene, chapter))
    if (!at) continue
    const place = toWindow(view, at)
    const isCrowded = names.some(({ place: [x, y] }) => Math.hypot(place[0] - x, place[1] - y) < CROWDED)
    if (!isCrowded) names.push({ area: chapter.area, place })
  }
  return names
}

interface MarksProps {
  readonly scene: Scene
  readonly view: View
  /** How far the line is walked, mm. */
  readonly walked?: number | undefined
  /** Undefined while there is none for this scene. */
  readonly report: Report | undefined
  /** The picture below is of a newer plan already. */
  readonly isOld?: boolean
}

/** What is marked over the quilt: start and end, areas, the largest gap, bobbin changes, the needle, and what is pointed to. */
export function Marks({ scene, view, walked, report, isOld = false }: MarksProps) {
  const at = (p: readonly [number, number]) => toWindow(view, p)
  const along = (distance: number) => needleAt(scene, distance)
  const [start, end] = [along(0), along(scene.lengthMm)]
  const needle = walked === undefined ? undefined : along(walked)
  return (
    <svg class={isOld ? 'marks is-old' : 'marks'} aria-hidden="true">
      {pointedBand.value !== undefined && <BandOutline scene={scene} view={view} index={pointedBand.value} />}
      {layers.value.gaps && report && <Gap view={view} report={report} />}
      {layers.value.areas &&
        areaNames(scene, view).map(({ area, place }, i) => (
          <Badge key={`${area} ${i}`} at={place} text={String(area + 1)} kind="area" />
        ))}
      {layers.value.bobbins && report && <Bobbins view={view} report={report} />}
      {start && <Badge at={at(start)} text="start" kind="start" />}
      {end && start && !(needle && walked! >= scene.lengthMm) && <Badge at={at(end)} text="end" kind="end" />}
      {needle && <Needle at={at(needle)} />}
      {pointedAt.value && <Ring at={at(pointedAt.value)} radius={22} kind="pointed" />}
    </svg>
  )
}

interface ReportProps {
  readonly view: View
  readonly report: Report
}

function Gap({ view, report: { gap } }: ReportProps) {
  if (!gap.at) return null
  return (
    <Ring
      at={toWindow(view, gap.at)}
      radius={(gap.largestMm / 2) * view.scale}
      kind={gap.withinLimit ? 'gap' : 'gap is-over'}
    />
  )
}

function Bobbins({ view, report }: ReportProps) {
  return (
    <>
      {report.thread.bobbinChanges.map((change, i) => {
        const [x, y] = toWindow(view, change.at)
        return (
          <g key={change.alongMm} class="bobbin" transform={`translate(${x} ${y})`}>
            <circle r="9" />
            <circle r="3" />
            <text x="13" y="5">
              {i + 2}
            </text>
          </g>
        )
      })}
    </>
  )
}

interface RingProps {
  readonly at: readonly [number, number]
  readonly radius: number
  readonly kind: string
}

const Ring = ({ at: [x, y], radius, kind }: RingProps) => <circle class={kind} cx={x} cy={y} r={radius} />

interface BadgeProps {
  readonly at: readonly [number, number]
  readonly text: string
  readonly kind: 'area' | 'start' | 'end'
}

function Badge({ at: [x, y], text, kind }: BadgeProps) {
  const width = text.length > 2 ? 46 : 24
  return (
    <g class={`badge ${kind}`} transform={`translate(${x} ${y})`}>
      {kind !== 'area' && <circle r="4.5" />}
      <g transform={kind === 'area' ? '' : `translate(0 ${kind === 'start' ? -20 : 20})`}>
        <rect x={-width / 2} y={-12} width={width} height={24} rx={12} />
        <text y="5" text-anchor="middle">
          {text}
        </text>
      </g>
    </g>
  )
}

function Needle({ at: [x, y] }: { at: readonly [number, number] }) {
  return (
    <g class="needle" transform={`translate(${x} ${y})`}>
      <path d="M0 0 L13 -36 A5 5 0 0 1 20 -33 Z" />
      <circle r="3.5" />
    </g>
  )
}

function BandOutline({
  scene,
  view,
  index,
}: Pick<MarksProps, 'scene' | 'view'> & { readonly index: number }) {
  const rings = [scene.quilt.rings[index], scene.quilt.rings[index + 1]]
  const data = rings
    .filter((ring) => ring !== undefined)
    .map((ring) => `M${ring.map((p) => toWindow(view, [p[0], p[1]]).join(' ')).join('L')}Z`)
  return <path class="pointed-band" d={data.join('')} fill-rule="evenodd" />
}
