import { screen, waitFor, within } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { allText, atTrim } from './stage.tsx'

async function atRoom(room: { readonly asksRoom?: boolean } = {}) {
  const flight = await atTrim()
  await flight.user.click(screen.getByRole('button', { name: 'Show it to a room' }))
  await screen.findByRole('button', { name: /^Freeze/ })
  if (room.asksRoom) {
    await flight.user.click(screen.getByRole('checkbox', { name: 'Ask the room before each verdict' }))
    await waitFor(() => expect(flight.store.getState().run?.demonstration?.asksRoom).toBe(true))
  }
  return flight
}

const goOn = (flight: Awaited<ReturnType<typeof atRoom>>, name: RegExp) =>
  flight.user.click(screen.getByRole('button', { name }))

describe('a run shown to a room', () => {
  it('freezes at a wrong answer: each word read, the value in force with its reasons, and answers near to it', async () => {
    const flight = await atRoom()
    expect(allText()).not.toMatch(/4\.3 up/)
    await flight.answer('six point one up')
    expect(await screen.findByText('Frozen')).toBeTruthy()
    const heard = screen.getByRole('region', { name: 'What was heard' })
    expect(heard.textContent).toMatch(/six point one up.*takeoff trim, read as 6\.1 up wrong/)
    expect(within(heard).getByText('Negative')).toBeTruthy()
    const force = screen.getByRole('region', { name: 'In force' })
    expect(force.textContent).toMatch(/4\.3 up.*revision 1.*table takeoff trim.*takeoff CG/)
    const near = screen.getByRole('region', { name: 'And if it had been' })
    expect(
      within(near)
        .getAllByText(/Correct|Negative|Incomplete/)
        .map(({ textContent }) => textContent),
    ).toEqual(['Correct', 'Negative', 'Negative'])
  })

  it('takes the value away again when it goes on, and marks it as given', async () => {
    const flight = await atRoom()
    await flight.answer('six point one up')
    await goOn(flight, /^Go on/)
    await screen.findByRole('button', { name: /^Freeze/ })
    expect(allText()).not.toMatch(/4\.3|four point three/)
    const { floor, items } = flight.store.getState().run ?? {}
    expect(floor?.at === 'item' && items?.[floor.item]?.revealed).toBe(true)
    expect(flight.voice.said.at(-1)?.text).toMatch(/^I heard six point one up/)
  })

  it('holds the verdict back until the room was asked', async () => {
    const flight = await atRoom({ asksRoom: true })
    await flight.answer('four point three up')
    expect(await screen.findByText('What would you say?')).toBeTruthy()
    expect(screen.queryByText('Correct')).toBeNull()
    await goOn(flight, /^Show the verdict/)
    expect(await screen.findByText('Correct')).toBeTruthy()
    // What comes next waits until the room has seen it.
    expect(screen.getByRole('heading', { level: 1, name: 'takeoff trim' })).toBeTruthy()
    await goOn(flight, /^Go on/)
    await waitFor(() => expect(screen.queryByRole('heading', { level: 1, name: 'takeoff trim' })).toBeNull())
  })

  it('is stopped by its key, and by that key alone while it is shown', async () => {
    const flight = await atRoom()
    flight.actions.switched({ name: 'freeze', isDown: true })
    expect(await screen.findByText('Frozen')).toBeTruthy()
    expect(screen.queryByRole('textbox', { name: 'Answer or phrase, typed' })).toBeNull()
    await flight.user.click(screen.getByRole('button', { name: 'End the demonstration' }))
    await screen.findByRole('button', { name: 'Show it to a room' })
    expect(flight.store.getState().run?.frozen).toBeUndefined()
    flight.actions.switched({ name: 'freeze', isDown: true })
    expect(flight.store.getState().run?.frozen).toBeUndefined()
  })
})
