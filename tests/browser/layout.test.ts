/** What a pilot answers with is in view in both sizes, wherever the run is; papers lie beside it and outlast a reload. */

import type { Page } from 'playwright-core'
import { afterEach, expect, inject, test } from 'vitest'
import { TALK, TO_ALTIMETERS, TO_AWAY, TO_CLEARANCE, TO_CREW } from '../app/demoAnswers.ts'
import { goOnFlown } from './flown.ts'
import { openPage, type TestPage } from './page.ts'
import { pilotAt } from './pilot.ts'

let opened: TestPage | undefined
afterEach(async () => {
  await opened?.close()
  opened = undefined
})

const ALL = [...TO_CLEARANCE, ...TO_ALTIMETERS, ...TO_CREW, ...TO_AWAY]
const upTo = (answer: string) => ALL.slice(0, ALL.lastIndexOf(answer) + 1)
const PLACES = [
  ['a flow', []],
  ['an item', ['load figures list']],
  ['a clearance', upTo('request clearance')],
  ['the ground crew', upTo('all pumps on')],
  ['a start', upTo('rotation seen')],
] as const
const WIDE = { width: 1280, height: 800 }
const NARROW = { width: 390, height: 844 }
const SIZES = [WIDE, NARROW]

/** What is looked at is not what is heard: the second model would take seconds of each test. */
async function flownTo(answers: readonly string[], size = WIDE, options: { readonly talk?: string } = { talk: TALK }) {
  opened = await openPage({ address: inject('address'), ...size })
  await goOnFlown(opened, answers, { ...options, settings: { secondModel: false } })
  return opened.page
}

/** Space under the field and under the first button, where the challenge begins, and how far the page is too wide. */
const edges = (page: Page) =>
  page.evaluate(() => {
    const { innerHeight, innerWidth } = globalThis
    const bottom = (selector: string) => document.querySelector(selector)?.getBoundingClientRect().bottom ?? Number.NaN
    return {
      field: innerHeight - bottom('#typed'),
      button: innerHeight - bottom('.buttons button'),
      challenge: document.querySelector('h1')?.getBoundingClientRect().top ?? Number.NaN,
      wider: document.documentElement.scrollWidth - innerWidth,
    }
  })

/** In both sizes, as somebody who turns the window meets them. */
async function inBothSizes(page: Page, look: (size: typeof WIDE) => Promise<void>) {
  for (const size of SIZES) {
    await page.setViewportSize(size)
    await page.evaluate(() => globalThis.scrollTo(0, 0))
    await look(size)
  }
}

test.each(PLACES)(
  'the challenge, the field and the buttons are in view at %s, whatever was typed',
  async (_, answers) => {
    const page = await flownTo(answers)
    await inBothSizes(page, async ({ height }) => {
      const { field, button, challenge, wider } = await edges(page)
      expect(Math.min(field, button)).toBeGreaterThanOrEqual(0)
      expect(challenge).toBeGreaterThanOrEqual(0)
      expect(challenge).toBeLessThan(height / 2)
      expect(wider).toBe(0)
    })

    // No word is too long for what is asked, the verdict and the field to be seen together.
    await pilotAt(opened as TestPage).type('x'.repeat(3_000))
    await page.getByText('x'.repeat(3_000)).first().waitFor()
    const seen = await page.evaluate(() => {
      const box = (selector: string) => document.querySelector(selector)?.getBoundingClientRect()
      return { panel: box('.dock')?.height, from: box('.dock')?.top, verdict: box('.heard [role=status]')?.bottom }
    })
    expect(seen.panel).toBeLessThanOrEqual(NARROW.height * 0.4 + 1)
    expect(seen.verdict).toBeLessThanOrEqual(seen.from ?? 0)
    const { challenge, wider } = await edges(page)
    expect(challenge).toBeGreaterThanOrEqual(0)
    expect(wider).toBe(0)
  },
)

test('a room sees the verdict above what is answered with', async () => {
  const page = await flownTo(['load figures list', 'two four three six zero'])
  await page.getByRole('button', { name: 'Show it to a room' }).click()
  await page.getByLabel(/^Freeze /).selectOption('never')
  await inBothSizes(page, async ({ height }) => {
    await pilotAt(opened as TestPage).type('four point three up')
    await page.locator('.verdict').waitFor()
    const edge = await page.locator('.verdict').evaluate((verdict) => verdict.getBoundingClientRect().bottom)
    const dock = await page.locator('.dock').evaluate((dock) => dock.getBoundingClientRect().top)
    expect(edge).toBeLessThan(dock)
    expect(dock / height).toBeGreaterThan(0.65)
  })
})

test.each([
  ['an item', ['load figures list']],
  ['a start', upTo('rotation seen')],
] as const)(
  'with a paper open the challenge stays in sight, however far down one reads: %s',
  async (place, answers) => {
    const page = await flownTo(answers, NARROW)
    await page.locator('.pile button').first().click()
    const paper = page.locator('.open-papers')
    await paper.waitFor()
    const scrollsItself = await paper.evaluate(({ scrollHeight, clientHeight }) => scrollHeight > clientHeight)
    expect(scrollsItself).toBe(true)
    const inSight = place === 'a start' ? ['h1', '.elapsed'] : ['h1']
    for (const to of ['start', 'end'] as const) {
      const seen = await page.evaluate(
        ([selectors, where]) => {
          globalThis.scrollTo(0, where === 'end' ? document.body.scrollHeight : 0)
          const dock = document.querySelector('.dock')?.getBoundingClientRect().top ?? Number.NaN
          return selectors.map((selector) => {
            const box = document.querySelector(selector)?.getBoundingClientRect()
            return box !== undefined && box.top >= 0 && box.bottom <= dock
          })
        },
        [inSight, to] as const,
      )
      expect(seen, to).toEqual(inSight.map(() => true))
    }
  },
)

test('beside an open paper the verdict stands above the panel, and no button of the table is out of sight', async () => {
  const page = await flownTo(upTo('request clearance'))
  await page.locator('.pile button').first().click()
  await page.locator('.open-paper').waitFor()
  await pilotAt(opened as TestPage).type('roger')
  await page.locator('.verdict').waitFor()
  await inBothSizes(page, async ({ width }) => {
    const seen = await page.evaluate(() => {
      const box = (selector: string) => document.querySelector(selector)?.getBoundingClientRect()
      const ends = [...document.querySelectorAll('.table-row button')].map((one) => one.getBoundingClientRect().right)
      return { verdict: box('.verdict')?.bottom, panel: box('.dock')?.top, ends }
    })
    expect(seen.verdict).toBeLessThanOrEqual(seen.panel ?? 0)
    expect(Math.max(...seen.ends)).toBeLessThanOrEqual(width)
    const { field, button, wider } = await edges(page)
    expect(Math.min(field, button)).toBeGreaterThanOrEqual(0)
    expect(wider).toBe(0)
  })
})

test('a room sees what is to be done after a hot start, and no button runs off the edge', async () => {
  const page = await flownTo([...upTo('rotation seen'), 'hot start'])
  await page.getByRole('button', { name: 'Show it to a room' }).click()
  const orders = page.getByRole('list', { name: 'What to do now' })
  await orders.waitFor()
  expect(await orders.textContent()).toMatch(/fuel off/i)
  await inBothSizes(page, async ({ width }) => {
    const seen = await page.evaluate(() => {
      const box = (selector: string) => document.querySelector(selector)?.getBoundingClientRect()
      const ends = [...document.querySelectorAll('.dock button')].map((one) => one.getBoundingClientRect().right)
      return { orders: box('[aria-label="What to do now"]')?.bottom, panel: box('.dock')?.top, ends }
    })
    expect(seen.orders).toBeLessThanOrEqual(seen.panel ?? 0)
    expect(Math.max(...seen.ends)).toBeLessThanOrEqual(width)
  })
})

test('all papers open do not widen the page', async () => {
  const page = await flownTo(['load figures list'], WIDE, {})
  const papers = page.locator('.pile button')
  for (let index = 0; index < (await papers.count()); index++) await papers.nth(index).click()
  await page
    .locator('.open-paper')
    .nth((await papers.count()) - 1)
    .waitFor()
  await inBothSizes(page, async () => expect((await edges(page)).wider).toBe(0))
})

test('a paper is one touch away, beside the answer, and there after a reload', async () => {
  const page = await flownTo(['load figures list'], NARROW, {})
  await page.getByRole('button', { name: 'Trim card Issue 3' }).click()
  expect(await page.getByRole('article', { name: 'trim card Issue 3' }).isVisible()).toBe(true)
  await inBothSizes(page, async () => {
    const { field, wider } = await edges(page)
    expect(field).toBeGreaterThanOrEqual(0)
    expect(wider).toBe(0)
  })
  await page.getByRole('button', { name: 'Scratch pad' }).click()
  await page.getByLabel('Notes', { exact: true }).fill('squawk 4271')
  const pilot = pilotAt(opened as TestPage)
  await expect
    .poll(async () => (await pilot.events()).at(-1))
    .toMatchObject({ type: 'padWritten', text: 'squawk 4271' })
  const looks = (await pilot.events()).filter(({ type }) => type === 'paperHandled')
  expect(looks).toMatchObject([{ edition: 'trimCard', how: 'lookedAt' }])
  await page.reload()
  await page.getByRole('button', { name: 'Press any key to resume' }).waitFor()
  await page.keyboard.press('Space')
  await page.getByRole('article', { name: 'trim card Issue 3' }).waitFor()
  expect(await page.getByLabel('Notes', { exact: true }).inputValue()).toBe('squawk 4271')
})
