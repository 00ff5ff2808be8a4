/** What only a browser shows of the debrief: one screen, two printed pages, contrast, and a moment of it done again. */

import axe from 'axe-core'
import { afterEach, expect, inject, test } from 'vitest'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { demoPack } from '../app/rig.ts'
import { rehearsed } from '../rehearsed.ts'
import { goOn } from './flown.ts'
import { openPage, type TestPage } from './page.ts'
import { pdfPages } from './pdfText.ts'

let opened: TestPage
afterEach(() => opened.close())

/** The whole demo departure with its stations and some mistakes, up to now and not yet ended. */
async function departure(): Promise<RunEvent[]> {
  const pack = await demoPack()
  const [file, sheet] = ['tests/cli/answers/talk.txt', 'tests/cli/answers/talk.yaml']
  const events = await rehearsed({ pack, file, sheet, voices: 4 })
  const laterMs = Date.now() - Date.parse(events.at(-1)?.wall ?? '')
  const later = (event: RunEvent) => ({ ...event, wall: new Date(Date.parse(event.wall) + laterMs).toISOString() })
  return events.filter(({ type }) => type !== 'ended').map(later)
}

test('the debrief of a departure is one screen and two pages, and leads to a moment of it', async () => {
  opened = await openPage({ address: inject('address') })
  const { page, errors } = opened
  await goOn(opened, await departure(), { ear: 'typing' })
  await page.getByRole('navigation').getByRole('button', { name: 'Debrief' }).click()
  await page.getByRole('heading', { name: 'Timeline', exact: true }).waitFor()
  const firstFold = page.locator('.fold').first()
  expect((await firstFold.boundingBox())?.y).toBeLessThan(800)

  await page.evaluate(axe.source)
  for (const colorScheme of ['dark', 'light'] as const) {
    await page.emulateMedia({ colorScheme })
    // Drawn anew, and its transitions over.
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))))
    await page.evaluate(() => Promise.all(document.getAnimations().map(({ finished }) => finished)))
    for (const [width, height] of [
      [1280, 800],
      [390, 844],
    ] as const) {
      await page.setViewportSize({ width, height })
      const found = await page.evaluate(async () => {
        const { violations } = await (globalThis as unknown as { axe: typeof axe }).axe.run()
        const wider = document.documentElement.scrollWidth - innerWidth
        return [...violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`), wider]
      })
      expect([colorScheme, width, ...found]).toEqual([colorScheme, width, 0])
    }
  }

  const pages = pdfPages(await page.pdf({ preferCSSPageSize: true }))
  expect(pages).toHaveLength(2)
  for (const { text } of pages) expect(text).toContain('Fortrainingandsimulationonly.Notforuseinflight')
  expect(pages[0]?.text).toContain('Totakeaway')
  expect(pages[1]?.text).toContain('Monitortower:“monitortower')
  // The person's own folds are as they were.
  await expect.poll(() => firstFold.evaluate((fold) => (fold as HTMLDetailsElement).open)).toBe(false)

  // By the arrow keys to where the altimeters were missed, and from there.
  const altimeters = page.getByRole('option', { name: /Altimeters: “one zero zero niner”, wrong/ })
  await page.getByRole('listbox').focus()
  await page.keyboard.press('Home')
  for (let more = 200; more > 0 && (await altimeters.getAttribute('aria-selected')) !== 'true'; more--) {
    await page.keyboard.press('ArrowRight')
  }
  await page
    .locator('.told')
    .getByRole('button', { name: /^Do that moment again.*altimeters$/ })
    .click()
  await page.getByRole('heading', { level: 1, name: 'altimeters' }).waitFor()
  const box = page.getByRole('textbox', { name: 'Answer or phrase, typed' })
  await box.fill('one zero one zero')
  await box.press('Enter')
  await page.getByRole('heading', { level: 1, name: 'transponder' }).waitFor()
  await box.fill('code two six one three')
  await box.press('Enter')
  await page.getByRole('heading', { level: 1, name: 'Drill over' }).waitFor()
  await page.getByRole('button', { name: 'End the drill, read how it went' }).click()
  await page.getByRole('heading', { level: 1, name: 'Again: before start' }).waitFor()
  await page.getByText('This time nothing missed, the last time 1 missed.').waitFor()
  await page.getByRole('button', { name: 'The debrief of that run' }).click()
  await page.getByRole('heading', { level: 1, name: 'All lists complete' }).waitFor()
  expect(errors()).toEqual([])
})
