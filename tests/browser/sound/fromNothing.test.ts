/** A checklist on paper and a trim table -> an aircraft of one's own, flown, spoken to, printed, exported and brought back. */

import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { afterEach, expect, inject, test } from 'vitest'
import { openPage, type TestPage } from '../page.ts'
import { pdfPages } from '../pdfText.ts'
import { pilotAt } from '../pilot.ts'
import { until } from '../until.ts'

let opened: TestPage
afterEach(() => opened.close())

const PAPER = `TERN 4   NORMAL CHECKLIST

BEFORE START
Preflight inspection ............ COMPLETE
Baggage door .................... CLOSED AND LOCKED
Seats and belts ................. ADJUSTED
Parking brake ................... SET
Circuit breakers ................ IN
Fuel selector ................... FULLEST TANK
Fuel quantity ................... ___ LITRES
Avionics master ................. OFF
Throttle ........................ IDLE
Mixture ......................... RICH

AFTER START
Oil pressure .................... CHECKED
Engine RPM ...................... 1000
Alternator ...................... ON
Avionics master ................. ON
Flaps ........................... UP
Radio ........................... TUNED

BEFORE TAKEOFF
Doors ........................... LOCKED
Flight controls ................. FREE AND CORRECT
Altimeter ....................... ___
Fuel selector ................... FULLEST TANK
Elevator trim ................... ___ UNITS
Mixture ......................... RICH
Flaps ........................... ___
Magnetos ........................ CHECKED
Carburettor heat ................ COLD
Rotate speed .................... ___ KNOTS

LINE UP
Landing light ................... ON
Transponder ..................... ___
Runway .......................... ___
Time ............................ NOTED
`

const SAID = {
  'before start list': [
    'complete',
    'closed and locked',
    'adjusted',
    'set',
    'in',
    'fullest tank',
    'nine zero liters',
    'off',
    'idle',
    'rich',
  ],
  'after start list': ['checked', 'one thousand', 'on', 'on', 'up', 'tuned'],
  'before takeoff list': ['locked', 'free and correct', 'one zero one three', 'fullest tank', 'two point eight units'],
} as const

/** 90 of the table's 50 to 150 litres: 2.8 units. */
const VALUES = [
  ['fuel quantity', '90'],
  ['altimeter', '1013'],
  ['flaps', '10'],
  ['rotate speed', '60'],
  ['transponder', '4271'],
  ['runway', '27'],
] as const

/** By a synthetic voice; the rest is typed. */
const SPOKEN = 'closed and locked'
const WAV = fileURLToPath(new URL('../../../audio/check/closed-and-locked.wav', import.meta.url))

const SAYINGS = 3
const UNHEARD_MS = 20_000

test('from a pasted checklist to lists that are flown, a card in print, and back from its export', async () => {
  opened = await openPage({ address: inject('address') })
  const { page, errors, foreign } = opened
  const pilot = pilotAt(opened)
  const button = (name: string | RegExp) => page.getByRole('button', { name, exact: true })
  const file = (name: string) =>
    page.getByRole('navigation', { name: 'Files of the pack' }).getByRole('button', { name: new RegExp(`^${name}`) })
  const form = page.getByRole('region', { name: 'Form' })
  const card = () => page.getByRole('article', { name: 'Tern 4' })
  const openFile = async (name: string) => {
    await file(name).click()
    await page.locator('.rich').getByRole('textbox', { name }).waitFor()
  }
  const formOf = async (title: string) => {
    const choice = form.getByLabel('Form of')
    const label = await choice.locator('option', { hasText: title }).first().textContent()
    await choice.selectOption({ label: label ?? '' })
    await form.getByLabel('label', { exact: true }).waitFor()
  }
  /** Each question in turn: looked at, and settled as the draft took it. */
  const settle = async (count: number) => {
    for (let left = count; left > 0; left--) {
      await button(`${left} to settle here: show the next`).click()
      await form.getByRole('button', { name: 'Settled' }).first().click()
    }
    await button(/to settle here/).waitFor({ state: 'detached' })
  }

  /** Two of its lists and a part of the third, from figures that are typed; the trim is looked up. */
  const flown = async () => {
    const flownBefore = new Set((await pilot.events()).map(({ runId }) => runId))
    const answersNow = async () =>
      (await pilot.events()).filter(({ type, runId }) => type === 'answered' && !flownBefore.has(runId))
    await card().getByRole('button', { name: 'Fly' }).click()
    for (const [label, value] of VALUES) await page.getByLabel(label).fill(value)
    await pilot.enterDraft()
    for (const [list, answers] of Object.entries(SAID)) {
      await pilot.type(list)
      for (const answer of answers) {
        if (answer !== SPOKEN) await pilot.type(answer)
        else {
          await spoken(async () => (await answersNow()).some(({ evidence }) => isVoice(evidence)))
        }
      }
    }
    const answers = await answersNow()
    expect(answers.map(({ judgement }) => (judgement as { verdict: string }).verdict)).toEqual(
      Object.values(SAID).flatMap((all) => all.map(() => 'correct')),
    )
    await button('Start').click()
    await button('End the run').click()
    await button('End it now').click()
    await button('Packs').click()
  }
  /** Said again where it was not understood, as a pilot would. */
  const spoken = async (isHeard: () => Promise<boolean>) => {
    for (let saying = 1; saying <= SAYINGS && !(await isHeard()); saying++) {
      await pilot.listened()
      await opened.speakWav(new Uint8Array(await readFile(WAV)))
      await until(isHeard, UNHEARD_MS).catch(() => undefined)
    }
    await until(isHeard, UNHEARD_MS)
  }
  const isVoice = (evidence: unknown) => (evidence as { by?: string } | undefined)?.by === 'voice'

  await button('Take your seat').click()
  await button('Settings').click()
  await page.getByLabel(/^Voice speed/).fill('1.5')
  await button('Packs').click()
  await page.getByLabel('Checklist as text').fill(PAPER)
  await button('Make a draft').click()
  await page.getByText('4 lists, 30 items, 16 questions').waitFor()
  await button('Take the draft').click()
  await card().getByRole('button', { name: 'Edit' }).click()
  await settle(4)

  await openFile('pack.yaml')
  await form.getByLabel('operator').fill('At home')
  await settle(4)

  await openFile('tables.yaml')
  await button('Add a table').click()
  await form.getByLabel('label', { exact: true }).fill('elevator trim')
  await form.getByRole('textbox', { name: 'name', exact: true }).first().fill('trim')
  await page.keyboard.press('Tab')
  await form.getByLabel('unit', { exact: true }).first().selectOption('trim')
  await form.getByRole('group', { name: 'axis down' }).getByLabel('name', { exact: true }).fill('fuel')
  await form.getByRole('group', { name: 'axis down' }).getByLabel('unit', { exact: true }).selectOption('l')
  const rows = [
    ['50', '2'],
    ['150', '4'],
  ]
  for (const [row, cells] of rows.entries()) {
    const fields = form.getByRole('row').nth(row).getByRole('textbox')
    for (const [column, cell] of cells.entries()) await fields.nth(column).fill(cell)
  }
  await page.getByText('Nothing to mend in this file.').waitFor()

  await openFile('figures.yaml')
  await formOf('figure: altimeter')
  await form.getByLabel('kind', { exact: true }).selectOption('altimeter')
  await form.getByLabel('unit', { exact: true }).selectOption('hPa')
  await button('Take out length').click()
  await formOf('figure: elevator trim')
  await form.getByRole('checkbox', { name: 'entered' }).uncheck()
  await form.getByText('More that it may have').click()
  await form.getByRole('checkbox', { name: 'derived' }).check()
  await form.getByLabel('by', { exact: true }).selectOption('lookUp')
  await form.getByLabel('table', { exact: true }).fill('trim')
  await form.getByLabel('at', { exact: true }).fill('fuel: fuelQuantity')
  await page.getByText('Nothing to mend in this file.').waitFor()
  await settle(8)
  await page.getByText('Saved', { exact: true }).waitFor()
  await button('All packs').click()
  await flown()

  await card().getByRole('button', { name: 'Cards' }).click()
  const pages = pdfPages(await page.pdf({ preferCSSPageSize: true }))
  expect(pages.length).toBe(5)
  expect(pages[0]?.text).toContain('Fuelselectorfullesttank')
  expect(pages.every(({ text }) => text.endsWith('Fortrainingandsimulationonly'))).toBe(true)
  await page.goBack()

  const download = page.waitForEvent('download')
  await card().getByRole('button', { name: 'Export' }).click()
  const bytes = await readFile(await (await download).path())
  await card().getByRole('button', { name: 'Delete' }).click()
  await card().waitFor({ state: 'detached' })
  await page
    .getByLabel('Choose files, or drop them or their folder here')
    .setInputFiles({ name: 'tern.zip', mimeType: 'application/zip', buffer: bytes })
  await card().waitFor()
  await flown()
  expect(foreign()).toEqual([])
  expect(errors()).toEqual([])
})
