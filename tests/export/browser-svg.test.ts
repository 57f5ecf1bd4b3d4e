import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { exportDrawing } from '../../src/export/index.ts'
import { planFromText } from '../../src/pipeline.ts'
import { MM_PER } from '../../src/units.ts'
import { launchChromium } from '../page/chromium.ts'
import { SAMPLES } from '../support/samples.ts'

/** What a browser makes of an SVG: its size in CSS pixels and the lengths of its paths in user units. */
async function rendered(browser: Browser, svg: string, path: string) {
  const page = await browser.newPage()
  await page.setContent(`<!DOCTYPE html><body style="margin:0">${svg.replace(/<[?]xml[^>]*>/, '')}</body>`)
  const found = await page.evaluate((selector) => {
    const { width, height } = document.querySelector('svg')!.getBoundingClientRect()
    const lengths = [...document.querySelectorAll<SVGPathElement>(selector)].map((p) => p.getTotalLength())
    return { width, height, lengths }
  }, path)
  await page.close()
  return found
}

describe('an SVG in a browser', () => {
  let browser: Browser
  const { drawing, quilt, report } = planFromText(SAMPLES['quay-runner']!, catalogOf(LIBRARY))
  beforeAll(async () => {
    browser = await launchChromium()
  })
  afterAll(() => browser.close())

  // CSS Values and Units 4: 1 in is 96 px, 1 mm is 96 / 25.4 px.
  it('of the picture has the quilt’s real size and the line’s length', async () => {
    const svg = (await exportDrawing('picture', drawing)) as string
    const { width, height, lengths } = await rendered(browser, svg, 'path.line')
    expect(width * MM_PER.px).toBeCloseTo(quilt.widthMm, 1)
    expect(height * MM_PER.px).toBeCloseTo(quilt.heightMm, 1)
    expect(Math.abs(lengths[0]! / report.line.lengthMm - 1)).toBeLessThan(1e-3)
  })

  it('of the machine path has the line’s length in its unit', async () => {
    const svg = (await exportDrawing('svg', drawing, { units: 'in' })) as string
    const { width, lengths } = await rendered(browser, svg, '#thread-1')
    expect(width / 96).toBeCloseTo(quilt.widthMm / MM_PER.in, 2)
    expect(Math.abs((lengths[0]! * MM_PER.in) / report.line.lengthMm - 1)).toBeLessThan(1e-3)
  })
})
