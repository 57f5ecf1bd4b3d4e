import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { LIBRARY } from '../../motifs/library.ts'
import { readDrawnRepeat, readPathRepeat } from '../../src/drawn/read-repeat.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { countText, longLengthText } from '../../src/export/labels.ts'
import { planFromText } from '../../src/pipeline.ts'
import { type Option, planOptions } from '../../src/plan/options.ts'
import { figure, keptText, openSample, replanned, unfold, violations } from './chromium.ts'
import { sharedVisit } from './shared-visit.ts'

const shared = sharedVisit()

const planNow = async (page: Page) => parse(await keptText(page))
const card = (page: Page) => page.locator('.card-place')
const openCard = async (page: Page, name: RegExp) => {
  await page.getByRole('button', { name }).click()
  await unfold(page)
}
const closeCard = (page: Page) => card(page).getByRole('button', { name: 'Close' }).click()

describe('all that a plan may say can be said on the page', () => {
  /** The ids of the fields of a group of options. */
  const idsOf = (path: string, option: Option): string[] =>
    option.kind === 'group'
      ? Object.entries(option.of).flatMap(([key, part]) => idsOf(`${path}-${key}`, part))
      : option.kind === 'row'
        ? option.of.map((_, i) => `${path}-${i}`)
        : [option.kind === 'by-name' ? `${path}-name` : path]

  test('every key around the quilt has its field, and those for a frame come with the frame', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    await openCard(page, /^Binding, machine/)
    await page.locator('#machine-kind').selectOption('frame')
    await replanned(page)
    await unfold(page)
    const { $schema, title, units, centre, bands, binding, ...around } = planOptions()
    const lists = Object.entries(around).filter(([, option]) => option.kind === 'list')
    const wanted = Object.entries(around).flatMap(([key, option]) =>
      option.kind === 'list' ? [] : idsOf(key, option),
    )
    const missing: string[] = []
    for (const id of wanted)
      if ((await card(page).locator(`[id="${id}"], [id="${id}-class"]`).count()) === 0) missing.push(id)
    // The candidates of a thread are a list: it has a button to add one.
    expect(missing).toEqual(['thread-candidates'])
    expect(
      await card(page)
        .getByRole('button', { name: /^Add a / })
        .count(),
    ).toBe(lists.length + 1)
    await page.getByRole('button', { name: 'Undo' }).click()
    await replanned(page)
    expect(await card(page).locator('#machine-throat').count()).toBe(0)
    await closeCard(page)
  })

  test('the centre is filled by looking, and its value set by its slider', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    const before = await figure(page, 'Largest circle without stitching')
    await openCard(page, /^Centre: show/)
    await card(page).locator('.filler:has(input[value=meander]) svg path').first().waitFor()
    await card(page).getByRole('radio', { name: 'Meander' }).check({ force: true })
    await replanned(page)
    expect((await planNow(page)).centre.filler).toBe('meander')
    expect(await figure(page, 'Largest circle without stitching')).not.toBe(before)
    const slider = card(page).getByRole('slider').first()
    await slider.press('ArrowRight')
    await replanned(page)
    expect((await planNow(page)).centre.filler.meander).toBeTruthy()
    await card(page)
      .getByRole('button', { name: /back to what is usual/ })
      .first()
      .click()
    await replanned(page)
    expect((await planNow(page)).centre.filler).toBe('meander')
    await closeCard(page)
  })

  test('the centre takes another shape with one size across, and its width and height back', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    const before = await planNow(page)
    await openCard(page, /^Centre: show/)
    await page.locator('#centre-shape').selectOption('octagon')
    await replanned(page)
    expect((await planNow(page)).centre).toMatchObject({ shape: 'octagon', across: before.centre.width })
    expect(await page.locator('.problems').count()).toBe(0)
    expect(await page.locator('#centre-across').inputValue()).toBe(String(before.centre.width))
    await page.getByRole('button', { name: 'Undo' }).click()
    await replanned(page)
    expect(await planNow(page)).toEqual(before)
    await closeCard(page)
  })

  test('a drawing chosen from a file becomes a motif of the plan, or says why it cannot', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    await openCard(page, /^Binding, machine/)
    const choose = (name: string, svg: string) =>
      page
        .locator('#motifs-drawing')
        .setInputFiles({ name, mimeType: 'image/svg+xml', buffer: Buffer.from(svg) })
    await choose(
      'two.svg',
      '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0L9 0"/><path d="M0 5L9 5"/></svg>',
    )
    await expect
      .poll(() => card(page).getByRole('alert').allTextContents())
      .toContainEqual(expect.stringMatching(/two\.svg: .*2 paths/))
    expect((await planNow(page)).motifs).toBeUndefined()
    const drawing = readFileSync('samples/breakwater.svg', 'utf8')
    await choose('wave.svg', drawing)
    await replanned(page)
    const { motifs } = await planNow(page)
    // A wave is in the library: the drawing of that name gets another.
    expect(Object.keys(motifs)).toEqual(['wave-2'])
    expect(readPathRepeat(motifs['wave-2'].path)).toEqual(readDrawnRepeat(drawing))
    expect(await page.locator('.problems').count()).toBe(0)
    const suits = card(page).getByRole('group', { name: 'Suits' })
    expect(await suits.locator('label').allTextContents()).toEqual(['narrowest', 'widest'])
    await page.getByRole('button', { name: 'Undo' }).click()
    await replanned(page)
    await closeCard(page)
  })

  test('a side, the cornerstones and the patches of a band have fillers of their own', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    await openCard(page, /^shingle, /)
    await card(page)
      .locator('.side', { hasText: 'Left' })
      .getByRole('radio', { name: 'not quilted' })
      .check({ force: true })
    await replanned(page)
    expect((await planNow(page)).bands[0].sides).toEqual({ left: 'none' })
    await page.locator('#band-corners').selectOption('cornerstone')
    await card(page).locator('input[value=four-petal]').check({ force: true })
    await replanned(page)
    expect((await planNow(page)).bands[0]).toMatchObject({
      corners: 'cornerstone',
      cornerstone: 'four-petal',
    })
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByRole('button', { name: 'Undo' }).click()
    await replanned(page)
    await page.locator('#bands-0-pieced-unit').selectOption('squares')
    await replanned(page)
    await unfold(page)
    await card(page).getByRole('button', { name: 'fill patch by patch' }).first().click()
    await unfold(page)
    const dark = card(page).locator('.thing', { hasText: 'Dark' })
    await dark.locator('input[value=orange-peel]').check({ force: true })
    await replanned(page)
    expect((await planNow(page)).bands[0]).toMatchObject({
      pieced: { unit: 'squares' },
      filler: { dark: 'orange-peel', light: 'none' },
    })
    await closeCard(page)
  })

  test('measured sizes and regions begin with something that makes sense on this quilt', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    await openCard(page, /^Binding, machine/)
    await card(page).getByRole('button', { name: 'Add a measured size' }).click()
    await replanned(page)
    const { measured } = await planNow(page)
    expect(measured).toEqual([{ band: 'shingle', across: [45, 45, 45], down: [14, 14, 14] }])
    await card(page).getByLabel('middle').first().fill('45 1/4')
    await card(page).getByLabel('middle').first().press('Enter')
    await replanned(page)
    expect((await planNow(page)).measured[0].across).toEqual([45, '45 1/4', 45])
    expect(await page.locator('.problems').count()).toBe(0)
    await card(page).getByRole('button', { name: 'Take measured size 1 away' }).click()
    await replanned(page)
    expect('measured' in (await planNow(page))).toBe(false)
    await card(page).getByRole('button', { name: 'Add a region' }).click()
    await expect
      .poll(async () => (await planNow(page)).avoid)
      .toEqual([{ circle: { at: [22.75, 7.25], radius: 1.45 } }])
    await page.getByRole('button', { name: 'Undo' }).click()
    await replanned(page)
    await closeCard(page)
  })

  test('what the planner refuses is said at its place, and nothing stale is passed off as new', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    await openCard(page, /^Binding, machine/)
    await page.locator('#machine-speed').fill('5')
    await page.locator('#machine-speed').press('Enter')
    await expect.poll(() => page.locator('#machine-speed-say').textContent()).toContain('10 to 10000')
    expect(await page.locator('.standing').textContent()).toContain('last good plan')
    expect(await page.locator('.so-far dt').allTextContents()).toEqual(['line'])
    await page.locator('#machine-speed').fill('')
    await page.locator('#machine-speed').press('Enter')
    await replanned(page)
    expect(await page.locator('#machine-speed-say').count()).toBe(0)
    expect(await page.locator('.standing').textContent()).toBe('')
    await closeCard(page)
  })
})

describe('a plan that is changed faster than it can be planned', () => {
  test('shows pictures meanwhile, and in the end the figures of its last state', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    const drawn = () => page.locator('.board').getAttribute('data-drawn').then(Number)
    const before = await drawn()
    const width = page.getByLabel('shingle, width')
    for (let i = 0; i < 25; i++) {
      await width.press(i % 8 < 5 ? 'ArrowUp' : 'ArrowDown')
    }
    await replanned(page)
    const pictures = (await drawn()) - before
    expect(pictures).toBeGreaterThanOrEqual(1)
    expect(pictures).toBeLessThanOrEqual(25)
    const { line, stitches } = planFromText(await keptText(page), catalogOf(LIBRARY)).report
    expect(await figure(page, 'Stitches')).toBe(countText(stitches.count))
    expect(await figure(page, 'Length of line')).toBe(longLengthText(line.lengthMm, 'in'))
  })
})

describe('plans are compared side by side', () => {
  test('a kept plan stands beside the present one, with its figures and what differs', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    await page.getByRole('button', { name: 'Keep this plan to compare' }).click()
    const width = page.getByLabel('shingle, width')
    await width.press('ArrowUp')
    await replanned(page)
    await page.getByRole('button', { name: 'Compare', exact: true }).click()
    const sheet = page.getByRole('dialog')
    await sheet.getByRole('button', { name: 'The kept plan' }).click()
    await sheet.locator('.differences tbody tr').first().waitFor()
    const row = async (label: string) =>
      sheet
        .locator('.differences tr', { has: page.getByRole('rowheader', { name: label, exact: true }) })
        .locator('td')
        .allTextContents()
    expect(await row('Quilt with its binding')).toEqual([
      '45 3/4 in x 14 3/4 in',
      '45 1/2 in x 14 1/2 in',
      'another',
    ])
    expect(await row('Thread starts')).toEqual(['1', '1', 'the same'])
    expect(await sheet.locator('.pictures canvas').count()).toBe(2)
    expect(await violations(page)).toEqual([])
    await sheet.getByRole('button', { name: 'Go on with the kept plan' }).click()
    await replanned(page)
    expect((await planNow(page)).bands[0].width).toBe(2.5)
    await page.getByRole('button', { name: 'Let it go' }).click()
  })

  test('the ways to work a plan are worked out, and one of them is taken on', async () => {
    const { page } = shared.seen
    await openSample(page, 'Quay runner')
    await page.getByRole('button', { name: 'Compare', exact: true }).click()
    const sheet = page.getByRole('dialog')
    await sheet.getByRole('button', { name: 'Work out all ways' }).click()
    await sheet.locator('.is-choice').waitFor({ timeout: 50_000 })
    const moves = await sheet
      .locator('tr', { has: page.getByRole('rowheader', { name: 'lap by lap', exact: true }) })
      .locator('td')
      .nth(3)
      .textContent()
    await sheet.getByRole('button', { name: 'Lay lap by lap beside the present plan' }).click()
    const besideMoves = sheet
      .locator('.differences tr', { has: page.getByRole('rowheader', { name: 'Moves of the quilt' }) })
      .locator('td')
      .nth(1)
    // The table of ways and the plan laid beside tell the same.
    await expect.poll(() => besideMoves.textContent().catch(() => ''), { timeout: 20_000 }).toBe(moves)
    await sheet.getByRole('button', { name: 'Go on with lap by lap' }).click()
    await replanned(page)
    expect((await planNow(page)).route.work).toBe('laps')
  })
})

test('nothing has gone wrong', () => {
  expect(shared.seen.faults).toEqual([])
})
