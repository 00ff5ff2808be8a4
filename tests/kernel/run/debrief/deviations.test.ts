/** Kinds of deviation: logs written by hand, with what each holds. */

import { describe, expect, it } from 'vitest'
import { debriefLines } from '../../../../src/cli/debriefText.ts'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import type { DebriefExchange, DebriefTurn } from '../../../../src/kernel/run/debrief/debriefTalk.ts'
import type { DebriefWatch } from '../../../../src/kernel/run/debrief/debriefWatch.ts'
import { type DeviationsFrom, deviationsOfRun } from '../../../../src/kernel/run/debrief/deviations.ts'
import { NO_TIMES } from '../../../../src/kernel/run/debrief/look/lookTimes.ts'
import { begun, call, PACK, type TestRun, TYPED } from '../fixture.ts'

const BRIEFING = { id: 'b', name: 'departure briefing', done: false, passed: true, refused: [] }

const told = (run: TestRun) =>
  debriefOf(PACK, run.events).deviations.map(({ kind, where, at, sentence }) => [kind, where, at, sentence])

/** Up to the first item of the first list, its flow called done. */
const atTrim = (settings = {}) =>
  begun(settings).happen({ type: 'flowClosed', flow: 'loadFlow', evidence: TYPED }).happen(call('load'))

const NOTHING: DeviationsFrom = {
  ...{ tooEarly: [], outOfOrder: [], notEnded: [], lists: [], exchanges: [], briefings: [], watches: [], flows: [] },
  ...{ looks: { isCalibrated: false, answers: [] }, readOut: new Map(), givenAt: new Map(), isOver: true },
}
const turn = (more: Partial<DebriefTurn>): DebriefTurn => ({
  ...{ id: 'clearance', label: 'clearance', done: true, tries: [], misses: 0, sayAgains: 0, asked: 0, unsigned: 0 },
  ...{ acknowledged: 0, shown: false, waived: [], byKey: false, ...more },
})
const exchange = (one: DebriefTurn): DebriefExchange => ({
  ...{ id: 'delivery', name: 'delivery', station: 'Delivery', role: 'controller', done: true, passed: true },
  turns: [one],
})
const brief = (from: Partial<DeviationsFrom>) =>
  deviationsOfRun(PACK, { ...NOTHING, ...from }).map(({ kind, at, sentence, why }) => [kind, at, sentence, why])

describe('a log', () => {
  it('in which all is as it should be holds none', () => {
    expect(told(atTrim().answer('correct').answer('correct').answer('correct'))).toEqual([])
  })

  it('of a flow that is read out, and of a list called before the flow was called done', () => {
    const run = begun().happen({ type: 'flowAsked', flow: 'loadFlow', evidence: TYPED }).happen(call('load'))
    expect(told(run)).toEqual([
      ['notCompleted', 'Load flow', 3_000, 'Load flow not called complete before the load list.'],
      ['readDo', 'Load flow', 2_000, 'It was read out step by step.'],
    ])
  })

  it('of an answer without its value, and of one with a part left out', () => {
    const missing = { name: 'trim', kind: 'figure', state: 'missing', lacks: 'direction' } as const
    const run = atTrim()
      .answer('incomplete', { because: 'valueless' })
      .answer('incomplete', { parts: [missing] })
    expect(told(run)).toEqual([
      ['leftOut', 'takeoff trim', 5_000, 'Left out: takeoff trim (direction).'],
      ['valueless', 'takeoff trim', 4_000, 'Said to be done.'],
    ])
  })

  it('of a wrong value and a wrong state, with what was right', () => {
    const trim = { name: 'trim', kind: 'figure', state: 'wrong', read: 4.1, expected: 5.2 } as const
    const run = atTrim().answer('negative', { because: 'value', parts: [trim] })
    run.answer('correct').answer('correct')
    const open = { name: 'closed', kind: 'word', state: 'wrong', read: 'open', expected: 'closed' } as const
    run.answer('negative', { because: 'state', parts: [open] })
    const { deviations } = debriefOf(PACK, [...run.events])
    expect(deviations.map(({ kind, where, why }) => [kind, where, why])).toEqual([
      ['wrong', 'takeoff trim', 'Takeoff trim: 5.2 up was right.'],
      ['wrong', 'windows', '“closed” was right.'],
    ])
  })

  it('of a part without a name says that a state was left out, not which', () => {
    const run = atTrim().answer('correct').answer('correct')
    run.answer('incomplete', { parts: [{ name: 'closed', kind: 'word', state: 'missing' }] })
    expect(told(run).map(([, , , sentence]) => sentence)).toEqual(['Left out: a state.'])
  })

  it('of a list called before its turn, each time that it was asked about, whatever was answered', () => {
    const early = ['sequence', 'Start list']
    const kinds = (run: TestRun) => told(run).map(([kind, where]) => [kind, where])
    expect(kinds(atTrim().happen(call('start')).command('affirm'))).toEqual([early])
    expect(kinds(atTrim().happen(call('start')).happen(call('start')).command('affirm'))).toEqual([early, early])
    const run = atTrim().happen(call('start')).command('negative')
    expect(debriefOf(PACK, run.events).outOfOrder).toMatchObject([{ list: 'Start list', wasRun: true }])
  })

  it('of a value that was told on request, with when', () => {
    const run = atTrim().command('confirm', 'trim').answer('correct')
    expect(told(atTrim().command('confirm', 'trim'))).toEqual([])
    expect(told(run)).toEqual([['given', 'takeoff trim', 4_000, 'Its value was shown or told.']])
  })

  it('of an item left open and of a list not completed once the run is over; a list that was not reached is none', () => {
    const run = atTrim().answer('correct').answer('correct').command('leaveOpen')
    expect(told(run)).toEqual([['leftOut', 'windows', undefined, 'Left open.']])
    run.happen({ type: 'ended' })
    expect(told(run)).toEqual([
      ['notCompleted', 'Load list', undefined, 'Open at the end: windows.'],
      ['leftOut', 'windows', undefined, 'Left open.'],
    ])
  })

  it('is told by the command line, kind by kind with its count', () => {
    const run = atTrim().answer('incomplete', { because: 'valueless' }).answer('incomplete', { because: 'valueless' })
    const lines = debriefLines(debriefOf(PACK, run.events))
    expect(lines).toContain('  Without the value: 2')
    expect(lines).toContain('    0:04 takeoff trim ("words"): Said to be done. The value is the answer.')
  })
})

describe('answers sooner than a look', () => {
  const TIMES = {
    value: { count: 40, mean: Math.log(1_300), squares: 39 * 0.2 ** 2 },
    state: NO_TIMES,
    word: { count: 40, mean: Math.log(400), squares: 39 * 0.2 ** 2 },
  }
  const answered = (beganAt: number) => {
    const run = atTrim({ lookTimes: TIMES })
    return run.happen({
      ...{ type: 'answered', item: 'load.trim', expected: {}, challengeRevision: 1, revision: 1 },
      evidence: { by: 'voice', text: 'five point two up', beganAt, endedAt: beganAt + 900, saidUntil: 4_000 },
      judgement: { verdict: 'correct', parts: [] },
    })
  }

  it('are told with their likelihood, and may be among the three things', () => {
    const { deviations, foremost } = debriefOf(PACK, answered(4_350).events)
    expect(deviations).toMatchObject([{ kind: 'tooQuick', where: 'takeoff trim', said: 'five point two up' }])
    expect(deviations[0]?.sentence).toBe(
      'Answered 0.35 s after the challenge: more than 1000 times likelier without a look than with one.',
    )
    expect(foremost.map(({ kind }) => kind)).toContain('tooQuick')
  })

  it('are none where the time is long enough', () => {
    const { deviations, looks } = debriefOf(PACK, answered(5_300).events)
    expect(deviations).toEqual([])
    expect(looks.answers).toMatchObject([{ ms: 1_300, isQuick: false }])
  })
})

describe('parts of a debrief', () => {
  it('with a broken caution and a list out of order', () => {
    const tooEarly = [{ t: 9_000, text: 'remove the chocks', what: 'chocks', caution: 'tow bar before the chocks' }]
    const outOfOrder = [{ t: 4_000, list: 'start', before: 'load list' }]
    expect(brief({ tooEarly, outOfOrder })).toEqual([
      ['sequence', 4_000, 'Called before its turn.', 'load list was due first.'],
      ['sequence', 9_000, 'Called done before its time.', 'First: tow bar before the chocks.'],
    ])
  })

  it('with a list that new figures opened again, and whether it was ever run', () => {
    const item = { id: 'v1', challenge: 'V one', status: 'reopened', readings: [], given: false, misses: 0 } as const
    const rest = { sayAgains: 0, reopened: 1, look: [], looks: 0 }
    const list = { id: 'load', name: 'load', complete: false, revoked: true, onPreliminary: false, called: true }
    const sentence = (by: { readonly by?: 'typed' }) =>
      brief({ lists: [{ ...list, items: [{ ...item, ...rest, tries: [], ...by }] }] })[0]?.[2]
    expect(sentence({ by: 'typed' })).toBe('It was complete, and not run again after the figures changed.')
    expect(sentence({})).toBe('It counted as complete, and was not asked for again after the figures changed.')
  })

  it('with a controller who erred and was not corrected; not while there is time to object', () => {
    const exchanges = [exchange(turn({ slip: { kind: 'saysAnother', noticed: false } }))]
    expect(brief({ exchanges }).map(([kind]) => kind)).toEqual(['hearBack'])
    expect(brief({ exchanges, isOver: false })).toEqual([])
    expect(brief({ exchanges: [exchange(turn({ slip: { kind: 'saysAnother', noticed: true } }))] })).toEqual([])
  })

  it('with calls of a start too soon, late and missing', () => {
    const call = { outside: [], late: false, unheard: false }
    const start: DebriefWatch = {
      ...{ id: 'right', name: 'right engine start', attempt: 1, t: 60_000, status: 'done' },
      calls: [
        { ...call, label: 'light off', afterMs: 9_000, earlyAfterMs: 2_000 },
        { ...call, label: 'oil pressure', afterMs: 31_000, late: true },
        { ...call, label: 'stable', unheard: true },
      ],
    }
    expect(brief({ watches: [start] }).map(([kind, at, sentence]) => [kind, at, sentence])).toEqual([
      ['sequence', 62_000, 'Light off: called after 2.0 s, sooner than it can be seen.'],
      ['sequence', 91_000, 'Oil pressure: late.'],
      ['leftOut', undefined, 'Stable: no call at its limit.'],
    ])
  })

  it('with values out of limits and values that do not fit', () => {
    const call = {
      label: 'peak temperature',
      afterMs: 5_000,
      outside: [{ value: 790, afterMs: 5_000 }],
      late: false,
      unheard: false,
    }
    const start: DebriefWatch = {
      ...{ id: 'right', name: 'right engine start', attempt: 1, t: 60_000, status: 'done' },
      calls: [call, { ...call, outside: [], unfit: [12] }],
    }
    expect(brief({ watches: [start] }).map(([kind, at, sentence]) => [kind, at, sentence])).toEqual([
      ['wrong', 65_000, 'Peak temperature: out of limits: 790.'],
      ['wrong', 65_000, 'Peak temperature: does not fit the readings: 12.'],
    ])
  })

  it('with a topic briefed with a wrong value, and a read-back that was wrong', () => {
    const topics = [
      {
        label: 'flap',
        state: 'ok' as const,
        leftOut: false,
        wrong: [{ t: 1_000, said: 'flap four', right: ['flap: 12'] }],
      },
    ]
    const briefings = [{ ...BRIEFING, done: true, topics }]
    const said = {
      seq: 1,
      t: 3_000,
      text: 'squawk one',
      by: 'typed',
      challengeRevision: 1,
      revision: 1,
      part: 'readBack',
    } as const
    const tries = [{ ...said, judgement: { verdict: 'negative', parts: [] } as const }]
    expect(brief({ briefings, exchanges: [exchange(turn({ tries }))] })).toEqual([
      ['wrong', 1_000, 'Flap was briefed with a wrong value.', 'Flap: 12 was right.'],
      ['wrong', 3_000, 'Not what was right.', 'It was not right.'],
    ])
  })

  it('with some seconds that were lacking', () => {
    const tooEarly = [
      { t: 9_000, text: 'starting left', what: 'left engine start', caution: 'let it rest', waitMs: 4_000 },
    ]
    expect(brief({ tooEarly })).toEqual([['sequence', 9_000, 'Called done 4.0 s too early.', 'First: let it rest.']])
  })

  it('with an exchange and a briefing left out, or left open, once a list after them was called; each once', () => {
    const topics = (...states: ('ok' | 'open')[]) =>
      states.map((state, at) => ({ label: `topic ${at}`, state, wrong: [], leftOut: false }))
    const briefing = { ...BRIEFING, topics: topics('open', 'open') }
    const early = { t: 9_000, list: 'start list', before: 'departure briefing' }
    const open = { t: 9_000, id: 'b', text: 'Departure briefing not ended before the start list' }
    const talk = (isDone: boolean, passed = true) => ({ ...exchange(turn({ done: isDone })), done: false, passed })
    const kinds = (from: Partial<DeviationsFrom>) => brief(from).map(([kind, , sentence]) => [kind, sentence])
    const notBegun = ['notBegun', 'It was left out.']
    expect(kinds({ briefings: [briefing], outOfOrder: [early], notEnded: [open] })).toEqual([notBegun])
    expect(kinds({ briefings: [{ ...briefing, topics: topics('ok', 'open') }], notEnded: [open] })).toEqual([
      ['notCompleted', 'Left open: topic 1.'],
    ])
    expect(kinds({ briefings: [{ ...briefing, topics: topics('ok', 'ok') }], notEnded: [open] })).toEqual([
      ['notCompleted', 'Its end was not called.'],
    ])
    expect(kinds({ exchanges: [talk(false)] })).toEqual([notBegun])
    expect(kinds({ exchanges: [talk(false, false)], briefings: [{ ...briefing, passed: false }] })).toEqual([])
    const begunTalk = { ...talk(false), turns: [turn({}), turn({ id: 'readBack', label: 'read-back', done: false })] }
    expect(kinds({ exchanges: [begunTalk] })).toEqual([['notCompleted', 'Left open: read-back.']])
  })

  it('with a topic left out; words of a station that were shown are none', () => {
    const topics = [{ label: 'rejected takeoff', state: 'ok' as const, wrong: [], leftOut: true }]
    const briefings = [{ ...BRIEFING, done: true, topics }]
    const exchanges = [exchange(turn({ shown: true, tries: [] }))]
    expect(brief({ briefings, exchanges }).map((one) => one.slice(0, 3))).toEqual([
      ['leftOut', undefined, 'Rejected takeoff was left out at first.'],
    ])
  })
})
