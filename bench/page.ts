// How fast the page is, measured in Chromium on the built page: npx tsx bench/page.ts (after npm run build).
// Bounds: a picture after an edit within 100 ms (nine bands) and 400 ms (twenty), 50 frames a second while a line of
// 100,000 points is scrubbed and zoomed, a first useful view within 1.5 s, 400 KB gzipped before the PDF part.
import { existsSync, readFileSync } from 'node:fs'
import { cpus, loadavg } from 'node:os'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { gzipSync } from 'node:zlib'
import { chromium, type Page } from 'playwright-core'

const EDITS = 9
const places = [
  process.env.CHROME,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
]
const path = fileURLToPath(new URL('../dist/page/index.html', import.meta.url))
const sample = readFileSync(new URL('../samples/harbour-medallion.yaml', import.meta.url), 'utf8')

/** Processes that want a processor, on average over the last minute. */
const load = (): string => `${loadavg()[0]!.toFixed(1)} on ${cpus().length} processors`

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!
const say = (what: string, value: string, bound: string) =>
  console.log(`${what.padEnd(52)} ${value.padStart(10)}   (${bound})`)

function sizes(): void {
  const html = readFileSync(path, 'utf8')
  const pdf = /<script type="text\/plain" id="pdf-part">([\s\S]*?)<\/script>/.exec(html)![1]!
  const kb = (text: string) => `${(gzipSync(text, { level: 9 }).length / 1000).toFixed(0)} KB`
  say('Page without the PDF part, gzipped', kb(html.replace(pdf, '')), 'at most 400 KB')
  say('The PDF part, gzipped', kb(pdf), 'loaded with the file, read when sheets are made')
}

/** Twenty bands, each as wide as those of the sample in turn. */
function twentyBands(): string {
  const bands = sample.split('\n').filter((line) => line.startsWith('  - {'))
  const twenty = Array.from({ length: 20 }, (_, i) =>
    bands[i % 9]!.replace(/name: \w+/, `name: band ${i + 1}`),
  )
  return sample.replace(/ {2}- \{[\s\S]*?\n(?=binding)/, `${twenty.join('\n')}\n`)
}

async function open(page: Page, text: string): Promise<void> {
  await page.setInputFiles('#open-file', { name: 'bench.yaml', mimeType: '', buffer: Buffer.from(text) })
  await page.waitForTimeout(300)
  await page.locator('main[aria-busy=false]').waitFor({ timeout: 60_000 })
}

/** What the page measures from the change of the plan to its picture, and the worker's steps within, ms. */
interface EditTimes {
  /** Until the fillers stand in their new places. */
  readonly fillers: number
  /** Until the line is known as well. */
  readonly picture: number
  readonly read: number
  readonly fill: number
  readonly thread: number
  readonly draw: number
  /** Until the figures are those of the plan as well. */
  readonly figures: number
}

/** Changes a width by the keyboard until figures follow, again and again. */
async function editTimes(page: Page): Promise<EditTimes[]> {
  const times: EditTimes[] = []
  const field = page.locator('#band-2-width')
  for (let i = 0; i < EDITS; i++) {
    await page.evaluate(() => performance.clearMeasures())
    await field.press(i % 2 === 0 ? 'ArrowUp' : 'ArrowDown')
    await page.waitForFunction(() => performance.getEntriesByName('edit to figures').length > 0)
    times.push(
      await page.evaluate(() => {
        const [picture] = performance.getEntriesByName('edit to picture') as PerformanceMeasure[]
        const [fillers, figures] = ['fillers', 'figures'].map(
          (stage) => performance.getEntriesByName(`edit to ${stage}`)[0]!.duration,
        )
        return { ...picture!.detail, picture: picture!.duration, fillers, figures }
      }),
    )
  }
  return times
}

/** Says the medians of several edits, and how busy the machine was: other work on it makes them worse. */
async function edits(page: Page, what: string, bound: string): Promise<void> {
  const times = await editTimes(page)
  const middle = (key: keyof EditTimes) => `${median(times.map((time) => time[key])).toFixed(0)} ms`
  say(`Edit to fillers drawn, ${what}, median of ${EDITS}`, middle('fillers'), `${bound}; load ${load()}`)
  say(`Edit to picture with its line, ${what}`, middle('picture'), bound)
  for (const step of ['read', 'fill', 'thread', 'draw'] as const)
    say(`  of it: ${step}`, middle(step), 'in the worker')
  say(`Edit to figures, ${what}`, middle('figures'), 'no bound')
}

/** Frames a second while `move` is called once a frame. */
const framesPerSecond = (page: Page, kind: 'scrub' | 'zoom'): Promise<number> =>
  page.evaluate(
    (what) =>
      new Promise<number>((resolve) => {
        const tape = document.querySelector<HTMLInputElement>('.tape input')!
        const board = document.querySelector<HTMLElement>('.board')!
        const box = board.getBoundingClientRect()
        const began = performance.now()
        let frames = 0
        const step = (now: number) => {
          frames++
          const t = (now - began) / 2500
          if (t >= 1) return resolve(frames / 2.5)
          if (what === 'scrub') {
            // To and fro, so that the line is taken back as well.
            tape.value = String(Number(tape.max) * (0.5 + 0.5 * Math.sin(12 * t)))
            tape.dispatchEvent(new Event('input', { bubbles: true }))
          } else {
            const [clientX, clientY] = [box.left + box.width * 0.3, box.top + box.height * 0.3]
            const deltaY = 60 * Math.sin(12 * t)
            board.dispatchEvent(
              new WheelEvent('wheel', { deltaY, clientX, clientY, bubbles: true, cancelable: true }),
            )
          }
          requestAnimationFrame(step)
        }
        requestAnimationFrame(step)
      }),
    kind,
  )

async function frames(page: Page): Promise<void> {
  const points = await page.locator('.board').getAttribute('data-points')
  for (const kind of ['scrub', 'zoom'] as const) {
    const rate = await framesPerSecond(page, kind)
    say(`Frames a second, ${kind}, ${points} points`, rate.toFixed(0), 'at least 50 at 100,000')
    if (kind === 'scrub') await page.getByRole('button', { name: 'Whole line' }).click()
  }
}

const executablePath = places.find((place) => place && existsSync(place))
if (!executablePath || !existsSync(path))
  throw new Error('needs Chromium (npm run browser) and the page (npm run build)')
sizes()
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] })
const page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
const began = performance.now()
// The runner of this script wraps functions in one of its own, which the page lacks.
await page.addInitScript('globalThis.__name = (f) => f')
await page.goto(pathToFileURL(path).href)
await page.locator('.board[data-drawn]').waitFor()
const lineMs = performance.now() - began
const fillersMs = await page.evaluate(() => {
  const { startTime, duration } = performance.getEntriesByName('edit to fillers')[0]!
  return startTime + duration
})
say('First useful view: the fillers in their cloth', `${fillersMs.toFixed(0)} ms`, 'at most 1500 ms')
say('First view with its line', `${lineMs.toFixed(0)} ms`, `load ${load()}`)
await page.locator('main[aria-busy=false]').waitFor({ timeout: 60_000 })
await edits(page, 'nine bands', 'at most 100 ms')
await frames(page)
await open(page, twentyBands())
await edits(page, 'twenty bands', 'at most 400 ms')
await frames(page)
await browser.close()
