// How fast the page is, measured in Chromium on the built page: npx tsx bench/page.ts (after npm run build).
// Bounds: a picture after an edit within 100 ms (nine bands) and 400 ms (twenty), 50 frames a second while a line of
// 100,000 points is scrubbed and zoomed, a first useful view within 1.5 s, 400 KB gzipped before the PDF part.
import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { gzipSync } from 'node:zlib'
import { chromium, type Page } from 'playwright-core'

const EDITS = 7
const places = [
  process.env.CHROME,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
]
const path = fileURLToPath(new URL('../dist/page/index.html', import.meta.url))
const sample = readFileSync(new URL('../samples/harbour-medallion.yaml', import.meta.url), 'utf8')

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

/** From the change of a field to the frame that shows the new line, ms. */
async function editTimes(page: Page): Promise<number[]> {
  const times: number[] = []
  for (let i = 0; i < EDITS; i++) {
    const took = page.evaluate(
      () =>
        new Promise<number>((resolve) => {
          const field = document.querySelector<HTMLInputElement>('#band-2-width')!
          const board = document.querySelector('.board')!
          const before = board.getAttribute('data-drawn')
          field.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowUp', bubbles: true }))
          const began = performance.now()
          const look = () => {
            if (board.getAttribute('data-drawn') !== before) resolve(performance.now() - began)
            else requestAnimationFrame(look)
          }
          requestAnimationFrame(look)
        }),
    )
    times.push(await took)
    await page.locator('main[aria-busy=false]').waitFor({ timeout: 60_000 })
  }
  return times
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
// The runner of this script names functions by a helper of its own, which the page lacks.
await page.addInitScript('globalThis.__name = (f) => f')
await page.goto(pathToFileURL(path).href)
await page.locator('.board[data-drawn]').waitFor()
say('First useful view', `${(performance.now() - began).toFixed(0)} ms`, 'at most 1500 ms')
await page.locator('main[aria-busy=false]').waitFor({ timeout: 60_000 })
say('Edit to picture, nine bands, median', `${median(await editTimes(page)).toFixed(0)} ms`, 'at most 100 ms')
await frames(page)
await open(page, twentyBands())
say(
  'Edit to picture, twenty bands, median',
  `${median(await editTimes(page)).toFixed(0)} ms`,
  'at most 400 ms',
)
await frames(page)
await browser.close()
