import { screen, waitFor, within } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { lastAnswerIn } from '../../src/app/run/lastAnswer.ts'
import { demonstrationView } from '../../src/app/view/demonstrationView.ts'
import type { EventBody } from '../../src/kernel/run/core/events.ts'
import type { TestRun } from '../kernel/run/fixture.ts'
import { abnormal, beforeEngine, began, called, STARTING } from '../kernel/run/startFixture.ts'
import { TALK } from '../kernel/run/talkFixture.ts'
import { allText, atTrim } from './stage.tsx'
import { GROUND, talking } from './talkStage.tsx'

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

const ON: EventBody = { type: 'demonstrated', isOn: true, stops: 'never', asksRoom: false }

function toldOf(run: Pick<TestRun, 'state' | 'events'>, pack = STARTING) {
  const moment = lastAnswerIn(pack, run.events)
  if (!moment) throw new Error('nothing was said')
  return demonstrationView(pack, moment, { run: run.state, revisions: [] })
}

describe('a start shown to a room', () => {
  const starting = () => beforeEngine().happen(ON).happen(began(7_000))
  const said = (event: EventBody, text: string): EventBody =>
    'evidence' in event ? ({ ...event, evidence: { by: 'typed', text } } as EventBody) : event

  it('tells that it has begun', () => {
    expect(toldOf(starting())).toMatchObject({ challenge: 'Engine start', verdict: 'Begun' })
  })

  it.each([
    [
      'in its turn',
      called('rotation', 9_000),
      'rotation',
      'Correct',
      /^In its turn; 2 s after the beginning, within 10 s\.$/,
    ],
    ['late', called('rotation', 21_000), 'rotation', 'Late', /14 s after .* for 10 s at most/],
    ['out of order', called('light', 9_000), 'light up', 'Out of order', /^Rotation comes before it\.$/],
  ])('tells a call %s', (_, event, text, verdict, why) => {
    const told = toldOf(starting().happen(said(event, text)))
    expect(told).toMatchObject({ verdict, read: [{ words: text.split(' '), label: text }] })
    expect(told.why).toMatch(why)
  })

  it('tells which value was read out, and its limits', () => {
    const run = starting().happen(called('rotation', 8_000)).happen(called('light', 9_000))
    run.happen(said(called('stable', 10_000, { value: 75, inRange: false }), 'stable seventy five'))
    const told = toldOf(run)
    expect(told).toMatchObject({ verdict: 'Out of limits' })
    expect(told.read).toEqual([
      { words: ['stable'], state: 'beside', label: 'stable' },
      { words: ['seventy', 'five'], state: 'wrong', label: 'value', read: '75' },
    ])
    expect(told.why).toMatch(/stable 75 is outside: from 57 to 61/)
  })

  it('tells how a call stands once the question about it was answered', () => {
    const asked = () => starting().happen(said(called('light', 9_000), 'light up'))
    const denied = toldOf(asked().command('negative'))
    expect(denied).toMatchObject({ verdict: 'Not seen', judgement: { verdict: 'negative' } })
    expect(denied.why).toMatch(/^No rotation\./)
    expect(toldOf(asked().command('affirm'))).toMatchObject({ verdict: 'Correct', judgement: { verdict: 'correct' } })
    expect(toldOf(asked().command('stop'))).toMatchObject({ verdict: 'Stopped' })
  })

  it('tells that none runs where a call comes before its beginning', () => {
    const ahead = () => beforeEngine().happen(ON)
    expect(toldOf(ahead().happen(said(called('rotation', 9_000), 'rotation')))).toMatchObject({ verdict: 'No start' })
    const hot = toldOf(ahead().happen(said(abnormal(9_000), 'hot start')))
    expect(hot).toMatchObject({ verdict: 'No start', judgement: { verdict: 'negative' } })
  })

  it('tells what an abnormal call sets off', () => {
    expect(toldOf(starting().happen(said(abnormal(9_000), 'hot start')))).toMatchObject({
      verdict: 'Stopped',
      why: expect.stringContaining('fuel off, keep it turning'),
    })
  })
})

describe('a briefing shown to a room', () => {
  const briefing = () => {
    const on = talking(GROUND.slice(0, 2))
    on.run.happen(ON)
    on.store.setState({ run: on.run.state })
    return on
  }

  it('tells which topics were ticked, and which value was wrong for which', () => {
    const { run } = briefing()
    run.hear('departing runway two seven left and level six thousand')
    const told = toldOf(run, TALK)
    expect(told.judgement.verdict).toBe('negative')
    expect(told.read.map(({ words, state, label, read }) => [words.join(' '), state, label, read])).toEqual([
      ['departing', 'beside', 'let through', undefined],
      ['runway', 'beside', 'runway', undefined],
      ['two seven left', 'ok', 'runway', '27L'],
      ['and', 'beside', 'let through', undefined],
      ['level', 'beside', 'first level', undefined],
      ['six thousand', 'wrong', 'first level', '6000 ft'],
    ])
    expect(told.why).toMatch(/first level “six thousand” is wrong, read as 6000 ft, for 5000 ft/)
    expect(told.inForce.map(({ label }) => label)).toHaveLength(2)
  })

  it('tells what an end leaves out', () => {
    const { run } = briefing()
    run.hear('runway two seven left').hear('briefing complete')
    expect(toldOf(run, TALK)).toMatchObject({
      verdict: 'Not complete',
      missing: ['first level', 'rejected takeoff'],
    })
  })

  it('has its topics beside what was heard', async () => {
    briefing()
    expect(await screen.findByRole('list', { name: 'Topics of the briefing' })).toBeTruthy()
  })
})
