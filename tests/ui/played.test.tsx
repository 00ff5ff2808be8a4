/** A run played to a room: from the start screen, or from a debrief with a place marked in it. */

import { screen, waitFor, within } from '@testing-library/preact'
import { expect, it } from 'vitest'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { atTrim, demo, stage } from './stage.tsx'

it('plays what came with the pack, stops at what matters, and ends where it was begun', async () => {
  const { user, store, clock } = stage()
  await user.click(await screen.findByText('Demonstrations'))
  await user.click(await screen.findByRole('button', { name: 'Late figures, with what goes wrong' }))
  await screen.findByRole('heading', { level: 1, name: /figures flow/i })
  await waitFor(() => {
    clock.advance(2_000)
    expect(screen.getByText('The final load sheet comes in, in the middle of the list.')).toBeTruthy()
  })
  await user.click(screen.getByRole('button', { name: 'Next stop' }))
  expect(await screen.findByText(/^The trim of the sheet before/)).toBeTruthy()
  expect(screen.getByRole('region', { name: 'In force' }).textContent).toMatch(/3\.1 up/)
  expect(screen.getByRole('region', { name: 'And if it had been' })).toBeTruthy()
  // Nobody flies it.
  expect(screen.queryByRole('textbox')).toBeNull()
  await user.click(screen.getByRole('button', { name: 'Stop before' }))
  expect(await screen.findByText(/^The final load sheet comes in/)).toBeTruthy()
  await user.click(screen.getByRole('button', { name: 'End the demonstration' }))
  await screen.findByRole('heading', { name: 'Choose a departure' })
  expect(store.getState().stage).toBeUndefined()
})

it('is made of any run by marking where it stops, and the marks stay', async () => {
  const { user, store, actions, answer, clock } = await atTrim()
  await answer('six point one up')
  await actions.showDebrief()
  const { debriefed } = store.getState()
  await actions.endRun()
  store.setState({ debriefed, debrief: debriefOf(demo, debriefed?.events ?? []), screen: 'debrief' })
  await user.click(await screen.findByRole('button', { name: 'Replay' }))
  const replay = await screen.findByRole('region', { name: 'Replay' })
  await user.click(within(replay).getByRole('button', { name: 'Pause' }))
  const place = within(replay).getByRole('slider', { name: 'Place in the run' })
  const wanted = store.getState().replay?.cues.findIndex(({ text }) => text === 'six point one up') ?? -1
  actions.replayTo(wanted)
  await waitFor(() => expect(place).toHaveProperty('value', `${wanted}`))
  await user.click(within(replay).getByRole('checkbox', { name: 'Stop here when it is shown' }))
  await user.type(await within(replay).findByRole('textbox', { name: 'What to look at' }), 'From memory')
  await user.click(within(replay).getByRole('button', { name: /^Show it to a room/ }))
  await waitFor(() => {
    clock.advance(2_000)
    expect(screen.getByText('From memory')).toBeTruthy()
  })
  expect(screen.getByRole('region', { name: 'What was heard' }).textContent).toMatch(/Negative/)
  await user.click(screen.getByRole('button', { name: 'End the demonstration' }))
  await user.click(await screen.findByRole('button', { name: 'Replay' }))
  expect(await screen.findByRole('button', { name: /1 stop/ })).toBeTruthy()
})
