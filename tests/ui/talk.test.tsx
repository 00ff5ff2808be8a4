import { screen, waitFor, within } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { SAID } from '../kernel/run/talkFixture.ts'
import { allText } from './stage.tsx'
import { GROUND, talking } from './talkStage.tsx'

const WHOLE = 'cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven one'
const CLEARANCE = ['request clearance', WHOLE]
const ORDER = [...GROUND, 'external power off', 'beacon on', 'brakes released', 'ready to push']

const exchange = () => screen.getByRole('region', { name: 'Exchange' })
const rows = (name: string) =>
  within(screen.getByRole('list', { name }))
    .getAllByRole('listitem')
    .map((row) => row.textContent?.trim().replace(/\s+/g, ' '))
const headline = (name: string) => screen.findByRole('heading', { level: 1, name })
const VALUES = /corrie|tarn|five thousand|5,?000|four two seven one|4271/i

describe('the buttons of the ground crew', () => {
  it('say in words which must wait, and look another way; they can be pressed all the same', async () => {
    const { user } = talking(GROUND)
    const waits = screen.getByRole('button', { name: /Confirm by key: push/ })
    expect(waits.textContent).toContain('waits: the ground crew asks for the brakes first')
    expect(waits.className).toBe('waits')
    const ready = screen.getByRole('button', { name: /Confirm by key: beacon/ })
    expect(ready.textContent).toContain('or say “beacon on”')
    expect(ready.className).toBe('first')
    await user.click(waits)
    expect(await screen.findByText(/Otherseat: “Not yet/)).toBeTruthy()
  })
})

describe('an exchange', () => {
  it('says who is to be called, and with which words', async () => {
    talking([])
    await headline('departure clearance')
    expect(exchange().textContent).toContain('Sandmere Deliverycontroller, on the radio')
    expect(allText()).toContain('Call Sandmere Delivery: "delivery request clearance".')
  })

  it('names what must be read back, never its values, and tells how far it is', async () => {
    const { answer } = talking(['request clearance'])
    expect(rows('To be read back')).toEqual([
      'clearance limit to be read back',
      'departure to be read back',
      'level to be read back',
      'squawk to be read back',
    ])
    expect(allText()).not.toMatch(VALUES)
    await answer('tarn two alfa departure, squawk four two seven two')
    await waitFor(() =>
      expect(rows('To be read back')).toEqual([
        'clearance limit missing',
        'departure right',
        'level missing',
        'squawk wrong',
      ]),
    )
    const heard = within(screen.getByRole('region', { name: 'What was heard' })).getByRole('status')
    expect(heard.textContent).toContain('Negative')
    expect(allText()).not.toMatch(/corrie|five thousand|4271/i)
  })

  it('shows a correction that was just heard, and does not mark it', async () => {
    const { answer, user } = talking(['request clearance'])
    await answer(WHOLE.replace('seven one', 'seven two'))
    await within(exchange()).findByText('Negative, squawk four two seven one.')
    await user.click(screen.getByRole('button', { name: 'Debrief' }))
    const debrief = await screen.findByRole('region', { name: 'Exchange departure clearance' })
    expect(debrief.textContent).not.toContain('words shown')
  })

  it('shows the words to those who ask for them, and the debrief says so', async () => {
    const { user } = talking(['request clearance'])
    await user.click(screen.getByRole('button', { name: /Show the words/ }))
    await within(exchange()).findByText(/Cleared to corrie, .* squawk four two seven one/)
    await user.click(screen.getByRole('button', { name: 'Debrief' }))
    const debrief = await screen.findByRole('region', { name: 'Exchange departure clearance' })
    expect(debrief.textContent).toContain('words shown')
  })

  it('is heard: while the station speaks its words are nowhere on the screen', async () => {
    const { store } = talking(['request clearance'])
    store.setState({ voice: { speaking: 'Cleared to corrie.', role: 'controller', failed: false } })
    await screen.findByText('The controller speaks')
    expect(allText()).not.toContain('corrie')
    store.setState({ voice: { speaking: 'Cleared to corrie.', role: 'controller', failed: true } })
    await screen.findByText('The voice of the station cannot be heard: show its words.')
    expect(allText()).not.toContain('corrie')
  })

  it('is heard too where the colleague reads back: the screen says so, offers to object, and holds no value', async () => {
    const { answer, store, run, user } = talking([], SAID, { settings: { readBacks: 'colleague' } })
    await within(exchange()).findByText(/^Your colleague reads back\./)
    await answer('request clearance')
    store.setState({
      voice: { speaking: 'Squawk four two seven one.', role: 'otherseat', onRadio: true, failed: false },
    })
    await screen.findByText('Your colleague speaks on the radio')
    expect(allText()).not.toMatch(/corrie|four two seven one|4271/i)
    await user.click(screen.getByRole('button', { name: '“Check that”' }))
    expect(run.said()[0]).toMatch(/^controller: I say again, cleared to corrie/)
  })

  it('leaves nothing of Otherseat’s at the microphone that is older than the words of the station', async () => {
    const { answer } = talking([])
    const strip = screen.getByRole('region', { name: 'Microphone' })
    await within(strip).findByText(/^Otherseat: “/)
    await answer('request clearance')
    await waitFor(() => expect(within(strip).queryByText(/^Otherseat: “/)).toBeNull())
    await answer('radio check')
    await within(strip).findByText(/^Otherseat: “Reading you/)
  })

  it.each([
    ['Say again', 'controller: I say again'],
    ['Stand by', 'controller: Standing by.'],
  ])('has a button for "%s"', async (name, said) => {
    const { run, user } = talking(['request clearance'])
    await user.click(screen.getByRole('button', { name: `“${name}”` }))
    expect(run.said().join(' ')).toContain(said)
  })

  it('does not give away that the controller errs', async () => {
    const slip = { turn: 'clearance.full', figure: 'code', seed: 3, kind: 'acceptsWrong' } as const
    const { answer, run } = talking(['request clearance'], { ...SAID, slip })
    await answer(WHOLE.replace('seven one', 'seven two'))
    await headline('departure briefing')
    expect(run.state.turns['clearance.full']?.slip).toBe('open')
    const heard = within(screen.getByRole('region', { name: 'What was heard' })).getByRole('status')
    expect(heard.textContent).toContain('Correct')
    expect(heard.textContent).not.toMatch(/Negative|wrong/)
  })
})

describe('the ground crew', () => {
  const LIST = 'What is to be exchanged'

  it('stands with all open turns and what each waits for; a call too early says why', async () => {
    const { answer } = talking(GROUND)
    expect(rows(LIST)).toEqual([
      'external powersay "external power off"',
      'beaconsay "beacon on"',
      'brakeswaits: beacon first',
      'pushwaits: the ground crew asks for the brakes first',
    ])
    await answer('ready to push')
    await within(exchange()).findByText(/the ground crew asks for the brakes first/, { selector: '.notice' })
  })

  it('may be answered by key where it is words alone, logged as a key', async () => {
    const { run, user } = talking(GROUND)
    await user.click(screen.getByRole('button', { name: /^Confirm by key: beacon/ }))
    await waitFor(() => expect(rows(LIST)[1]).toBe('beacondone'))
    expect(run.events.at(-1)).toMatchObject({ type: 'transmitted', turn: 'crew.beacon', evidence: { by: 'key' } })
    await user.click(screen.getByRole('button', { name: /^Confirm by key: brakes/ }))
    await waitFor(() => expect(rows(LIST)[2]).toBe('brakesdone'))
  })
})

describe('an order', () => {
  it('that differs from the figure is questioned, and may be kept to', async () => {
    const { answer, run, user } = talking(ORDER)
    await answer('flap fifteen')
    await screen.findByRole('heading', { level: 1, name: /Confirm fifteen/ })
    expect(allText()).not.toMatch(/\bfive\b/)
    await user.click(screen.getByRole('button', { name: '“Affirm”' }))
    await headline('taxi')
    expect(run.state.turns['flap.order']?.insisted).toBe('fifteen')
    await user.click(screen.getByRole('button', { name: 'Debrief' }))
    const debrief = await screen.findByRole('region', { name: 'Exchange flap order' })
    expect(debrief.textContent).toContain('kept to “fifteen” against the figure')
  })
})

describe('a briefing', () => {
  it('ticks its topics, marks wrong ones, and is complete only when all are covered', async () => {
    const { answer, user } = talking(CLEARANCE)
    await answer('rejected takeoff')
    await answer('departing runway two seven right')
    const topics = () => rows('Topics of the briefing')
    await waitFor(() =>
      expect(topics()).toEqual(['runway wrong: say it again', 'first level', 'rejected takeoff briefed']),
    )
    await user.click(screen.getByRole('button', { name: /Briefing complete/ }))
    await headline('departure briefing')
    await answer('runway two seven left')
    await answer('level five thousand')
    await user.click(screen.getByRole('button', { name: /Briefing complete/ }))
    await headline('before push')
    await user.click(screen.getByRole('button', { name: 'Debrief' }))
    const debrief = await screen.findByRole('region', { name: 'Briefing departure briefing' })
    expect(debrief.textContent).toContain('runwaybriefed, wrong once')
  })
})

describe('the procedure', () => {
  it('has exchanges and briefings in their places', () => {
    talking(CLEARANCE)
    const all = within(screen.getByRole('region', { name: 'All lists' })).getAllByRole('listitem')
    expect(all.slice(0, 3).map((row) => row.textContent?.trim())).toEqual([
      'departure clearanceexchange, done',
      'departure briefingbriefing, ahead',
      'before pushahead',
    ])
  })
})
