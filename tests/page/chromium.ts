import { existsSync } from 'node:fs'
import { pathToFileURL } from 'node:url'
import axe from 'axe-core'
import { type Browser, chromium, type Page } from 'playwright-core'
import { buildOnce, PAGE } from '../support/build-once.ts'

const places = [
  process.env.CHROME,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
]

/** A real browser on the page as it is built from the sources now. */
export interface BuiltPage {
  readonly browser: Browser
  /** Where the page lies on the disk. */
  readonly path: string
  readonly url: string
  close(): Promise<void>
}

/** Starts Chromium. @throws Error if there is none */
export function launchChromium(): Promise<Browser> {
  const executablePath = places.find((place) => place && existsSync(place))
  if (!executablePath) throw new Error('no Chromium was found; run: npm run browser')
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  })
}

/** Builds the page, unless that has been done since its sources changed, and starts Chromium. */
export async function buildPage(): Promise<BuiltPage> {
  buildOnce()
  const browser = await launchChromium()
  return { browser, path: PAGE, url: pathToFileURL(PAGE).href, close: () => browser.close() }
}

/** A visit to the page, and everything that went wrong or was asked for from outside of it. */
export interface Visit {
  readonly page: Page
  readonly faults: string[]
  readonly requests: string[]
}

export async function visit({ browser, url }: Pick<BuiltPage, 'browser' | 'url'>): Promise<Visit> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, acceptDownloads: true })
  const page = await context.newPage()
  const [faults, requests]: [string[], string[]] = [[], []]
  page.on('pageerror', (error) => faults.push(error.message))
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') faults.push(message.text())
  })
  page.on('request', (request) => requests.push(request.url()))
  await page.goto(url)
  await settled(page)
  return { page, faults, requests }
}

/** Waits until picture and figures are those of the plan. */
export async function settled(page: Page): Promise<void> {
  await page.locator('.badge.start').waitFor({ state: 'attached' })
  await page.locator('.figures[aria-busy=false] .gauge').waitFor({ timeout: 50_000 })
}

/** Opens a sample from the menu. */
export async function openSample(page: Page, title: string): Promise<void> {
  await page.getByText('Samples', { exact: true }).click()
  await page.getByRole('button', { name: title }).click()
  await page.waitForFunction(
    (wanted) => document.querySelector<HTMLInputElement>('.title')?.value === wanted,
    title,
  )
  await replanned(page)
}

/** Waits until a change that was just made is in picture and figures. */
export async function replanned(page: Page): Promise<void> {
  await page.waitForTimeout(60)
  await page.locator('main[aria-busy=false]').waitFor({ timeout: 50_000 })
  await settled(page)
}

/** The plan file as the page keeps it. */
export const keptText = (page: Page): Promise<string> =>
  page.evaluate(() => JSON.parse(localStorage.getItem('ditchline.work') ?? '{}').text as string)

/** What the browser saves when something is pressed, by the files' names. */
export async function savedBy(
  page: Page,
  press: () => Promise<void>,
  count: number,
): Promise<Map<string, Buffer>> {
  const files = new Map<string, Buffer>()
  const all = new Promise<void>((resolve, reject) => {
    page.on('download', async (download) => {
      try {
        const chunks: Buffer[] = []
        for await (const chunk of await download.createReadStream()) chunks.push(chunk as Buffer)
        files.set(download.suggestedFilename(), Buffer.concat(chunks))
        if (files.size === count) resolve()
      } catch (error) {
        reject(error as Error)
      }
    })
  })
  await press()
  await all
  page.removeAllListeners('download')
  return files
}

/** A figure as the page tells it. */
export const figure = (page: Page, label: string) =>
  page
    .locator('.figures tr', { has: page.getByRole('rowheader', { name: label }) })
    .locator('td')
    .first()
    .textContent()

/** All rules of WCAG 2.2 A and AA and of good practice. */
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']
/** The rule that colours decide. */
export const CONTRAST = ['color-contrast']

/** The violations of the rules of WCAG 2.2 A and AA and of good practice, or of some of them. */
export async function violations(page: Page, rules: readonly string[] = RULES): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axe.source)
  return page.evaluate(async (tags) => {
    // biome-ignore lint/suspicious/noExplicitAny: the tool brings no types into the page
    const found = await (globalThis as any).axe.run(document, { runOnly: tags })
    return found.violations.map(
      (v: { id: string; nodes: { html: string }[] }) => `${v.id}: ${v.nodes.map((n) => n.html).join(' | ')}`,
    )
  }, rules)
}

/** Opens all that is folded away in the card. */
export const unfold = (page: Page): Promise<void> =>
  page.evaluate(() => {
    for (const folded of document.querySelectorAll<HTMLDetailsElement>('.card details')) folded.open = true
  })
