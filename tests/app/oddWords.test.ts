/** Words that fit nowhere, or come too early: told so in a few words, nothing given away, and no old verdict left standing. */

import { describe, expect, it } from 'vitest'
import { viewOf } from '../../src/app/view/view.ts'
import { interpret } from '../../src/kernel/interpret/interpret.ts'
import { stamped } from '../../src/kernel/run/core/interlocks.ts'
import { LOG_VERSION } from '../../src/kernel/run/core/readLog.ts'
import { step } from '../../src/kernel/run/core/step.ts'
import { marramLines } from '../flight/lines.ts'
import { flown, upTo } from './flown.ts'

const JET = marramLines('icao', 'push')

describe('"go back to" and "recheck"', () => {
  const UNKNOWN = 'Recheck what? Say recheck and the item.'

  it.each([
    ['go back to the flux capacitor', UNKNOWN],
    ['recheck flux capacitor', UNKNOWN],
    ['recheck beacon', 'Not yet, parking brake.'],
    ['recheck cabin', 'Not yet, ready for taxi list, not called. Parking brake?'],
    ['go back to the taxi clearance', 'Not yet, before start list is not complete.'],
  ])('"%s" in a list where there is none, or it comes later, is told so', async (words, answer) => {
    const { answers, state } = await flown('marram', upTo(JET, 'before start list'), 'brake released', words)
    expect(answers).toEqual(['I heard brake released.', answer])
    expect(state.last).toBeUndefined()
    expect(state.floor).toMatchObject({ at: 'item', item: 'beforeStart.brake' })
  })

  it.each([
    ['go back to the departure briefing', 'Not yet, departure information is not complete.'],
    ['go back to departure clearance', 'Not yet, departure information is not complete.'],
    ['go back to the moon', UNKNOWN],
  ])('"%s" in an exchange as well', async (words, answer) => {
    const { answers, state } = await flown('marram', upTo(JET, 'get the information'), 'information lima', words)
    expect(answers[1]).toBe(answer)
    expect(state.last).toBeUndefined()
  })
})

describe('"say again" and "confirm" before anything was said', () => {
  it('are no call to a station, and draw no verdict', async () => {
    const then = ['confirm information kilo', 'say again squawk', 'say again'] as const
    const { answers, events } = await flown('marram', upTo(JET, 'runway two four'), ...then)
    expect(answers).toEqual(['Departure clearance.', 'Departure clearance.', 'Departure clearance.'])
    expect(events.slice(-3).map(({ type }) => type)).toEqual(['commanded', 'commanded', 'commanded'])
  })
})

describe('a cross-check off a source that the figure does not have', () => {
  it('names those that it has, and is no answer', async () => {
    const words = 'cross check zero fuel weight from the moon'
    const { answers, state } = await flown('marram', upTo(JET, 'load figures list'), 'one two', words)
    expect(answers[1]).toBe('Zero fuel weight, from the load sheet, from the flight computer. Zero fuel weight?')
    expect(state.last).toBeUndefined()
    expect(state.question).toBeUndefined()
  })
})

describe('what comes too early', () => {
  it('neither confirms nor denies a clearance that is still to be given', async () => {
    const before = JET.slice(0, JET.indexOf('cleared to push facing east'))
    const { pack, state: there } = await flown('marram', before)
    const state = stamped({ ...there, cleared: there.cleared.filter((one) => one !== 'push') }, there.t)
    for (const way of ['east', 'west']) {
      const heard = { listenId: state.listenId, text: `cleared to push facing ${way}`, beganAt: 0, endedAt: 0 }
      const { event } = interpret(pack, state, { ...heard, by: 'typed' })
      const stamp = { v: LOG_VERSION, seq: state.seq + 1, runId: state.runId, t: state.t, wall: '' } as const
      const after = step(pack, state, { ...stamp, ...event }).state
      expect([event.type, after.said, after.last]).toEqual(['transmitted', 'Not yet, push clearance first.', undefined])
    }
  })

  it('is marked as refused, whether a call or an item', async () => {
    const { state } = await flown('marram', upTo(JET, 'confirm doors and steps'), 'clear to start')
    expect(state.last).toMatchObject({ judgement: { verdict: 'correct' }, isRefused: true })
    const item = await flown('marram', upTo(JET, 'tow bar clear, pin in hand'), 'flap twelve set', 'unit off')
    expect(item.answers[1]).toMatch(/^Not yet/)
    expect(item.state.last).toMatchObject({ judgement: { verdict: 'correct' }, isRefused: true })
  })

  it('is no mark in a start any more once it came in its time, nor is a value that was put right', async () => {
    const start = ['starting the right engine', 1, 'rotation seen', 'fuel on at one eight percent'] as const
    const then = ['affirm', 'fuel on at two four percent', 'negative', 8, 'light up'] as const
    const { pack, state, debrief } = await flown('marram', [...upTo(JET, 'clear to start'), 'done'], ...start, ...then)
    const call = viewOf(pack, state).watch?.calls.find(({ label }) => label === 'fuel on')
    expect(call).toMatchObject({ state: 'called', outside: [] })
    expect(debrief.watches[0]?.calls.find(({ label }) => label === 'fuel on')?.outside).toMatchObject([{ value: 18 }])
  })
})

describe('in a briefing and in an exchange', () => {
  it('"what is left" names the topics, and a situation is taken', async () => {
    const before = upTo(JET, 'flap twelve')
    const { answers } = await flown('marram', before, 'flap is wrong', 'what is left', 'flap twelve', 'what is left')
    expect(answers).toEqual([
      'Flap?',
      'Four items left, flap, takeoff speeds, rejected takeoff, engine failure. Departure briefing.',
      '',
      'Three items left, takeoff speeds, rejected takeoff, engine failure. Departure briefing.',
    ])
    const talk = await flown('marram', upTo(JET, 'runway two four'), 'icing conditions')
    expect(talk.state.situation.icing).toBe('yes')
  })
})

describe('words of one part', () => {
  it('are not read as the state of another: "waved off" says nothing of the brake', async () => {
    const { state } = await flown('marram', upTo(JET, 'push and start list'), 'disconnected, waved off')
    expect(state.last?.judgement).toMatchObject({
      verdict: 'incomplete',
      parts: [
        { name: 'brake', state: 'missing' },
        { name: 'tug', state: 'ok' },
      ],
    })
  })
})

describe('an abnormal sign beside other words', () => {
  const RUNNING = [...upTo(JET, 'clear to start'), 'done', 'starting the right engine', 1, 'rotation seen', 5]
  it.each(['light up, hot start', 'we have a hot start', 'hung start, it hangs', 'we have an engine fire'])(
    'stops the start: "%s"',
    async (said) => {
      const { state } = await flown('marram', RUNNING, 'fuel on at two four percent', 2, said)
      expect(state.watches.rightStart?.status).not.toBe('running')
    },
  )

  it.each(['no hot start', 'light up', 'in case of a hot start we cut the fuel'])('goes on: "%s"', async (said) => {
    const { state } = await flown('marram', RUNNING, 'fuel on at two four percent', 2, said)
    expect(state.watches.rightStart?.status).toBe('running')
  })
})

describe('a briefing that could kill', () => {
  it('is wrong at once, asked for again, and told in the debrief', async () => {
    const before = upTo(JET, 'flap twelve')
    const { answers, state, debrief } = await flown(
      'marram',
      before,
      'after V one we stop',
      'engine failure after V one we continue',
    )
    expect(answers[0]).toBe('I heard after v one we stop. Engine failure?')
    expect(state.topics['departureBriefing.reject']).toBeUndefined()
    expect(state.topics['departureBriefing.failure']).toBe('ok')
    expect(JSON.stringify(debrief.briefings)).toContain('after V one we stop')
  })
})
