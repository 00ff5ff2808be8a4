import { cleanup, render, screen, within } from '@testing-library/preact'
import userEvent from '@testing-library/user-event'
import axe from 'axe-core'
import { afterEach, expect, it, vi } from 'vitest'
import type { Actions } from '../../src/app/actions/actions.ts'
import type { PackEntry } from '../../src/app/packs/shelfState.ts'
import { createAppStore } from '../../src/app/store.ts'
import { PaperDraft } from '../../src/ui/parts/packs/PaperDraft.tsx'
import { AppContext } from '../../src/ui/useApp.ts'

const PAPER = 'BEFORE START\n\nBEACON .... ON\nFUEL .... ____ KG\nANTI-ICE .... AS REQUIRED\n'

afterEach(cleanup)

async function drafted(text = PAPER, own: readonly PackEntry[] = []) {
  const onTake = vi.fn()
  const user = userEvent.setup()
  const putTable = vi.fn(async (_key: string, _pasted: string) => false)
  const app = { store: createAppStore({}), actions: { putTable } as unknown as Actions }
  app.store.setState(({ shelf }) => ({ shelf: { ...shelf, entries: own } }))
  render(
    <AppContext.Provider value={app}>
      <PaperDraft onTake={onTake} />
    </AppContext.Provider>,
  )
  const paper = screen.getByRole<HTMLTextAreaElement>('textbox', { name: 'Checklist as text' })
  await user.click(paper)
  await user.paste(text)
  await user.click(screen.getByRole('button', { name: 'Make a draft' }))
  return { user, paper, onTake, putTable, ...app }
}

it('shows the items as they would be flown, and marks those that something is open about', async () => {
  await drafted()
  const list = within(screen.getByRole('region', { name: 'List before start' }))
  expect(list.getAllByRole('listitem').map((row) => row.textContent)).toEqual([
    'beaconon',
    'fuel to settle: the fuel kilograms',
    'anti-ice to settle: as required',
  ])
  expect(screen.getByRole('status').textContent).toMatch(/^1 list, 3 items, \d questions$/)
})

it('shows cautions and notes where they will stand, and counts the questions of a table with the others', async () => {
  await drafted(
    'TAXI\n\nNOTE: read aloud\nCAUTION: hot brakes\nFuel .... ON\nBeacon .... ON\n\nKg\t0\t10\n100\t1\t2\n200\t3\t4\n',
  )
  const list = screen.getByRole('region', { name: 'List taxi' })
  expect(list.textContent).toBe('taxiNote: read aloudCaution: hot brakesfuelonbeaconon')
  const asked = screen.getAllByRole('button', { name: /^Line \d+$/ }).length
  expect(screen.getAllByRole('status')[0]?.textContent).toBe(`1 list, 2 items, 1 caution, 1 table, ${asked} questions`)
})

it('shows a value that is the same in every departure as it is', async () => {
  await drafted('TAXI\n\nFlaps .... 10\nFuel .... ON\n')
  const list = within(screen.getByRole('region', { name: 'List taxi' }))
  expect(list.getAllByRole('listitem')[0]?.textContent).toBe('flaps to settle: 10')
})

it('leads from each question to its line', async () => {
  const { user, paper } = await drafted()
  await user.click(screen.getByRole('button', { name: 'Line 5' }))
  expect(document.activeElement).toBe(paper)
  expect(paper.value.slice(paper.selectionStart, paper.selectionEnd)).toBe('ANTI-ICE .... AS REQUIRED')
})

it('hands over the files as texts', async () => {
  const { user, onTake } = await drafted()
  await user.click(screen.getByRole('button', { name: 'Take the draft' }))
  const [files] = onTake.mock.calls[0] ?? []
  expect(Object.keys(files)).toEqual(['pack.yaml', 'figures.yaml', 'procedures.yaml'])
  expect(files['procedures.yaml']).toContain('challenge: beacon')
})

it('says where the pack is, or what is in its way, where it was taken', async () => {
  const { user, store } = await drafted(`CURLEW 208T CHECKLIST\n\n${PAPER}`)
  await user.click(screen.getByRole('button', { name: 'Take the draft' }))
  expect(screen.queryByText(/among your own packs/)).toBeNull()
  const entry = { id: 'curlew208t', isOwn: true } as PackEntry
  const shelf = { ...store.getState().shelf, entries: [entry] }
  store.setState({ shelf })
  expect(
    await screen.findByText(/^Curlew 208T checklist is among your own packs, with \d+ open questions\.$/),
  ).toBeTruthy()
  store.setState({ shelf: { ...shelf, asked: { name: 'Curlew', there: 'Curlew', differences: [] } } })
  expect(await screen.findByText(/is there already\. Choose at the top of this page/)).toBeTruthy()
})

const TABLE = 'Flap\tCG 20 %MAC\tCG 25 %MAC\n0\t6.2\t5.4\n10\t5.6\t4.8\n'

it('shows a table as read, with a text to copy and how a figure looks it up, and no draft to take', async () => {
  const { user } = await drafted(TABLE)
  const copied = vi.spyOn(navigator.clipboard, 'writeText')
  const shown = screen.getByRole('table')
  expect(
    within(shown)
      .getAllByRole('row')
      .map((row) => row.textContent),
  ).toEqual(['2025', '06.25.4', '105.64.8'])
  expect(screen.getByText('Flap down, CG (% MAC) across')).toBeTruthy()
  const field = screen.getByRole<HTMLTextAreaElement>('textbox', { name: 'Text for tables.yaml of a pack' })
  expect(field.value).toContain('at: [20, 25]')
  expect(screen.getByText(/derived: {by: lookUp, table: table, at: {flap: flap, cg: cg}}/)).toBeTruthy()
  expect(screen.getByText(/the table does not say the unit of its cells/)).toBeTruthy()
  await user.click(screen.getByRole('button', { name: 'Copy' }))
  expect(copied).toHaveBeenCalledWith(field.value)
  expect(screen.queryByRole('button', { name: 'Take the draft' })).toBeNull()
})

it('puts a table into the pack of one that is chosen, and says where that cannot be', async () => {
  const own = ['Curlew', 'Stint'].map((name) => ({ key: name.toLowerCase(), name, isOwn: true }) as PackEntry)
  const { user, putTable } = await drafted(TABLE, own)
  await user.selectOptions(screen.getByRole('combobox', { name: 'Own pack' }), 'Stint')
  await user.click(screen.getByRole('button', { name: 'Put table into it' }))
  expect(putTable).toHaveBeenCalledWith('stint', TABLE.trimEnd())
  expect(await screen.findByText(/^tables.yaml of Stint cannot take it/)).toBeTruthy()
})

it('keeps a table behind a checklist out of its items', async () => {
  const { user, onTake } = await drafted(`${PAPER}\n${TABLE}`)
  expect(screen.getByRole('region', { name: 'List before start' }).querySelectorAll('li')).toHaveLength(3)
  expect(screen.getByText(/lines 7 to 9 are taken for a table/)).toBeTruthy()
  expect(screen.getByRole('region', { name: 'Table table' })).toBeTruthy()
  expect(screen.getAllByRole('button', { name: 'Line 7' }).length).toBeGreaterThan(1)
  const field = screen.getByRole<HTMLTextAreaElement>('textbox', { name: 'Text for tables.yaml of a pack' })
  expect(field.value).toContain('# ? line 7: the table does not say the unit')
  await user.click(screen.getByRole('button', { name: 'Take the draft' }))
  expect(onTake.mock.calls[0]?.[0]['tables.yaml']).toBe(field.value)
})

it('says so where the text has changed since', async () => {
  const { user, paper } = await drafted()
  expect(screen.queryByText(/has changed since/)).toBeNull()
  await user.type(paper, 'x')
  expect(screen.getByText(/has changed since/)).toBeTruthy()
})

it.each([PAPER, `${PAPER}\n${TABLE}`])('is accessible', async (text) => {
  await drafted(text)
  const { violations } = await axe.run(document.body, {
    rules: { 'color-contrast': { enabled: false }, region: { enabled: false } },
  })
  expect(violations.map(({ id }) => id)).toEqual([])
})

it('what was typed stands there again after the screen was left or loaded anew, until the draft is taken', async () => {
  const field = () => screen.getByLabelText('Checklist as text') as HTMLTextAreaElement
  const user = userEvent.setup()
  const first = render(<PaperDraft onTake={() => undefined} />)
  await user.click(field())
  await user.paste('BEFORE START\nBeacon ...... ON')
  first.unmount()
  const second = render(<PaperDraft onTake={() => undefined} />)
  expect(field().value).toBe('BEFORE START\nBeacon ...... ON')
  second.unmount()
})
