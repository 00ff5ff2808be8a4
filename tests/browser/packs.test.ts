/** From nothing to flown with a pack of one's own, in a real browser; the screen is accessible in both sizes. */

import { readFile } from 'node:fs/promises'
import axe from 'axe-core'
import type { Page } from 'playwright-core'
import { afterEach, expect, inject, test } from 'vitest'
import { readBundle } from '../../src/packs/files/bundle.ts'
import { zipOf } from '../../src/packs/files/zip.ts'
import { offeredOf, SMALL_PACK } from '../fakes/smallPack.ts'
import { openPage, type TestPage } from './page.ts'
import { pilotAt } from './pilot.ts'

let opened: TestPage
afterEach(() => opened.close())

const SIZES = [
  [1280, 800],
  [390, 844],
] as const

/** What axe finds at both sizes, contrast included, and how far the page is wider than its window. */
async function faults(page: Page): Promise<unknown[]> {
  const found: unknown[] = []
  await page.evaluate(axe.source)
  for (const [width, height] of SIZES) {
    await page.setViewportSize({ width, height })
    found.push(
      ...(await page.evaluate(async () => {
        const { violations } = await (globalThis as unknown as { axe: typeof axe }).axe.run()
        const wider = document.documentElement.scrollWidth - innerWidth
        return [
          ...violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`),
          ...(wider > 0 ? [`${wider} px wider than the window`] : []),
        ]
      })),
    )
  }
  return found
}

test('a pack is imported, flown, changed, exported, deleted, brought back and flown again, and asks nobody', async () => {
  opened = await openPage({ address: inject('address') })
  const { page, errors, foreign } = opened
  const pilot = pilotAt(opened)
  const button = (name: string | RegExp) => page.getByRole('button', { name, exact: true })
  const card = (name: string) => page.getByRole('article', { name })
  const importZip = (bytes: Uint8Array) =>
    page
      .getByLabel('Choose files, or drop them or their folder here')
      .setInputFiles({ name: 'wren.zip', mimeType: 'application/zip', buffer: Buffer.from(bytes) })
  const fly = async (name: string) => {
    await card(name).getByRole('button', { name: 'Fly' }).click()
    await button('Take over').click()
    await pilot.enterDraft()
    for (const said of ['before takeoff list', 'two four kilograms', 'closed and locked', 'zero nine']) {
      await pilot.type(said)
    }
    const answers = (await pilot.events()).filter(({ type }) => type === 'answered')
    expect(answers.slice(-3).map(({ judgement }) => judgement)).toMatchObject([
      { verdict: 'correct' },
      { verdict: 'correct' },
      { verdict: 'correct' },
    ])
    expect(new Set(answers.slice(-3).map(({ runId }) => runId)).size).toBe(1)
    return answers.length
  }

  await button('Take your seat').click()
  await button('Settings').click()
  await page.getByRole('radio', { name: 'Typing and buttons only' }).check()
  await button('Packs').click()
  await importZip(zipOf(SMALL_PACK, 'wren', Date.now()))
  await card('Wren').waitFor()
  expect(await faults(page)).toEqual([])
  expect(await fly('Wren')).toBe(3)

  await button('Packs').click()
  await card('Wren').getByRole('button', { name: 'Edit' }).click()
  const text = page.locator('.rich').getByRole('textbox', { name: 'procedures.yaml' })
  await text.waitFor()
  const right = SMALL_PACK['procedures.yaml'] ?? ''
  const line = async (number: number) =>
    (await text
      .locator('.cm-line')
      .nth(number - 1)
      .textContent()) ?? ''
  // As pasted: the browser's own replacing of a whole text would put styles into it for a moment.
  const write = async (all: string) => {
    await text.focus()
    await page.keyboard.press('Control+a')
    await text.evaluate((field, all) => {
      const clipboardData = new DataTransfer()
      clipboardData.setData('text/plain', all)
      field.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }))
    }, all)
  }
  await write(right.replace('<runway>', '<runwy>'))
  const problem = page.getByRole('button', { name: /^Line 12, column 67: .*did you mean "runway"/ })
  await problem.waitFor()
  expect(await faults(page)).toEqual([])
  await page.setViewportSize({ width: 1280, height: 800 })
  await problem.click()
  await page.keyboard.type('!')
  expect((await line(12)).slice(66, 68)).toBe('!<')
  await page.keyboard.press('Control+z')
  expect((await line(12)).slice(66, 74)).toBe('<runwy>"')
  await page.keyboard.press('ArrowRight')
  for (let at = 0; at < 5; at++) await page.keyboard.press('Delete')
  await page.keyboard.press('Control+Space')
  await page.getByRole('option', { name: 'runway', exact: true }).click()
  expect((await line(12)).slice(66, 75)).toBe('<runway>"')
  await page.getByText('Nothing to mend in this file.').waitFor()
  await page.keyboard.press('Tab')
  expect(await page.evaluate(() => document.activeElement?.className)).toBe('code-field rich')
  await page.keyboard.press('Escape')
  await page.keyboard.press('Tab')
  expect(await page.evaluate(() => document.activeElement?.className)).not.toBe('code-field rich')
  await write(right.replace('# One list.', '# One list, changed.'))
  await page.getByText('Nothing to mend in this file.').waitFor()
  await page.getByText('Saved', { exact: true }).waitFor()
  await button('All packs').click()

  const download = page.waitForEvent('download')
  await card('Wren').getByRole('button', { name: 'Export' }).click()
  const exported = new Uint8Array(await readFile(await (await download).path()))
  const changed = { ...SMALL_PACK, 'procedures.yaml': right.replace('# One list.', '# One list, changed.') }
  expect(await readBundle(offeredOf({ 'wren.zip': exported }))).toMatchObject({ files: changed })

  await card('Wren').getByRole('button', { name: 'Delete' }).click()
  await page.getByText('Wren was deleted.').waitFor()
  await card('Wren').waitFor({ state: 'detached' })
  await page.keyboard.press('Enter')
  await card('Wren').waitFor()
  await card('Wren').getByRole('button', { name: 'Delete' }).click()
  await page.getByText('Wren was deleted.').waitFor()
  // A run under way goes on without its pack.
  await page.reload()
  await button('Press any key to resume').press('Enter')
  await page.getByRole('region', { name: 'What was heard' }).waitFor()
  await button('Start').click()
  await button('End the run').click()
  await button('End it now').click()
  await button('Packs').click()
  await importZip(exported)
  expect(await fly('Wren')).toBe(6)
  expect(foreign()).toEqual([])
  expect(errors()).toEqual([])
})
