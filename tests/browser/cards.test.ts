/** Cards of a pack as a browser prints them: the size that was chosen, one card or more to each, and what it is not for on every page. */

import { afterEach, expect, inject, test } from 'vitest'
import { openPage, type TestPage } from './page.ts'
import { type PdfPage, pdfPages } from './pdfText.ts'

let opened: TestPage
afterEach(() => opened.close())

/** Of a page's box, in points of a seventy-second of an inch. */
const MM = 72 / 25.4
const SIZES = [
  ['A4', 210 * MM, 297 * MM],
  ['A5', 148 * MM, 210 * MM],
  ['Letter', 612, 792],
  ['Knee-board', 140 * MM, 216 * MM],
] as const

test('cards are printed on each size, and each page says what it is of and what it is not for', async () => {
  opened = await openPage({ address: inject('address') })
  const { page, errors, foreign } = opened
  await page.getByRole('button', { name: 'Take your seat' }).click()
  await page.getByRole('button', { name: 'Packs', exact: true }).click()
  await page.getByRole('button', { name: /^Two-crew jet/ }).click()
  await page.waitForURL(/#packs\/.+\.yaml$/)
  await page.goBack()
  await page.getByRole('article', { name: 'Two-crew jet' }).getByRole('button', { name: 'Cards' }).click()
  await page.getByRole('heading', { level: 1, name: 'Cards of Two-crew jet' }).waitFor()
  const sheets = page.locator('.sheet')
  // Three lists and four tables.
  expect(await sheets.count()).toBe(7)
  const printed = async () => pdfPages(await page.pdf({ preferCSSPageSize: true }))
  const isMarked = ({ text }: PdfPage) =>
    text.includes('Two-crewjet,version0.1.0,printed') && text.endsWith('Fortrainingandsimulationonly')
  for (const [name, width, height] of SIZES) {
    await page.getByRole('radio', { name }).check()
    const pages = await printed()
    expect([name, pages.length, pages.every(isMarked)]).toEqual([name, 7, true])
    expect(pages[0]?.text).toMatch(/^Beforestart.*Parkingbrakebrakeset/)
    expect(pages.at(-1)?.text).toMatch(/^Vtwo,kt.*32000/)
    for (const box of pages) {
      expect(Math.abs(box.width - width)).toBeLessThan(1)
      expect(Math.abs(box.height - height)).toBeLessThan(1)
    }
  }
  // In large type on the smallest page, a list that is longer than a page goes on with the same head and foot.
  await page.getByRole('radio', { name: 'Large' }).check()
  await page.getByRole('radio', { name: 'Two' }).check()
  await page
    .locator('.card-lines')
    .first()
    .evaluate((list) => {
      const items = [...list.children]
      for (let times = 0; times < 20; times++) list.append(...items.map((item) => item.cloneNode(true)))
    })
  const more = await printed()
  expect(more.length).toBeGreaterThan(7)
  expect(more.every(isMarked)).toBe(true)
  await page.emulateMedia({ media: 'print' })
  expect(await page.getByRole('button', { name: 'Print', exact: true }).isVisible()).toBe(false)
  expect(errors()).toEqual([])
  expect(foreign()).toEqual([])
})
