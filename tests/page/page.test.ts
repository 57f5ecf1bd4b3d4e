import type { Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { PlanError } from '../../src/error.ts'
import { machineFiles } from '../../src/export/files.ts'
import { exportDrawing } from '../../src/export/index.ts'
import { planFromText } from '../../src/pipeline.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { reportPage } from '../../src/report/report-page.ts'
import { SAMPLES } from '../support/samples.ts'
import {
  CONTRAST,
  figure,
  keptText,
  openSample,
  replanned,
  savedBy,
  settled,
  unfold,
  violations,
} from './chromium.ts'
import { sharedVisit } from './shared-visit.ts'

const shared = sharedVisit()
const CATALOG = catalogOf(LIBRARY)

describe('a plan is changed by looking at it', () => {
  test('a sample is opened, a width and a filler are changed, and picture, figures and plan file follow', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    const before = await figure(page, 'Length of line')
    const width = page.getByLabel('shingle, width')
    await width.fill('2 1/4')
    await width.press('Enter')
    await replanned(page)
    await page.getByRole('button', { name: 'shingle, Scallop: show its settings' }).click()
    await page.getByRole('radio', { name: 'Wave' }).first().check({ force: true })
    await replanned(page)
    const plan = parse(await keptText(page))
    expect(plan.bands[0]).toMatchObject({ width: '2 1/4', filler: 'wave' })
    expect(await figure(page, 'Quilt with its binding')).toBe('45 in x 14 in')
    expect(await figure(page, 'Length of line')).not.toBe(before)
  })

  test('the comments of the plan file stay, and what is undone is undone to the letter', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    const text = await keptText(page)
    expect(text).toBe(SAMPLES['quay-runner'])
    await page.getByRole('button', { name: 'Add a border at the edge' }).click()
    await replanned(page)
    const added = await keptText(page)
    expect(parse(added).bands).toHaveLength(2)
    expect(added.split('\n')[0]).toBe(text.split('\n')[0])
    await page.getByRole('button', { name: 'Undo' }).click()
    expect(await keptText(page)).toBe(text)
    await page.getByRole('button', { name: 'Redo' }).click()
    expect(await keptText(page)).toBe(added)
    await page.getByRole('button', { name: 'Undo' }).click()
    await replanned(page)
  })

  test('a centre of another shape is changed by its size from flat to flat', async () => {
    const { page } = shared.seen
    await openSample(page, 'Beacon hexagon')
    const across = page.getByLabel('Centre, across')
    await across.fill('22')
    await across.press('Enter')
    await replanned(page)
    expect(parse(await keptText(page)).centre).toMatchObject({ shape: 'hexagon', across: 22 })
    const { widthMm } = planFromText(await keptText(page), CATALOG).report.quilt
    // 22 in and twice 10 in of bands and 1/4 in of binding from flat to flat; from corner to corner over cos 30 degrees.
    expect(widthMm).toBeCloseTo((42.5 * 25.4) / Math.cos(Math.PI / 6), 2)
    await openSample(page, 'Light on point')
    expect(await page.getByText('size follows from the centre').count()).toBe(1)
  })

  test('another unit leaves the quilt as it is', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    await page.getByLabel('Unit of the plan').selectOption('cm')
    await replanned(page)
    expect(parse(await keptText(page))).toMatchObject({
      units: 'cm',
      centre: { width: 101.6, height: 22.86 },
    })
    const [inches, cm] = [SAMPLES['quay-runner']!, await keptText(page)].map(
      (text) => planFromText(text, CATALOG).report.line.lengthMm,
    )
    expect(cm).toBeCloseTo(inches!, 3)
  })

  test('a click on a corner of the quilt and a yes start the line there', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    const board = (await page.getByRole('application').boundingBox())!
    const start = (await page.locator('.badge.start > circle').boundingBox())!
    // The mirror image of the present start about the middle of the quilt is a corner as well.
    const x = 2 * (board.x + board.width / 2) - (start.x + start.width / 2)
    const y = 2 * (board.y + board.height / 2) - (start.y + start.height / 2)
    await page.mouse.click(x, y)
    await page.getByRole('button', { name: /^Start here/ }).click()
    await replanned(page)
    expect(parse(await keptText(page)).route.start).toBeTruthy()
    const moved = (await page.locator('.badge.start > circle').boundingBox())!
    expect(Math.hypot(moved.x - start.x, moved.y - start.y)).toBeGreaterThan(50)
  })
})

describe('the line is walked', () => {
  test('at its end it has taken all stitches that the report counts, and at its start none', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    const tape = page.getByRole('slider', { name: 'Place along the line' })
    const stitches = () => page.locator('.so-far dd').nth(1).textContent()
    await tape.press('Home')
    expect(await stitches()).toBe('0')
    await tape.press('End')
    expect(await stitches()).toBe(await figure(page, 'Stitches'))
    await tape.press('Home')
    await page.keyboard.press(']')
    await expect.poll(() => page.locator('.so-far .here').textContent()).toMatch(/area 2 of/)
  })

  test('space walks and stops', async () => {
    const { page } = shared.seen
    await page.getByRole('slider', { name: 'Place along the line' }).press('Home')
    await page.getByRole('application').focus()
    await page.keyboard.press(' ')
    await page.waitForTimeout(400)
    await page.keyboard.press(' ')
    const at = await page.getByRole('slider', { name: 'Place along the line' }).inputValue()
    expect(Number(at)).toBeGreaterThan(100)
    await page.waitForTimeout(200)
    expect(await page.getByRole('slider', { name: 'Place along the line' }).inputValue()).toBe(at)
    await page.getByRole('button', { name: 'Whole line' }).click()
  })
})

describe('what is taken away has the bytes that the command line writes', () => {
  const take = async (press: (page: Page) => Promise<void>, count: number) => {
    const { page } = shared.seen
    if ((await keptText(page)) !== SAMPLES['quay-runner']) await openSample(page, 'Quay runner')
    await page.getByRole('button', { name: 'Take it away' }).click()
    const files = await savedBy(page, () => press(page), count)
    await page.getByRole('dialog').getByRole('button', { name: 'Close' }).click()
    return files
  }
  const planned = () => planFromText(SAMPLES['quay-runner']!, CATALOG)
  const bytes = (content: string | Uint8Array) => Buffer.from(content as Uint8Array)

  for (const format of ['gcode', 'dxf', 'svg', 'csv'])
    test(`the machine path as ${format}`, async () => {
      const files = await take(async (page) => {
        await page.getByLabel('Format').selectOption(format)
        await page.getByRole('button', { name: 'Make machine path' }).click()
      }, 2)
      for (const { name, content } of await machineFiles(format, planned().drawing))
        expect(files.get(name)?.equals(bytes(content)), name).toBe(true)
    })

  test('the machine path with options, a length among them', async () => {
    const files = await take(async (page) => {
      await page.getByLabel('Format').selectOption('gcode')
      await page.locator('.take', { hasText: 'Machine path' }).getByText('Options').click()
      await page.locator('#Machine-path-units').selectOption('mm')
      await page.getByRole('button', { name: 'Make machine path' }).click()
    }, 2)
    for (const { name, content } of await machineFiles('gcode', planned().drawing, { units: 'mm' }))
      expect(files.get(name)?.equals(bytes(content)), name).toBe(true)
  })

  test('the tracing sheets', async () => {
    const files = await take((page) => page.getByRole('button', { name: 'Make tracing sheets' }).click(), 1)
    const sheets = await exportDrawing('sheets', planned().drawing)
    expect(files.get('quay-runner-sheets.pdf')?.equals(bytes(sheets))).toBe(true)
  })

  test('the order of work', async () => {
    const files = await take((page) => page.getByRole('button', { name: 'Order as PDF' }).click(), 1)
    const order = await exportDrawing('order-pdf', planned().drawing)
    expect(files.get('quay-runner-order.pdf')?.equals(bytes(order))).toBe(true)
  })

  test('the picture, the line, the report and its page', async () => {
    const { drawing, report } = planned()
    const pictureSvg = (await exportDrawing('picture', drawing)) as string
    const wanted: [string, string, string][] = [
      ['SVG', 'picture.svg', pictureSvg],
      ['Line JSON', 'line.json', (await exportDrawing('line-json', drawing)) as string],
      ['Report JSON', 'report.json', `${JSON.stringify(report, null, 2)}\n`],
      ['Page to print', 'report.html', reportPage(drawing, { report, pictureSvg })],
    ]
    for (const [button, name, content] of wanted) {
      const press = (page: Page) => page.getByRole('button', { name: button, exact: true }).click()
      expect((await take(press, 1)).get(name)?.toString(), name).toBe(content)
    }
  })
})

describe('work is not lost', () => {
  test('a reload goes on with the work in progress', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    await page.getByLabel('Centre, width').fill('38 3/4')
    await page.getByLabel('Centre, width').press('Enter')
    await replanned(page)
    const text = await keptText(page)
    await page.reload()
    await settled(page)
    expect(await page.getByLabel('Centre, width').inputValue()).toBe('38 3/4')
    expect(await keptText(page)).toBe(text)
  })

  test('a broken plan file shows every problem at its line, and is kept and saved as it is', async () => {
    const { page } = shared.seen
    const broken = [
      '# a plan with four mistakes',
      'titel: Wreck',
      'centre: { width: -2, height: 9 }',
      'bands:',
      '  - { name: a, width: 2, filler: scalop }',
      '  - { name: b, widht: 3 }',
      '',
    ].join('\n')
    await page.setInputFiles('#open-file', {
      name: 'wreck.yaml',
      mimeType: 'application/yaml',
      buffer: Buffer.from(broken),
    })
    await page.locator('.problems li').first().waitFor()
    const problems = problemsOf(broken)
    expect(problems.length).toBeGreaterThanOrEqual(4)
    const shown = await page.locator('.problems li').allInnerTexts()
    expect(shown).toHaveLength(problems.length)
    problems.forEach(({ message, position }, i) => {
      expect(shown[i]).toContain(message)
      expect(shown[i]).toContain(`line ${position!.line}`)
    })
    expect(await keptText(page)).toBe(broken)
    // The row of the narrow centre says so at its own field.
    await expect.poll(() => page.locator('#centre-width-say').textContent()).toContain('-2')
    // A problem leads to its line in the text.
    await page.locator('.problems li button', { hasText: 'scalop' }).click()
    const selected = await page
      .getByLabel('Text of the plan file')
      .evaluate((area: HTMLTextAreaElement) => area.value.slice(area.selectionStart, area.selectionEnd))
    expect(selected).toContain('scalop')
    await page.getByRole('dialog').getByRole('button', { name: 'Close' }).click()
    await page.getByRole('button', { name: 'Take it away' }).click()
    const saved = await savedBy(page, () => page.getByRole('button', { name: 'Save wreck.yaml' }).click(), 1)
    expect(saved.get('wreck.yaml')?.toString()).toBe(broken)
    await page.getByRole('dialog').getByRole('button', { name: 'Close' }).click()
    await page.getByRole('button', { name: 'Undo' }).click()
    await replanned(page)
    expect(await page.locator('.problems').count()).toBe(0)
  })
})

function problemsOf(text: string) {
  try {
    readPlan(text, CATALOG)
  } catch (error) {
    if (error instanceof PlanError) return error.problems
  }
  return []
}

describe('everyone can use it', () => {
  for (const [theme, rules] of [
    ['light', undefined],
    // In the dark only colours differ.
    ['dark', CONTRAST],
  ] as const)
    test(`axe finds no violation in the ${theme} page, its cards and its sheets`, async () => {
      const { page } = shared.seen
      await openSample(page, 'Quay runner')
      await page.getByLabel('Light or dark').selectOption(theme)
      expect(await violations(page, rules)).toEqual([])
      for (const card of ['Centre: show', 'shingle, Scallop: show', 'Binding, machine']) {
        await page.getByRole('button', { name: card }).click()
        await page.waitForTimeout(150)
        await unfold(page)
        expect(await violations(page, rules), card).toEqual([])
      }
      for (const sheet of ['Text', 'Compare', 'Take it away']) {
        await page.getByRole('button', { name: sheet, exact: true }).click()
        expect(await violations(page, rules), sheet).toEqual([])
        await page.keyboard.press('Escape')
      }
      await page.keyboard.press('Escape')
    })

  test('axe does find what is wrong', async () => {
    const { page } = shared.seen
    await page.evaluate(() => document.body.insertAdjacentHTML('beforeend', '<img id="wrong" src="data:,">'))
    expect((await violations(page)).join()).toContain('image-alt')
    await page.evaluate(() => document.getElementById('wrong')!.remove())
  })

  test('a width is found, changed and undone by keyboard alone', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur())
    let label = ''
    for (let i = 0; i < 40 && label !== 'shingle, width'; i++) {
      await page.keyboard.press('Tab')
      label = await page.evaluate(
        () => (document.activeElement as HTMLInputElement | null)?.labels?.[0]?.textContent ?? '',
      )
    }
    expect(label).toBe('shingle, width')
    await page.keyboard.press('ArrowUp')
    await replanned(page)
    expect(parse(await keptText(page)).bands[0].width).toBe(2.625)
    await page.keyboard.press('Tab')
    await page.keyboard.press('Control+z')
    await replanned(page)
    expect(await keptText(page)).toBe(SAMPLES['quay-runner'])
  })
})

test('nothing has gone wrong, and no request has left the page', () => {
  expect(shared.seen.faults.filter((text) => !text.includes('data:,'))).toEqual([])
  const elsewhere = shared.seen.requests.filter(
    (url) => url !== shared.built.url && !/^(blob|data):/.test(url),
  )
  expect(elsewhere).toEqual([])
})
