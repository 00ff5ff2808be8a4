import { cleanup, render, screen, within } from '@testing-library/preact'
import userEvent from '@testing-library/user-event'
import axe from 'axe-core'
import { afterEach, expect, it, vi } from 'vitest'
import { PaperDraft } from '../../src/ui/parts/packs/PaperDraft.tsx'

const PAPER = 'BEFORE START\n\nBEACON .... ON\nFUEL .... ____ KG\nANTI-ICE .... AS REQUIRED\n'

afterEach(cleanup)

async function drafted() {
  const onTake = vi.fn()
  const user = userEvent.setup()
  render(<PaperDraft onTake={onTake} />)
  const paper = screen.getByRole<HTMLTextAreaElement>('textbox', { name: 'Checklist as text' })
  await user.click(paper)
  await user.paste(PAPER)
  await user.click(screen.getByRole('button', { name: 'Make a draft' }))
  return { user, paper, onTake }
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

it('says so where the text has changed since', async () => {
  const { user, paper } = await drafted()
  expect(screen.queryByText(/has changed since/)).toBeNull()
  await user.type(paper, 'x')
  expect(screen.getByText(/has changed since/)).toBeTruthy()
})

it('is accessible', async () => {
  await drafted()
  const { violations } = await axe.run(document.body, {
    rules: { 'color-contrast': { enabled: false }, region: { enabled: false } },
  })
  expect(violations.map(({ id }) => id)).toEqual([])
})
