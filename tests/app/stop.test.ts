/** "Stop" in the demo: wherever the run is, it comes before everything, and the one whom it concerns answers. */

import { beforeAll, describe, expect, it } from 'vitest'
import type { Heard } from '../../src/kernel/hearing/heard.ts'
import { interpret } from '../../src/kernel/interpret/interpret.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import type { Effect } from '../../src/kernel/run/core/events.ts'
import { placeName } from '../../src/kernel/run/core/interruption.ts'
import type { RunState } from '../../src/kernel/run/core/state.ts'
import { step } from '../../src/kernel/run/core/step.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { LEFT, TALK, TO_ALTIMETERS, TO_AWAY, TO_CLEARANCE, TO_CREW, TO_FLAP } from './demoAnswers.ts'
import { demoPack, rig } from './rig.ts'

/** As different people would say it; common practice, no source. */
const WAYS = [
  ...[
    'stop',
    'stop stop stop',
    'Stop!',
    'stop the push',
    'stop pushing',
    'stop pushback',
    'emergency stop',
    'emergency',
  ],
  ...[
    'abort',
    'abort start',
    'abort the start',
    'stop the engine start',
    'stop now',
    'uh, stop',
    'ground, stop the push',
  ],
]

interface Place {
  readonly after: string
  readonly state: RunState
}

const ANSWERS = [...TO_CLEARANCE, ...TO_ALTIMETERS, ...TO_CREW, ...TO_AWAY, ...LEFT, ...TO_FLAP]
let pack: Pack
let places: Place[]

beforeAll(async () => {
  const { hear, pass, state, pack: own } = await rig({ talk: TALK })
  pack = own
  places = [{ after: '', state: state() }]
  for (const answer of ANSWERS) {
    // The starter rests between the engines.
    if (answer === LEFT[0]) await pass(13_000)
    await hear(answer, { by: 'typed' })
    places.push({ after: answer, state: state() })
  }
})

const said = (effects: readonly Effect[]) =>
  effects.flatMap((effect) => (effect.type === 'speak' ? [`${effect.role}: ${effect.text}`] : []))

function stopAt({ state }: Place, text: string, more: Partial<Heard> = {}) {
  const at = state.startedAt + state.t
  const heard: Heard = { text, by: 'voice', listenId: state.listenId, beganAt: at, endedAt: at, ...more }
  const { event } = interpret(pack, state, heard)
  const after = step(pack, state, { ...event, v: 1, seq: state.seq + 1, runId: state.runId, t: state.t, wall: '' })
  return { event, state: after.state, said: said(after.effects), effects: after.effects }
}

const GROUND = 'groundCrew: Stopping. Confirm brakes set.'
/** From where the ground crew has the floor until the signal is in sight. */
const isWithGround = (at: number) => at > ANSWERS.indexOf('all pumps on') && at <= ANSWERS.indexOf('signal in sight')

describe('"stop"', () => {
  it('is one at each place of the demo, in every way to say it, typed or spoken, late or with its beginning lost', () => {
    expect(places.length).toBeGreaterThan(60)
    const ways: readonly Partial<Heard>[] = [
      { by: 'typed' },
      {},
      { listenId: 0 },
      { doubt: 'onsetCut' },
      { doubt: 'faint' },
      { early: true },
    ]
    for (const place of places) {
      for (const text of WAYS) {
        for (const way of ways) {
          const { event } = stopAt(place, text, way)
          expect(event, `"${text}" after "${place.after}"`).toMatchObject({ type: 'commanded', command: 'stop' })
        }
      }
    }
  })

  it('is answered at once by the one whom it concerns, and nothing goes on by itself', () => {
    for (const [index, place] of places.entries()) {
      const after = stopAt(place, 'stop')
      const isStarting = Object.values(place.state.watches).some(({ status }) => status === 'running')
      const words = isStarting
        ? ['otherseat: Fuel off. Let it run down, eighty five seconds. Say from the top.', GROUND]
        : [isWithGround(index) ? GROUND : 'otherseat: Stopped. Standing by.']
      expect(after.said, `after "${place.after}"`).toEqual(words)
      expect(after.state.standingBy || after.state.question?.about === 'brakes').toBe(true)
      const ofSilence = after.effects.filter((effect) => effect.type === 'startTimer' && effect.timer !== 'interlock')
      expect(ofSilence).toEqual([])
      expect(after.state.floor).toEqual(place.state.floor)
    }
  })

  it.each(['do not stop', 'we stop', 'stop bars are lit', 'start', 'top', 'unable to stop the leak', 'one two six'])(
    'is not "%s"',
    (text) => {
      for (const place of places) expect(stopAt(place, text).event).not.toMatchObject({ command: 'stop' })
    },
  )

  it('that fits other words better, or is talk in the room, is none', () => {
    for (const doubt of ['unsure', 'otherSpeech'] as const) {
      for (const place of places) expect(stopAt(place, 'stop', { doubt }).event).not.toMatchObject({ command: 'stop' })
    }
  })
})

describe('after a stop', () => {
  const flownTo = async (answers: readonly string[]) => {
    const flight = await rig({ talk: TALK })
    for (const answer of answers) await flight.hear(answer, { by: 'typed' })
    const words = async (text: string) => {
      const before = flight.voice.said.length
      await flight.hear(text)
      return flight.voice.said.slice(before).map(({ role, text: own }) => `${role}: ${own}`)
    }
    return { ...flight, words }
  }
  const TO_PUSH = [
    ...TO_CLEARANCE,
    ...TO_ALTIMETERS,
    ...TO_CREW,
    ...TO_AWAY.slice(0, TO_AWAY.indexOf('clear to start')),
  ]

  it('in the push the brakes are asked for, then it waits, and it moves only once they were released again', async () => {
    const { words, state, pass } = await flownTo(TO_PUSH)
    expect(await words('stop the push')).toEqual([GROUND])
    expect(await words('clear to start')).toEqual([])
    expect(await words('brakes set')).toEqual(['groundCrew: Standing by.'])
    await pass(300_000)
    expect(state()).toMatchObject({ standingBy: true, turns: { 'crew.release': { status: 'ahead', again: true } } })
    await words('continue')
    expect(state()).toMatchObject({ standingBy: false, question: undefined, floor: { at: 'exchange' } })
    expect((await words('brakes released'))[0]).toBe('groundCrew: Commencing pushback.')
    expect(await words('clear to start')).toContain('groundCrew: Clear to start both engines.')
  })

  it('in an engine start the time is noted, and it begins again only after the longest wait of the pack', async () => {
    const flight = await flownTo([...TO_PUSH, 'clear to start', 'done', 'starting the right engine'])
    await flight.pass(2_500)
    await flight.words('abort the start')
    const own = () => flight.state().watches.rightStart
    expect(own()).toMatchObject({
      status: 'stopped',
      because: 'by the crew',
      stoppedAt: (own()?.beganAt ?? 0) + 2_500,
    })
    const { watches } = debriefOf(await demoPack(), flight.log.events)
    expect(watches).toMatchObject([{ because: 'by the crew', stoppedAfterMs: 2_500 }])
    for (const text of ['affirm', 'continue', 'brakes released']) await flight.words(text)
    expect(flight.state().floor).toMatchObject({ at: 'watch' })
    expect(await flight.words('starting the right engine')).toEqual([
      'otherseat: Not yet, let it run down, eighty five seconds.',
    ])
    expect(debriefOf(await demoPack(), flight.log.events).tooEarly).toMatchObject([{ what: 'right engine start' }])
    await flight.pass(90_000)
    await flight.words('starting the right engine')
    expect(own()).toMatchObject({ status: 'running', attempt: 2 })
    expect(own()).not.toHaveProperty('because')
    expect(own()).not.toHaveProperty('stoppedAt')
  })

  it('what was asked is asked no more: "affirm" goes on with nothing', async () => {
    const { words, state } = await flownTo(['before start list'])
    expect(state().question?.about).toBe('outOfOrder')
    await words('stop')
    await words('affirm')
    expect(state()).toMatchObject({ standingBy: true, question: undefined, lists: {} })
  })

  it('"correction, stop" opens nothing again', async () => {
    const { words, state } = await flownTo(TO_CLEARANCE.slice(0, 2))
    await words('correction, stop')
    expect(state()).toMatchObject({ standingBy: true, floor: { item: 'loadFigures.trim' } })
  })

  it('"from the top" ends the wait, so that the other engine is answered too', async () => {
    const { words, state } = await flownTo(TO_CLEARANCE.slice(0, 2))
    await words('stop')
    await words('from the top')
    expect(state()).toMatchObject({ standingBy: false, floor: { item: 'loadFigures.zeroFuelWeight' } })
  })

  it('the end is told as a place', async () => {
    const flight = await flownTo([])
    const end = { ...flight.state(), floor: { at: 'end' } } as const
    expect(placeName(await demoPack(), end)).toBe('the end')
  })

  it('the pack’s own stop words stop a start, and nothing else', async () => {
    const flight = await flownTo([...TO_PUSH, 'clear to start', 'done'])
    await flight.words('fuel off')
    expect(flight.log.events.at(-1)).not.toMatchObject({ command: 'stop' })
    await flight.words('starting the right engine')
    expect((await flight.words('fuel off'))[0]).toBe(
      'otherseat: Fuel off. Let it run down, eighty five seconds. Say from the top.',
    )
  })

  it('the debrief tells when, where and in which words', async () => {
    const flight = await flownTo(TO_PUSH)
    await flight.pass(1_000)
    await flight.words('emergency stop')
    const { stops } = debriefOf(await demoPack(), flight.log.events)
    expect(stops).toMatchObject([{ text: 'emergency stop', at: expect.stringMatching(/./) }])
  })
})
