/** All runs taken out, the profile wiped, and brought in on a fresh one: the same debriefs to the letter. */

import { mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import axe from 'axe-core'
import type { Page } from 'playwright-core'
import { afterEach, expect, inject, test } from 'vitest'
import { run as debrief } from '../../src/cli/debrief.ts'
import { filesInZip } from '../../src/packs/files/zip.ts'
import { asRun, flownRun } from '../app/runs/flownRuns.ts'
import { runCommand } from '../cli/io.ts'
import { openPage, type TestPage } from './page.ts'

let opened: TestPage
afterEach(() => opened.close())

const LOGS = 'Choose archives, saved runs or logs, or drop them here'

async function openRuns(): Promise<Page> {
  opened = await openPage({ address: inject('address') })
  const { page } = opened
  await page.getByRole('button', { name: 'Take your seat' }).waitFor()
  await page.evaluate(() => localStorage.setItem('otherseat.settings', JSON.stringify({ welcomed: true })))
  await page.goto(`${inject('address')}#runs`)
  await page.reload()
  await page.getByRole('heading', { level: 1, name: 'Runs' }).waitFor()
  return page
}

const dated = (page: Page) => page.getByRole('button', { name: /^Debrief of / })

/** All that each debrief on the screen says, newest first; the account is unfolded. */
async function debriefsOn(page: Page): Promise<string[]> {
  const count = await dated(page).count()
  const texts: string[] = []
  for (let at = 0; at < count; at++) {
    await dated(page).nth(at).click()
    await page.getByRole('button', { name: 'Save the run' }).waitFor()
    texts.push(await page.locator('main').evaluate((main) => main.textContent ?? ''))
    await page.getByRole('button', { name: 'Runs', exact: true }).click()
    await dated(page).first().waitFor()
  }
  return texts
}

async function archiveFrom(page: Page): Promise<Uint8Array> {
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save all runs as one archive' }).click()
  return readFile(await (await download).path())
}

/** What the command line prints of each log in an archive. */
async function debriefsIn(archive: Uint8Array): Promise<string[]> {
  const files = filesInZip(archive)
  if ('wrong' in files) throw new Error(files.wrong)
  const folder = await mkdtemp(join(tmpdir(), 'runs-'))
  const texts: string[] = []
  for (const file of files.filter(({ path }) => path.endsWith('.jsonl'))) {
    const bytes = await file.bytes()
    if ('wrong' in bytes) throw new Error(bytes.wrong)
    const log = join(folder, `${texts.length}.jsonl`)
    await writeFile(log, bytes)
    texts.push((await runCommand(debrief, [log])).output)
  }
  return texts
}

test('runs are saved, wiped and brought in on a fresh profile with the same debriefs, and the screen is accessible', async () => {
  const flown = await flownRun()
  const runs = [asRun(flown, 'a', 1), asRun(flown.slice(0, 5), 'b', 2), asRun(flown, 'c', 3)]
  const lines = runs.map((events) => events.map((event) => `${JSON.stringify(event)}\n`).join(''))
  const first = await openRuns()
  await first
    .getByLabel(LOGS)
    .setInputFiles(
      lines.map((text, at) => ({ name: `${at}.jsonl`, mimeType: 'text/plain', buffer: Buffer.from(text) })),
    )
  await first.getByText('3 runs came in.').waitFor()
  const [shown, archive] = [await debriefsOn(first), await archiveFrom(first)]
  expect(shown).toHaveLength(3)
  await opened.close()

  const second = await openRuns()
  await second.getByText('None yet.').waitFor()
  await second
    .getByLabel(LOGS)
    .setInputFiles({ name: 'runs.zip', mimeType: 'application/zip', buffer: Buffer.from(archive) })
  await second.getByText('3 runs came in.').waitFor()
  expect(await debriefsOn(second)).toEqual(shown)
  const again = await archiveFrom(second)
  expect(await debriefsIn(again)).toEqual(await debriefsIn(archive))
  expect((await debriefsIn(archive)).every((text) => text.includes('load figures'))).toBe(true)

  await second.evaluate(axe.source)
  for (const [width, height] of [
    [1280, 800],
    [390, 844],
  ] as const) {
    await second.setViewportSize({ width, height })
    const faults = await second.evaluate(async () => {
      const { violations } = await (globalThis as unknown as { axe: typeof axe }).axe.run()
      return [
        violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html}`),
        document.documentElement.scrollWidth - innerWidth,
      ]
    })
    expect(faults).toEqual([[], 0])
  }
  expect(opened.foreign()).toEqual([])
  expect(opened.errors()).toEqual([])
})
