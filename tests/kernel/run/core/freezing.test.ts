/** A run that is demonstrated to a room: it freezes by a key or at an answer, and loses neither words nor time by it. */

import { describe, expect, it } from 'vitest'
import { freezePressed } from '../../../../src/kernel/interpret/freeze.ts'
import { announcedLater } from '../../../../src/kernel/run/core/clocks.ts'
import type { EventFields } from '../../../../src/kernel/run/core/events.ts'
import { fold } from '../../../../src/kernel/run/core/step.ts'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import { factsOf } from '../../../../src/kernel/training/factsOf.ts'
import { begun, call, FINAL, PACK, PRELIMINARY, revision, type TestRun } from '../fixture.ts'
import { abnormal, beforeEngine, began, called, STARTING } from '../startFixture.ts'
import { TALK, talkRun } from '../talkFixture.ts'

type Choices = Omit<EventFields['demonstrated'], 'isOn'>

const shown = (choices: Partial<Choices> = {}, run: TestRun = begun().happen(call('load'))) =>
  run.happen({ type: 'demonstrated', isOn: true, stops: 'answers', asksRoom: false, ...choices })

const kinds = ({ effects }: TestRun) => effects.map(({ type }) => type)
const press = (run: TestRun) => run.happen(freezePressed(PACK, run.state))

describe('the freeze key', () => {
  it('stops voice, ear and times, and goes on where it was', () => {
    const run = press(shown())
    expect(run.state.frozen).toBeDefined()
    expect(kinds(run)).toEqual(['shut', 'stopTimers'])
    press(run)
    expect(run.state.frozen).toBeUndefined()
    expect(run.said()).toBe('Takeoff trim?')
    expect(kinds(run)).toContain('listen')
    expect(kinds(run)).toContain('startTimer')
  })

  it('makes no interruption of a long talk', () => {
    const run = press(press(shown()).pass(600_000))
    expect(run.state.interruptions).toEqual([])
    run.answer('correct')
    expect(run.state.interruptions).toEqual([])
  })

  it('keeps silent what comes in meanwhile, and says it when the run goes on', () => {
    const run = press(shown()).happen(revision(2, 'final', FINAL, PRELIMINARY))
    expect(run.said()).toBe('')
    expect(run.state).toMatchObject({ revision: 2, frozen: {} })
    expect(press(run).said()).toBe('Final figures are in. Redo load flow, Trim.')
  })

  it('stops a start that is timed: no limit passes in it', () => {
    const run = shown({ stops: 'never' }, beforeEngine()).happen(began(7_000)).happen(called('rotation', 8_000))
    const before = run.state.watches.engine
    const { t } = press(run).state
    run.pass(60_000)
    run.happen(freezePressed(STARTING, run.state))
    const ms = run.state.t - t
    expect(ms).toBeGreaterThan(60_000)
    expect(run.state.watches.engine).toMatchObject({
      beganAt: (before?.beganAt ?? 0) + ms,
      calls: { rotation: 8_000 + ms },
    })
    const due = run.effects.find((effect) => effect.type === 'startTimer' && effect.timer === 'watch')
    expect(due).toMatchObject({ ms: expect.any(Number) })
    expect(due?.type === 'startTimer' && due.ms).toBeGreaterThan(0)
  })

  it('is gone on from by whatever the pilot does', () => {
    const run = press(shown()).command('whatIsLeft')
    expect(run.state.frozen).toBeUndefined()
    expect(run.said()).not.toBe('')
  })

  it('folds to the state that it had', () => {
    const run = press(press(shown()).happen(revision(2, 'final', FINAL, PRELIMINARY)))
      .happen(call('load'))
      .answer('negative')
    expect(fold(PACK, 'run', run.events)).toEqual(run.state)
  })
})

describe('the time of a freeze', () => {
  /** Frozen for so long before the answer, and once in a start. */
  const account = (ms: number) => {
    const run = press(shown({ stops: 'never' })).pass(ms)
    press(run).answer('correct')
    return debriefOf(PACK, run.events)
  }
  const start = (ms: number) => {
    const run = shown({ stops: 'never' }, beforeEngine()).happen(began(7_000)).happen(called('rotation', 8_000))
    press(run).pass(ms)
    run.happen(freezePressed(STARTING, run.state)).happen(called('fuel', run.state.t + 1_000))
    return debriefOf(STARTING, run.events)
  }

  it('is in no answer, wait or line of time', () => {
    expect(account(60_000).timeline).toEqual(account(0).timeline)
    expect(account(60_000).durationMs).toBe(account(0).durationMs)
  })

  it('is in no time of a start', () => {
    expect(start(60_000).watches).toEqual(start(0).watches)
    expect(start(60_000).timeline).toEqual(start(0).timeline)
  })

  it('has nothing announced once more', () => {
    expect(announcedLater(['leftStart@5000'], 60_000)).toEqual(['leftStart@65000'])
  })
})

describe('an answer before a room', () => {
  it.each([
    ['answers', 'correct', true],
    ['answers', 'sayAgain', true],
    ['misses', 'negative', true],
    ['misses', 'incomplete', true],
    ['misses', 'correct', false],
    ['misses', 'sayAgain', false],
    ['never', 'negative', false],
  ] as const)('where it freezes at %s: %s, %s', (stops, verdict, isFrozen) => {
    expect(shown({ stops }).answer(verdict).state.frozen !== undefined).toBe(isFrozen)
  })

  it('sounds at once, and what was to be said of it is said when the run goes on', () => {
    const run = shown().answer('negative', { parts: [{ name: 'trim', kind: 'figure', state: 'wrong', heard: 'six' }] })
    expect(kinds(run)).toEqual(['shut', 'stopTimers', 'tone'])
    expect(press(run).said()).toBe('I heard six.')
    expect(run.effects.at(-1)).toMatchObject({ type: 'startTimer' })
  })

  it('that was wrong has its value given, since the room sees it', () => {
    const wrong = { parts: [{ name: 'trim', kind: 'figure', state: 'wrong', heard: 'six' }] } as const
    expect(shown().answer('negative', wrong).state.items['load.trim']).toMatchObject({ revealed: true })
    const late = shown({ stops: 'never' }).answer('negative', wrong)
    expect(late.state.items['load.trim']).toMatchObject({ revealed: false })
    expect(press(late).state.items['load.trim']).toMatchObject({ revealed: true })
    const half = { parts: [{ name: 'trim', kind: 'figure', state: 'missing', heard: 'six' }] } as const
    expect(shown().answer('incomplete', half).state.items['load.trim']).toMatchObject({ revealed: false })
  })

  it('is no trial of the pilot’s, and the debrief says why', () => {
    const run = press(shown().answer('negative')).happen({
      type: 'demonstrated',
      isOn: false,
      stops: 'never',
      asksRoom: false,
    })
    run.answer('correct')
    expect(run.state.frozen).toBeUndefined()
    expect(factsOf(PACK, run.events).trials).toEqual([])
    expect(debriefOf(PACK, run.events)).toMatchObject({ demonstrated: true, totals: { misses: 1 } })
  })
})

describe('a room that is asked', () => {
  const asked = () => shown({ asksRoom: true }).hear('six point one up')

  it('sees the words and no verdict until the run goes on', () => {
    const run = asked()
    expect(run.state.frozen?.said).toMatchObject({ text: 'six point one up', by: 'voice' })
    expect(run.state.last).toBeUndefined()
    expect(kinds(run)).toEqual(['shut', 'stopTimers'])
    press(run)
    expect(run.state.last).toMatchObject({ text: 'six point one up', judgement: { verdict: 'negative' } })
    // And once more, for the room to look at it.
    expect(run.state.frozen).toBeDefined()
    expect(press(run).said()).toBe('I heard six point one up.')
  })

  it('is not asked about a command, nor about what the ear does not stand by', () => {
    expect(shown({ asksRoom: true }).hear('say again').state.frozen).toBeUndefined()
    const unsure = shown({ asksRoom: true, stops: 'never' }).hear('six point one up', { doubt: 'unsure' })
    expect(unsure.state.frozen).toBeUndefined()
  })

  it('cannot have an answer judged on figures that came in since', () => {
    const run = asked().happen(revision(2, 'final', FINAL, PRELIMINARY))
    expect(press(run).events.at(-1)).toMatchObject({ type: 'voided', because: 'figuresChanged' })
  })
})

describe('a start before a room', () => {
  const starting = (choices: Partial<Choices> = {}) => shown(choices, beforeEngine())
  const goOn = (run: TestRun) => run.happen(freezePressed(STARTING, run.state))

  it('stands still at its beginning and at each call, deaf and untimed, and then listens again', () => {
    const run = starting().happen(began(7_000))
    expect(run.state.frozen).toBeDefined()
    expect(kinds(run)).toEqual(['shut', 'stopTimers', 'tone'])
    goOn(run).happen(called('rotation', 9_000))
    expect(run.state.frozen).toBeDefined()
    expect(kinds(run)).toEqual(['shut', 'stopTimers', 'tone'])
    goOn(run)
    expect(kinds(run)).toEqual(['shut', 'stopTimers', 'startTimer', 'listen'])
    expect(run.said()).toBe('')
  })

  it.each([
    ['in its turn', called('rotation', 8_000), false],
    ['out of order', called('stable', 8_000, { value: 58, inRange: true }), true],
    ['late', called('rotation', 20_000), true],
  ] as const)('where it freezes at what is missed: a call %s', (_, event, isFrozen) => {
    const run = starting({ stops: 'misses' }).happen(began(7_000)).happen(event)
    expect(run.state.frozen !== undefined).toBe(isFrozen)
  })

  it('has stop words said at once', () => {
    const run = starting({ stops: 'never' }).happen(began(7_000))
    run.happen({ type: 'demonstrated', isOn: true, stops: 'answers', asksRoom: true }).happen(abnormal(9_000))
    expect(run.state.frozen).toBeUndefined()
    expect(run.said()).toMatch(/^Fuel off/)
  })

  it('asks the room first, and judges the call by the time at which it was made', () => {
    const run = starting({ asksRoom: true, stops: 'never' }).happen(began(7_000))
    run.hear('rotation', { beganAt: 7_500 })
    expect(run.state.frozen?.said?.text).toBe('rotation')
    expect(run.state.watches.engine?.calls).toEqual({})
    run.pass(60_000)
    goOn(run)
    const { beganAt = 0, calls = {}, late } = run.state.watches.engine ?? {}
    expect((calls.rotation ?? 0) - beganAt).toBe(500)
    expect(late).toEqual([])
    expect(fold(STARTING, 'run', run.events)).toEqual(run.state)
  })
})

describe('a briefing before a room', () => {
  const CLEARED = 'cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven one'
  const briefing = (choices: Partial<Choices> = {}) =>
    talkRun()
      .hear('request clearance')
      .hear(CLEARED)
      .happen({ type: 'demonstrated', isOn: true, stops: 'answers', asksRoom: false, ...choices })

  it('stands still at each breath, and listens again behind it', () => {
    const run = briefing().hear('runway two seven left')
    expect(run.state.frozen).toBeDefined()
    expect(run.effects.map(({ type }) => type)).toEqual(['shut', 'stopTimers'])
    run.happen(freezePressed(TALK, run.state))
    expect(run.effects.map(({ type }) => type)).toEqual(['shut', 'stopTimers', 'listen'])
  })

  it('freezes at a wrong value and at an end that leaves something out, where it freezes at misses', () => {
    const run = briefing({ stops: 'misses' }).hear('runway two seven left')
    expect(run.state.frozen).toBeUndefined()
    expect(run.hear('level six thousand').state.frozen).toBeDefined()
    run.happen(freezePressed(TALK, run.state))
    expect(run.hear('briefing complete').state.frozen).toBeDefined()
  })

  it('asks the room first', () => {
    const run = briefing({ asksRoom: true }).hear('runway two seven left')
    expect(run.state.frozen?.said?.text).toBe('runway two seven left')
    expect(run.state.topics).toEqual({})
    run.happen(freezePressed(TALK, run.state))
    expect(run.state.topics).toEqual({ 'briefing.runway': 'ok' })
  })
})
