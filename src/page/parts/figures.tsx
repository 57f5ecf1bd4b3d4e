import type { Report } from '../../report/report.ts'
import { isKeptShown, keepPlan, kept } from '../kept.ts'
import { pointedAt, pointedBand } from '../look.ts'
import { fault, figured, figuresAre, scene } from '../planning.ts'
import { chosen, open } from '../state.ts'
import { sizeText } from '../words.ts'
import { showPlace } from './quilt-view.tsx'

/** What it takes to stitch the line, always in view; beside a kept plan's if there is one. */
export function Figures() {
  const now = figured.value
  const before = kept.value?.figured
  return (
    <section class="figures" aria-labelledby="figures-heading" aria-busy={figuresAre.value === 'coming'}>
      <h2 id="figures-heading">What it takes</h2>
      {fault.value && (
        <p class="fault" role="alert">
          This is a fault of the page, not of your plan: {fault.value}
        </p>
      )}
      <Compare />
      <p class="standing" role="status">
        {now || figuresAre.value === 'old' ? STANDING[figuresAre.value] : 'Being worked out …'}
      </p>
      {now && (
        <div class={figuresAre.value === 'fresh' ? '' : 'is-stale'}>
          <table>
            {before && (
              <thead>
                <tr>
                  <th scope="col">
                    <span class="unseen">Figure</span>
                  </th>
                  <th scope="col">Now</th>
                  <th scope="col">Kept</th>
                </tr>
              </thead>
            )}
            <tbody>
              {now.figures.map(({ label, value }) => {
                const other = before?.figures.find((figure) => figure.label === label)?.value
                return (
                  <tr key={label} class={label === 'Thread starts' ? 'is-first' : ''}>
                    <th scope="row">{label}</th>
                    <td>{value}</td>
                    {before && <td class={other === value ? 'is-same' : ''}>{other}</td>}
                  </tr>
                )
              })}
            </tbody>
          </table>
          <GapGauge report={now.report} />
          <Warnings report={now.report} />
          <Evenness report={now.report} />
          <Extras report={now.report} />
        </div>
      )}
    </section>
  )
}

/** What figures that are not of the present plan say of themselves. */
const STANDING = {
  fresh: '',
  coming: 'Being worked out; what stands below is of the plan before.',
  old: 'The plan has something to mend; what stands below is of the last good plan.',
} as const

/** Keeps a copy of the plan, and swaps between it and the present one in place. */
function Compare() {
  if (!kept.value)
    return (
      <p class="compare">
        <button type="button" onClick={keepPlan} disabled={!scene.value}>
          Keep this plan to compare
        </button>
      </p>
    )
  return (
    <div class="compare">
      <fieldset>
        <legend class="unseen">Which plan the picture shows</legend>
        {([false, true] as const).map((isKept) => (
          <label key={String(isKept)} class={isKeptShown.value === isKept ? 'is-now' : ''}>
            <input
              type="radio"
              name="compared"
              checked={isKeptShown.value === isKept}
              onChange={() => {
                isKeptShown.value = isKept
              }}
            />
            {isKept ? 'Kept' : 'Now'}
          </label>
        ))}
      </fieldset>
      <button
        type="button"
        onClick={() => {
          if (kept.value) open(kept.value.text, 'kept.yaml')
          isKeptShown.value = false
        }}
      >
        Go back to the kept one
      </button>
      <button
        type="button"
        onClick={() => {
          kept.value = undefined
          isKeptShown.value = false
        }}
      >
        Let it go
      </button>
    </div>
  )
}

/** The largest gap on the batting's scale. */
function GapGauge({ report: { gap, units } }: { report: Report }) {
  const share = Math.min(1.15, gap.largestMm / Math.max(1, gap.limitMm))
  return (
    <figure class={`gauge ${gap.withinLimit ? '' : 'is-over'}`}>
      <figcaption>Largest gap against the batting</figcaption>
      <svg viewBox="0 0 120 14" preserveAspectRatio="none" aria-hidden="true">
        <rect class="whole" x="0" y="3" width="120" height="8" />
        <rect class="part" x="0" y="3" width={share * 100} height="8" />
        <path class="limit" d="M100 0V14" />
      </svg>
      <p>
        {sizeText(gap.largestMm, units)} of {sizeText(gap.limitMm, units)}{' '}
        {gap.at && (
          <button type="button" class="plain" onClick={() => showPlace(gap.at!)}>
            show it
          </button>
        )}
      </p>
    </figure>
  )
}

/** Leads to the band, or to the gap, that a warning speaks of. */
function pointTo(at: string, report: Report): void {
  const index = report.bands.findIndex(({ name }) => name === at)
  const byKey = /^bands\[(\d+)\]/.exec(at)
  const band = index >= 0 ? index : byKey ? Number(byKey[1]) : undefined
  pointedBand.value = band
  pointedAt.value = undefined
  if (band !== undefined) chosen.value = band
  else if (report.gap.at) showPlace(report.gap.at)
}

function Warnings({ report }: { report: Report }) {
  if (report.warnings.length === 0) return null
  return (
    <div class="warnings">
      <h3>Mind</h3>
      <ul>
        {report.warnings.map(({ code, message, at }, i) => (
          <li key={`${code} ${at} ${i}`}>
            <button type="button" class="plain" onClick={() => pointTo(at, report)}>
              {at && <b>{at}: </b>}
              {message}
            </button>
          </li>
        ))}
      </ul>
    </div>
  )
}

/** How densely each band is stitched. */
function Evenness({ report: { bands } }: { report: Report }) {
  const most = Math.max(...bands.map(({ mmPerCm2 }) => mmPerCm2), 1)
  return (
    <figure class="evenness">
      <figcaption>Evenness: mm of line in a square cm</figcaption>
      <table>
        <tbody>
          {bands.map(({ name, mmPerCm2 }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>
                <svg viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
                  <rect width={(mmPerCm2 / most) * 100} height="8" />
                </svg>
              </td>
              <td>{mmPerCm2.toFixed(1)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </figure>
  )
}

/** Every travel and every stretch stitched twice, with its place. */
function Extras({ report: { line, units } }: { report: Report }) {
  if (line.extras.length === 0) return null
  return (
    <details class="extras">
      <summary>
        {line.extras.length} {line.extras.length === 1 ? 'place' : 'places'} of travel or overlap
      </summary>
      <ul>
        {line.extras.map((extra, i) => (
          <li key={i}>
            <button type="button" class="plain" onClick={() => showPlace(extra.at)}>
              {extra.kind}, {sizeText(extra.lengthMm, units)}: {extra.where}
            </button>
          </li>
        ))}
      </ul>
    </details>
  )
}
