import { cleanup, render, screen, waitFor, within } from '@testing-library/preact'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { CannotStart } from '../../src/ui/CannotStart.tsx'
import { atTrim, flying, stage } from './stage.tsx'

const heading = (name: string | RegExp) => screen.getByRole('heading', { level: 1, name })

describe('the first visit', () => {
  it('explains itself in three sentences and one button, and says what it is not for', async () => {
    const { user } = stage({ pack: undefined, settings: DEFAULT_SETTINGS })
    const welcome = screen.getByRole('region', { name: 'Otherseat' })
    const words = [...welcome.querySelectorAll('p')].map((p) => p.textContent).join(' ')
    expect(words.match(/[^.]+\./g)).toHaveLength(3)
    expect(screen.getAllByRole('button')).toHaveLength(1)
    expect(screen.getByRole('complementary', { name: 'Safety notice' })).toHaveProperty(
      'textContent',
      expect.stringMatching(/Not for use in flight or on a real aircraft/),
    )
    await user.click(screen.getByRole('button', { name: 'Take your seat' }))
    expect(heading('Choose a departure')).toBeTruthy()
  })

  it('is not repeated, but the notice and the caution of the pack always stand', () => {
    const { pack } = stage()
    const notice = screen.getByRole('complementary', { name: 'Safety notice' })
    expect(within(notice).getByText(/^The approved flight manual, the operator's procedures, local rules/)).toBeTruthy()
    // A lone pilot has no second pair of eyes.
    expect(within(notice).getByText(/hears; it does not see: it cannot know that a switch was moved/)).toBeTruthy()
    expect(within(notice).getByText(pack.caution)).toBeTruthy()
  })
})

describe('a newer edition', () => {
  const edition = { isKept: true, hasNewer: true, isRefused: false }

  it('is offered where no run is looked at, and taken by a button', async () => {
    const taken: string[] = []
    const takeNewer = async () => {
      taken.push('taken')
      return true
    }
    const { user } = stage({ edition }, { edition: { takeNewer } })
    expect(screen.getByText(/A newer edition of Otherseat is ready/)).toBeTruthy()
    await user.click(screen.getByRole('button', { name: 'Reload with it' }))
    expect(taken).toEqual(['taken'])
  })

  it('waits for the end of a run in another tab, and says so', async () => {
    const { user } = stage({ edition }, { edition: { takeNewer: async () => false } })
    await user.click(screen.getByRole('button', { name: 'Reload with it' }))
    expect(await screen.findByText(/A run is on, here or in another tab: end it first/)).toBeTruthy()
  })
})

describe('a pack', () => {
  it('is chosen before its figures are entered', async () => {
    const { user, pack } = stage({ pack: undefined })
    expect(screen.queryByRole('button', { name: 'Enter the figures' })).toBeNull()
    await user.click(screen.getByRole('button', { name: new RegExp(pack.name) }))
    await user.click(await screen.findByRole('button', { name: 'Enter the figures' }))
    expect(heading('Figures of this departure')).toBeTruthy()
  })

  it('that cannot be read is told with file, line and column', () => {
    const place = { file: 'figures.yaml', line: 12, column: 5 }
    stage({ problems: [{ code: 'figure.unknown', message: 'no figure is called trimm', severity: 'error', place }] })
    const problems = screen.getByRole('region', { name: 'This pack cannot be used yet' })
    expect(within(problems).getByText(/no figure is called trimm/)).toBeTruthy()
    expect(within(problems).getByText('figures.yaml, line 12, column 5')).toBeTruthy()
  })
})

describe('a run that was left in the middle', () => {
  const unfinished = { runId: 'earlier', pack: 'Marram departure', startedAt: Date.UTC(2000, 0, 1), ended: false }

  it('is offered, to go on with or to begin afresh', () => {
    stage({ unfinished })
    const card = screen.getByRole('region', { name: 'You have an unfinished run' })
    expect(within(card).getByText(/Marram departure, begun 1 January 2000/)).toBeTruthy()
    expect(within(card).getByRole('button', { name: 'Resume the run' })).toBeTruthy()
    expect(within(card).getByRole('button', { name: 'End the run' })).toBeTruthy()
  })

  it('goes on at the same item after a reload, at any key', async () => {
    const before = await atTrim()
    cleanup()
    const after = stage({ needsGesture: true, unfinished: { ...unfinished, runId: 'run' } })
    for (const event of before.log.events) await after.log.append(event)
    expect(heading('The run is where you left it')).toBeTruthy()
    await after.user.keyboard('{Tab}{Shift}{Escape}')
    expect(after.store.getState().needsGesture).toBe(true)
    await after.user.keyboard('k')
    expect(await screen.findByRole('heading', { level: 1, name: 'takeoff trim' })).toBeTruthy()
  })

  it('under way in this tab is offered too', async () => {
    const { user } = await flying()
    await user.click(screen.getByRole('button', { name: 'Start' }))
    await user.click(screen.getByRole('button', { name: 'Resume the run' }))
    expect(heading('Figures flow')).toBeTruthy()
  })

  it('is asked about before it is ended, and may be kept', async () => {
    const { user, log } = await flying()
    await user.click(screen.getByRole('button', { name: 'Start' }))
    await user.click(screen.getByRole('button', { name: 'End the run' }))
    expect(screen.getByText(/cannot be resumed afterwards/)).toBeTruthy()
    await user.click(screen.getByRole('button', { name: 'Keep it' }))
    expect(log.events.at(-1)?.type).not.toBe('ended')
    await user.click(screen.getByRole('button', { name: 'End the run' }))
    await user.click(screen.getByRole('button', { name: 'End it now' }))
    await waitFor(() => expect(screen.queryByRole('region', { name: 'A run is under way' })).toBeNull())
    expect(log.events.at(-1)?.type).toBe('ended')
  })
})

describe('what stands in the way of a run is said with what to do', () => {
  it('another tab writes it: take it over here', async () => {
    const { user, store } = await flying()
    store.setState({ writer: 'elsewhere' })
    expect(await screen.findByRole('heading', { level: 1, name: 'This run is open in another tab' })).toBeTruthy()
    await user.click(screen.getByRole('button', { name: 'Take over here' }))
    expect(await screen.findByRole('heading', { level: 1, name: 'Figures flow' })).toBeTruthy()
  })

  it('the log cannot be kept: it can be saved as a file', async () => {
    const { log, user } = await flying()
    log.refuse('The disk is full.')
    await user.click(screen.getByRole('button', { name: '“Stand by”' }))
    const banner = await screen.findByText('The log cannot be kept.')
    expect(banner.closest('[role=alert]')?.textContent).toContain('The disk is full.')
    expect(screen.getByRole('button', { name: 'Save the log as a file' })).toBeTruthy()
  })

  it('the app cannot start: why, and what to try', async () => {
    render(<CannotStart message="The model is missing." />)
    expect(screen.getByRole('alert').textContent).toBe('The model is missing.')
    await userEvent.tab()
    expect(document.activeElement).toBe(screen.getByRole('button', { name: 'Reload' }))
  })
})
