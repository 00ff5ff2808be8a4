import { screen, waitFor, within } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { stage } from './stage.tsx'

const RIGHT = [
  ...['nine nine zero four', 'four point six up', 'stand by', 'nine five one three', 'one five nine'],
  ...['two five six nine zero', 'what is left', 'one zero zero nine'],
]

describe('the sound check', () => {
  it('can be left out', async () => {
    const { user, store } = stage()
    await user.click(screen.getByRole('button', { name: 'Check the sound' }))
    await user.click(screen.getByRole('button', { name: 'Skip it' }))
    await waitFor(() => expect(store.getState().screen).toBe('start'))
    expect(store.getState().soundCheck).toBeUndefined()
  })

  it('puts one line after the other, tells which were understood, and keeps what follows if that is wanted', async () => {
    const { user, store, ear, clock } = stage({ screen: 'sound' })
    await user.click(screen.getByRole('button', { name: 'Begin' }))
    await screen.findByText('Read aloud at the tone, line 1 of 8')
    expect(screen.queryByText('5 9 0 4')).toBeNull()
    clock.advance(1_500)
    expect(await screen.findByText('5 9 0 4')).toBeTruthy()
    ear.emit({ type: 'level', level: -22, noise: -60, clipping: false })
    expect(await screen.findByRole('img', { name: 'Microphone level -22 decibels' })).toBeTruthy()
    for (const text of RIGHT) {
      clock.advance(1_500)
      await waitFor(() => expect(store.getState().soundCheck?.isShown).toBe(true))
      ear.emit({ type: 'level', level: -22, noise: -60, clipping: false })
      clock.advance(900)
      ear.hear(text)
    }
    await screen.findByRole('heading', { name: '7 of 8 lines understood' })
    const [first, second] = within(screen.getByRole('list', { name: 'Lines read' })).getAllByRole('listitem')
    expect(first?.textContent).toContain('not understoodheard: nine nine zero four')
    expect(second?.textContent).toContain('understood')
    expect(screen.getByText(/say "fife" and "niner"/)).toBeTruthy()
    await user.click(screen.getByRole('button', { name: 'Keep this' }))
    await waitFor(() => expect(store.getState().settings).toMatchObject({ fiveNine: true, listening: 'open' }))
    // The first line was misheard: five values of the six count.
    const { lookTimes } = store.getState().settings
    expect(lookTimes).toMatchObject({ value: { count: 5 }, state: { count: 0 }, word: { count: 2 } })
    expect(Math.exp(lookTimes?.value.mean ?? 0)).toBeCloseTo(900)
    expect(store.getState().screen).toBe('start')
  })

  it('lets a line be left out, and says what is wrong with a microphone', async () => {
    const { user, ear, store } = stage({ screen: 'sound' })
    await user.click(screen.getByRole('button', { name: 'Begin' }))
    await user.click(await screen.findByRole('button', { name: 'Skip this line' }))
    await screen.findByText('Read aloud at the tone, line 2 of 8')
    ear.emit({ type: 'failed', failure: { code: 'refused', message: 'The microphone is not allowed; allow it.' } })
    expect((await screen.findByRole('alert')).textContent).toContain('allow it')
    await user.click(screen.getByRole('button', { name: 'Stop without changes' }))
    await waitFor(() => expect(store.getState().soundCheck).toBeUndefined())
  })

  it('has the pilot choose microphone and output by their names', async () => {
    const devices = { microphones: [{ id: 'a', name: 'Boom' }], outputs: [{ id: 'b', name: 'Left ear' }] }
    const { user, store } = stage({ screen: 'sound' }, { soundDevices: async () => devices })
    await user.selectOptions(await screen.findByRole('combobox', { name: 'Microphone' }), 'Boom')
    await user.selectOptions(screen.getByRole('combobox', { name: 'Output' }), 'Left ear')
    expect(store.getState().settings).toMatchObject({ microphone: 'a', output: 'b' })
  })
})
