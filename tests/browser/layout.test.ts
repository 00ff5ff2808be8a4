/** What a pilot answers with is in view in both sizes, wherever the run is; papers lie beside it and outlast a reload. */

import { afterEach, describe, expect, inject, test } from 'vitest'
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
const SIZES = [
  ['wide', 1280, 800],
  ['narrow', 390, 844],
] as const
const PLACES = [
  ['a flow', []],
  ['an item', ['load figures list']],
  ['a clearance', upTo('request clearance')],
  ['the ground crew', upTo('all pumps on')],
  ['a start', upTo('rotation seen')],
] as const

/** Lowest edge of the field and of the first button, and how far the page is wider than its window. */
const edges = ({ page }: TestPage) =>
  page.evaluate(() => {
    const { innerHeight, innerWidth } = globalThis
    const bottom = (selector: string) => document.querySelector(selector)?.getBoundingClientRect().bottom ?? Number.NaN
    const top = document.querySelector('h1')?.getBoundingClientRect().top ?? Number.NaN
    return {
      field: innerHeight - bottom('#typed'),
      button: innerHeight - bottom('.buttons button'),
      challenge: top,
      wider: document.documentElement.scrollWidth - innerWidth,
    }
  })

describe.each(SIZES)('at a %s window', (_, width, height) => {
  test.each(PLACES)('the challenge, the field and the buttons are in view at %s', async (_place, answers) => {
    opened = await openPage({ address: inject('address'), width, height })
    await goOnFlown(opened, [...answers], { talk: TALK })
    const { field, button, challenge, wider } = await edges(opened)
    expect(Math.min(field, button)).toBeGreaterThanOrEqual(0)
    expect(challenge).toBeGreaterThanOrEqual(0)
    expect(challenge).toBeLessThan(height / 2)
    expect(wider).toBe(0)
  })

  test('a room sees the verdict above what is answered with', async () => {
    opened = await openPage({ address: inject('address'), width, height })
    await goOnFlown(opened, ['load figures list', 'two four three six zero'])
    const { page } = opened
    await page.getByRole('button', { name: 'Show it to a room' }).click()
    await page.getByLabel(/^Freeze /).selectOption('never')
    await pilotAt(opened).type('four point three up')
    const edge = await page.locator('.verdict').evaluate((verdict) => verdict.getBoundingClientRect().bottom)
    const dock = await page.locator('.dock').evaluate((dock) => dock.getBoundingClientRect().top)
    expect(edge).toBeLessThan(dock)
    expect(dock / height).toBeGreaterThan(0.65)
  })

  test.runIf(width < 600).each(PLACES)(
    'what is asked, the verdict and the field are seen together at %s, and no word is too long for that',
    async (_place, answers) => {
      opened = await openPage({ address: inject('address'), width, height })
      await goOnFlown(opened, [...answers], { talk: TALK })
      const { page } = opened
      await pilotAt(opened).type('x'.repeat(3_000))
      await page.getByText('x'.repeat(3_000)).first().waitFor()
      const seen = await page.evaluate(() => {
        const box = (selector: string) => document.querySelector(selector)?.getBoundingClientRect()
        return { panel: box('.dock')?.height, from: box('.dock')?.top, verdict: box('.heard [role=status]')?.bottom }
      })
      expect(seen.panel).toBeLessThanOrEqual(height * 0.4 + 1)
      expect(seen.verdict).toBeLessThanOrEqual(seen.from ?? 0)
      const { challenge, wider } = await edges(opened)
      expect(challenge).toBeGreaterThanOrEqual(0)
      expect(wider).toBe(0)
    },
  )

  test.runIf(width < 600).each([
    ['an item', ['load figures list']],
    ['a start', upTo('rotation seen')],
  ] as const)(
    'with a paper open the challenge stays in sight, however far down one reads: %s',
    async (place, answers) => {
      opened = await openPage({ address: inject('address'), width, height })
      await goOnFlown(opened, [...answers], { talk: TALK })
      const { page } = opened
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
    opened = await openPage({ address: inject('address'), width, height })
    await goOnFlown(opened, upTo('request clearance'), { talk: TALK })
    const { page } = opened
    await page.locator('.pile button').first().click()
    await page.locator('.open-paper').waitFor()
    await pilotAt(opened).type('roger')
    await page.locator('.verdict').waitFor()
    const seen = await page.evaluate(() => {
      const box = (selector: string) => document.querySelector(selector)?.getBoundingClientRect()
      const ends = [...document.querySelectorAll('.table-row button')].map((one) => one.getBoundingClientRect().right)
      return { verdict: box('.verdict')?.bottom, panel: box('.dock')?.top, ends, width: globalThis.innerWidth }
    })
    expect(seen.verdict).toBeLessThanOrEqual(seen.panel ?? 0)
    expect(Math.max(...seen.ends)).toBeLessThanOrEqual(seen.width)
    const { field, button, wider } = await edges(opened)
    expect(Math.min(field, button)).toBeGreaterThanOrEqual(0)
    expect(wider).toBe(0)
  })

  test('a room sees what is to be done after a hot start, and no button runs off the edge', async () => {
    opened = await openPage({ address: inject('address'), width, height })
    await goOnFlown(opened, [...upTo('rotation seen'), 'hot start'], { talk: TALK })
    const { page } = opened
    await page.getByRole('button', { name: 'Show it to a room' }).click()
    const orders = page.getByRole('list', { name: 'What to do now' })
    await orders.waitFor()
    expect(await orders.textContent()).toMatch(/fuel off/i)
    const seen = await page.evaluate(() => {
      globalThis.scrollTo(0, 0)
      const box = (selector: string) => document.querySelector(selector)?.getBoundingClientRect()
      const ends = [...document.querySelectorAll('.dock button')].map((one) => one.getBoundingClientRect().right)
      return { orders: box('[aria-label="What to do now"]')?.bottom, panel: box('.dock')?.top, ends }
    })
    expect(seen.orders).toBeLessThanOrEqual(seen.panel ?? 0)
    expect(Math.max(...seen.ends)).toBeLessThanOrEqual(width)
  })

  test('all papers open do not widen the page', async () => {
    opened = await openPage({ address: inject('address'), width, height })
    await goOnFlown(opened, ['load figures list'], {})
    const papers = opened.page.locator('.pile button')
    for (let index = 0; index < (await papers.count()); index++) await papers.nth(index).click()
    await opened.page
      .locator('.open-paper')
      .nth((await papers.count()) - 1)
      .waitFor()
    expect((await edges(opened)).wider).toBe(0)
  })

  test('a paper is one touch away, beside the answer, and there after a reload', async () => {
    opened = await openPage({ address: inject('address'), width, height })
    await goOnFlown(opened, ['load figures list'], {})
    const { page } = opened
    await page.getByRole('button', { name: 'Trim card Issue 3' }).click()
    expect(await page.getByRole('article', { name: 'trim card Issue 3' }).isVisible()).toBe(true)
    const { field, wider } = await edges(opened)
    expect(field).toBeGreaterThanOrEqual(0)
    expect(wider).toBe(0)
    await page.getByRole('button', { name: 'Scratch pad' }).click()
    await page.getByLabel('Notes', { exact: true }).fill('squawk 4271')
    const pilot = pilotAt(opened)
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
})
