import { useSignal, useSignalEffect } from '@preact/signals'
import { useEffect } from 'preact/hooks'
import { MM_PER } from '../../units.ts'
import { partAt, stitchesBy } from '../canvas/look-up.ts'
import { shownScene } from '../kept.ts'
import { freshFigures, laid } from '../planning.ts'
import { isPlaying, walked } from '../state.ts'
import { clockText, partWords } from '../words.ts'
import type { Scene } from '../worker/messages.ts'
import { fillerTitle } from './filler-field.tsx'
import { chaptersOf } from './marks.tsx'

/** How many times faster than the machine. */
const SPEEDS = [1, 10, 50, 200, 800]

/** How many areas' numbers the tape has room for. */
const MOST_NAMES = 20

/** Goes to a distance along the work, mm. */
function goTo(distance: number, scene: Scene): void {
  walked.value = Math.min(scene.lengthMm, Math.max(0, distance))
}

/** To the beginning of the part before, or after. */
function step(scene: Scene, by: -1 | 1): void {
  const now = walked.value ?? 0
  const begins = scene.parts.map(({ along }) => along[0])
  const next =
    by > 0
      ? (begins.find((begin) => begin > now + 0.01) ?? scene.lengthMm)
      : (begins.filter((begin) => begin < now - 0.01).at(-1) ?? 0)
  goTo(next, scene)
}

function chapter(scene: Scene, by: -1 | 1): void {
  const now = walked.value ?? 0
  const begins = chaptersOf(scene).map(({ begin }) => begin)
  const next =
    by > 0
      ? (begins.find((begin) => begin > now + 0.01) ?? scene.lengthMm)
      : (begins.filter((begin) => begin < now - 0.01).at(-1) ?? 0)
  goTo(next, scene)
}

const togglePlay = (scene: Scene): void => {
  if (!isPlaying.value && (walked.value === undefined || walked.value >= scene.lengthMm)) walked.value = 0
  isPlaying.value = !isPlaying.value
}

/** Walking the line: play, step and scrub along it as on a tape measure, with the areas as chapters. */
export function WalkBar() {
  const scene = shownScene.value
  const speed = useSignal(200)
  usePlaying(speed)
  useWalkKeys()
  if (!scene) return <footer class="walk" />
  return (
    <footer class="walk">
      <div class="walk-buttons">
        <button type="button" aria-label="To the area before" onClick={() => chapter(scene, -1)}>
          ⇤
        </button>
        <button type="button" aria-label="A part back" onClick={() => step(scene, -1)}>
          ←
        </button>
        <button type="button" class="strong" onClick={() => togglePlay(scene)}>
          {isPlaying.value ? 'Pause' : 'Walk'}
        </button>
        <button type="button" aria-label="A part on" onClick={() => step(scene, 1)}>
          →
        </button>
        <button type="button" aria-label="To the next area" onClick={() => chapter(scene, 1)}>
          ⇥
        </button>
        <label class="speed">
          <span class="unseen">Speed, in times of the machine's</span>
          <select
            value={speed.value}
            onChange={(event) => {
              speed.value = Number(event.currentTarget.value)
            }}
          >
            {SPEEDS.map((times) => (
              <option key={times} value={times}>
                {times === 1 ? 'as sewn' : `${times} ×`}
              </option>
            ))}
          </select>
        </label>
        <button
          type="button"
          disabled={walked.value === undefined}
          onClick={() => {
            isPlaying.value = false
            walked.value = undefined
          }}
        >
          Whole line
        </button>
      </div>
      <Tape scene={scene} />
      <SoFar scene={scene} />
    </footer>
  )
}

/** The line as a tape measure: areas above, yards or metres below. */
function Tape({ scene }: { scene: Scene }) {
  const units = laid.value?.plan.units ?? 'in'
  const unit = units === 'in' ? MM_PER.yd : MM_PER.m
  const whole = scene.lengthMm
  const share = (distance: number) => `${(distance / whole) * 100}%`
  const every = [1, 2, 5, 10, 20, 50, 100].find((n) => whole / unit / n <= 12) ?? 200
  const marks = Array.from({ length: Math.floor(whole / unit / every) }, (_, i) => (i + 1) * every)
  const small = Array.from({ length: Math.min(400, Math.floor((whole / unit / every) * 5)) }, (_, i) => i + 1)
  const at = walked.value ?? whole
  const chapters = chaptersOf(scene)
  const named = Math.ceil(chapters.length / MOST_NAMES)
  return (
    <div class="tape">
      <svg aria-hidden="true">
        {chapters.map(({ begin, end }, i) => (
          <rect
            key={begin}
            class={i % 2 === 1 ? 'chapter is-odd' : 'chapter'}
            x={share(begin)}
            y="0"
            height="20"
            width={share(end - begin)}
          />
        ))}
        {chapters
          .filter((_, i) => i % named === 0)
          .map(({ area, begin, end }) => (
            <text key={begin} class="chapter-name" x={share((begin + end) / 2)} y="15" text-anchor="middle">
              {area + 1}
            </text>
          ))}
        {small.map((n) => (
          <line
            key={n}
            class="tick"
            x1={share((n * every * unit) / 5)}
            x2={share((n * every * unit) / 5)}
            y1="54"
            y2={n % 5 === 0 ? '38' : '47'}
          />
        ))}
        {marks.map((n) => (
          <text key={n} x={share(n * unit)} dx="-4" y="36" text-anchor="end">
            {n}
          </text>
        ))}
        <text class="unit" x="6" y="36">
          {units === 'in' ? 'yd' : 'm'}
        </text>
        {walked.value !== undefined && (
          <rect class="gone" x="0" y="51" height="4" width={share(walked.value)} />
        )}
      </svg>
      <input
        type="range"
        aria-label="Place along the line"
        min={0}
        max={Math.ceil(whole / 10) * 10}
        step={10}
        value={at}
        aria-valuetext={`${(at / unit).toFixed(1)} ${units === 'in' ? 'yards' : 'metres'} of ${(whole / unit).toFixed(1)}`}
        onInput={(event) => {
          isPlaying.value = false
          goTo(Number(event.currentTarget.value), scene)
        }}
      />
    </div>
  )
}

/** What is under the needle, and what it has taken so far: the report's figures, by the stitches done. */
function SoFar({ scene }: { scene: Scene }) {
  const at = walked.value ?? scene.lengthMm
  const fillers = laid.value?.plan.bands.map(({ filler }) => fillerTitle(filler?.name ?? 'none')) ?? []
  const here = partAt(scene, at)
  const units = laid.value?.plan.units ?? 'in'
  const now = freshFigures.value
  const [long, name] = units === 'in' ? [MM_PER.yd, 'yd'] : [MM_PER.m, 'm']
  const done = now ? stitchesBy(now.needles, at + 0.01) : 0
  const isDone = at >= scene.lengthMm - 0.01
  const share = isDone ? 1 : now ? done / Math.max(1, now.needles.length - 1) : 0
  return (
    <div class="so-far">
      <p class="here">
        {walked.value === undefined ? 'The whole line' : here && partWords(here, scene, fillers)}
      </p>
      <dl>
        <div>
          <dt>line</dt>
          <dd>
            {(at / long).toFixed(1)} {name}
          </dd>
        </div>
        {now && (
          <>
            <div>
              <dt>stitches</dt>
              <dd>{Math.round(share * now.report.stitches.count).toLocaleString('en-GB')}</dd>
            </div>
            <div>
              <dt>thread</dt>
              <dd>
                {((share * (now.report.thread.topM + now.report.thread.bobbinM) * 1000) / long).toFixed(1)}{' '}
                {name}
              </dd>
            </div>
            <div>
              <dt>time</dt>
              <dd>{clockText(share * now.report.time.minutes)}</dd>
            </div>
          </>
        )}
      </dl>
    </div>
  )
}

/** Moves the needle on with every frame while the line is played. */
function usePlaying(speed: { readonly value: number; peek(): number }): void {
  useSignalEffect(() => {
    if (!isPlaying.value) return
    let before = performance.now()
    let frame = 0
    const tick = (now: number) => {
      const scene = shownScene.peek()
      const plan = laid.peek()?.plan
      if (!scene || !plan) return
      const mmPerMs = (plan.machine.speed * plan.stitch.length) / 60_000
      goTo((walked.peek() ?? 0) + (now - before) * mmPerMs * speed.peek(), scene)
      before = now
      if (walked.peek()! >= scene.lengthMm) isPlaying.value = false
      else frame = requestAnimationFrame(tick)
    }
    frame = requestAnimationFrame(tick)
    return () => cancelAnimationFrame(frame)
  })
}

const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.matches('textarea, select, summary, button, a') ||
    target.matches('input:not([type=range]), dialog *') ||
    target.isContentEditable)

/** Space walks and stops, comma and full stop step, brackets go by areas; anywhere but in a field. */
function useWalkKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const scene = shownScene.peek()
      if (!scene || isTyping(event.target) || event.ctrlKey || event.metaKey || event.altKey) return
      if (event.key === ' ') togglePlay(scene)
      else if (event.key === '.') step(scene, 1)
      else if (event.key === ',') step(scene, -1)
      else if (event.key === ']') chapter(scene, 1)
      else if (event.key === '[') chapter(scene, -1)
      else return
      event.preventDefault()
    }
    document.addEventListener('keydown', onKey)
    return () => document.removeEventListener('keydown', onKey)
  }, [])
}
