/** What a run is to be remembered by, as rules written down beforehand choose it. */

import { beforeAll, describe, expect, it } from 'vitest'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import type { Judgement, Part } from '../../../../src/kernel/response/model.ts'
import type { DebriefItem, DebriefList } from '../../../../src/kernel/run/debrief/debriefList.ts'
import type { DebriefExchange, DebriefTurn } from '../../../../src/kernel/run/debrief/debriefTalk.ts'
import type { DebriefTransmission, DebriefTry } from '../../../../src/kernel/run/debrief/debriefTry.ts'
import type { DebriefCall, DebriefWatch } from '../../../../src/kernel/run/debrief/debriefWatch.ts'
import { foremostIn, type Told, wentWellIn } from '../../../../src/kernel/run/debrief/foremost.ts'
import { packAt } from '../../figures/marram.ts'

let pack: Pack
beforeAll(async () => {
  pack = await packAt('checklists/marram')
})

const run = (parts: Partial<Told>): Told =>
  ({
    ...{
      tooEarly: [],
      watches: [],
      lists: [],
      exchanges: [],
      briefings: [],
      catches: [],
      outOfOrder: [],
      notEnded: [],
      deviations: [],
    },
    ...parts,
  }) as unknown as Told
const kinds = (parts: Partial<Told>) => foremostIn(pack, run(parts)).map(({ kind }) => kind)

const CORRECT: Judgement = { verdict: 'correct', parts: [] }
const wrong = (name: string, read: number, expected: number): Part => ({
  ...{ name, kind: 'figure', state: 'wrong', heard: String(read), read, expected },
})
const said = (t: number, text: string, judgement: Judgement): DebriefTry => ({
  ...{ seq: 1, t, text, by: 'voice', judgement, challengeRevision: 1, revision: 1 },
})
const trim = (...tries: DebriefTry[]): DebriefItem => item('takeoff trim', ...tries)
const item = (challenge: string, ...tries: DebriefTry[]): DebriefItem => ({
  ...{
    id: challenge,
    challenge,
    status: 'done',
    by: 'voice',
    given: false,
    readings: [],
    tries,
    sayAgains: 0,
    reopened: 0,
  },
  ...{ misses: tries.filter(({ judgement }) => judgement.verdict !== 'correct').length, look: [], looks: 0 },
})
const list = (...items: DebriefItem[]): DebriefList => ({
  ...{ id: 'list', name: 'load figures', complete: true, revoked: false, onPreliminary: false, called: true, items },
})
const turn = (label: string, more: Partial<DebriefTurn>, ...tries: DebriefTry[]): DebriefTurn => ({
  ...{
    id: label,
    label,
    done: true,
    sayAgains: 0,
    asked: 0,
    unsigned: 0,
    acknowledged: 0,
    shown: false,
    byKey: false,
    waived: [],
  },
  misses: tries.filter(({ judgement }) => judgement.verdict !== 'correct').length,
  tries: tries.map((one): DebriefTransmission => ({ ...one, part: 'readBack' })),
  ...more,
})
const exchange = (...turns: DebriefTurn[]): DebriefExchange => ({
  ...{ id: 'clearance', name: 'clearance', station: 'Delivery', role: 'controller', done: true, passed: true },
  turns,
})
const read = (value: number) => ({ value, afterMs: 5_000 })
const call = (more: Partial<DebriefCall>): DebriefCall => ({
  ...{ label: 'fuel on', afterMs: 5_000, outside: [], late: false, unheard: false, ...more },
})
const start = (...calls: DebriefCall[]): DebriefWatch => ({
  ...{ id: 'right', name: 'right engine start', attempt: 1, t: 60_000, status: 'done', calls },
})

const TOO_EARLY = { t: 9_000, text: 'remove the chocks', what: 'chocks', caution: 'tow bar before the chocks' }
const STALE: Judgement = {
  ...{ verdict: 'negative', because: 'value', parts: [wrong('takeoffTrim', 5.6, 5.2)] },
  causes: [{ cause: 'earlierRevision', detail: 'takeoff trim of the preliminary figures' }],
}
const WRONG: Judgement = { verdict: 'negative', because: 'value', parts: [wrong('v1', 129, 128)] }
const OPEN: Judgement = {
  ...{ verdict: 'negative', because: 'state' },
  parts: [{ name: 'on', kind: 'word', state: 'wrong', read: 'off', expected: 'on' }],
}
const VALUELESS: Judgement = { verdict: 'incomplete', because: 'valueless', parts: [] }
const LACKING: Judgement = {
  ...{ verdict: 'incomplete', because: 'missing' },
  parts: [{ name: 'transponder', kind: 'figure', state: 'missing' }],
}

describe('what is to be remembered of a run', () => {
  it('is nothing where nothing was missed', () => {
    expect(kinds({ lists: [list(trim(said(1, 'five two up', CORRECT)))] })).toEqual([])
  })

  it('is whatever else was a deviation where there is nothing graver, but no unclear likelihood', () => {
    const open = { where: 'windows', sentence: 'Left open.', why: 'Nobody came back to it.' }
    const quick = { kind: 'tooQuick', where: 'trim', sentence: 'Answered.', why: 'Look.', ratio: 2 } as const
    const deviations = [{ kind: 'leftOut' as const, ...open }, quick]
    expect(foremostIn(pack, run({ deviations }))).toEqual([
      { kind: 'other', about: 'windows', why: 'Left open. Nobody came back to it.', more: 0 },
    ])
    expect(kinds({ deviations, tooEarly: [TOO_EARLY] })).toEqual(['caution'])
    expect(kinds({ deviations: [quick] })).toEqual([])
  })

  it('begins with what can hurt somebody', () => {
    const lists = [list(trim(said(1, 'five six up', STALE)))]
    const watches = [start(call({ outside: [read(20)] }))]
    expect(kinds({ lists, watches, tooEarly: [TOO_EARLY] })).toEqual(['limit', 'critical', 'caution'])
  })

  it('is three things at most, each of another kind', () => {
    const lists = [list(trim(said(1, 'five six up', STALE)), item('V one', said(2, 'one two niner', WRONG)))]
    const exchanges = [exchange(turn('departure', {}, said(3, 'squawk', { ...WRONG, parts: [] })))]
    const briefings = [
      {
        id: 'b',
        name: 'briefing',
        done: true,
        passed: true,
        refused: [],
        topics: [{ label: 'flap', state: 'ok', wrong: [], leftOut: true }],
      },
    ] as const
    expect(kinds({ lists, exchanges, briefings })).toEqual(['critical', 'readBack', 'wrongValue'])
  })

  it('takes a wrong altimeter setting or code for more than another value, whenever it was said', () => {
    const value = (name: string): Judgement => ({ ...WRONG, parts: [wrong(name, 1, 2)] })
    const fuel = item('fuel on board', said(1, 'one', value('blockFuel')))
    for (const name of ['altimeter', 'transponder']) {
      const lists = [list(fuel, item(name, said(2, 'one', value(name))))]
      expect(foremostIn(pack, run({ lists }))[0]).toMatchObject({ kind: 'wrongValue', about: name, more: 1 })
    }
  })

  it('takes a few seconds and a call before another for less than a wrong value', () => {
    const wait = { ...TOO_EARLY, waitMs: 4_000 }
    const order = { ...TOO_EARLY, isOrder: true as const }
    const lists = [list(item('V one', said(2, 'one two niner', WRONG)))]
    expect(kinds({ tooEarly: [wait, order], lists })).toEqual(['wrongValue', 'outOfOrder', 'wait'])
    expect(foremostIn(pack, run({ tooEarly: [wait] }))[0]?.why).toBe('4.0 s too early: tow bar before the chocks.')
  })

  it('begins with a runway: crossed where to hold short, or another one to take off from', () => {
    const [across, other] = (['hold', 'runway'] as const).map(
      (name): Judgement => ({
        ...{ verdict: 'negative', because: name === 'hold' ? 'state' : 'value' },
        parts: [{ name, kind: name === 'hold' ? 'word' : 'figure', state: 'wrong', read: 'x', expected: 'hold short' }],
      }),
    )
    const told = (id: string, judgement: Judgement | undefined) => ({
      exchanges: [exchange({ ...turn('read-back', {}, said(3, 'cross', judgement ?? CORRECT)), id })],
      watches: [start(call({ outside: [read(790)] }))],
    })
    expect(kinds(told('taxi.route', across))).toEqual(['runway', 'limit'])
    expect(kinds(told('taxi.route', other))).toEqual(['runway', 'limit'])
    expect(kinds(told('clearance.departure', other))).toEqual(['limit', 'readBack'])
  })

  it('takes of several limits the one at which the pack stops the start, and too much before too little', () => {
    const low = call({ label: 'stable', outside: [read(50)], limits: { min: 57, max: 61 } })
    const fuel = call({ outside: [read(20)], limits: { min: 23 }, stops: true })
    const peak = call({
      label: 'peak temperature',
      afterMs: 20_000,
      outside: [{ value: 790, afterMs: 20_000 }],
      limits: { max: 765 },
      stops: true,
    })
    expect(foremostIn(pack, run({ watches: [start(low, fuel, peak)] }))).toMatchObject([
      { kind: 'limit', why: 'Peak temperature: out of limits: 790; at most 765 is within limits.', more: 2 },
    ])
  })

  it('takes a critical item, and an old value of a critical figure, for more than a caution; another old value for less', () => {
    const tooEarly = [TOO_EARLY]
    const critical = { ...item('V one', said(2, 'one two niner', WRONG)), id: 'loadFigures.v1' }
    expect(kinds({ lists: [list(critical)], tooEarly })).toEqual(['critical', 'caution'])
    expect(kinds({ lists: [list(trim(said(1, 'five six up', STALE)))], tooEarly })).toEqual(['critical', 'caution'])
    const old: Judgement = { ...STALE, parts: [wrong('blockFuel', 1, 2)] }
    expect(kinds({ lists: [list(item('fuel', said(1, 'one', old)))], tooEarly })).toEqual(['caution', 'stale'])
    const left = { item: 'loadFigures.trim', challenge: 'takeoff trim', changedAt: 5, by: 'nobody' } as const
    expect(kinds({ catches: [left], tooEarly })).toEqual(['critical', 'caution'])
  })

  it('takes controls that move the wrong way for more than a caution', () => {
    const check = { ...exchange(turn('full left', {}, said(3, 'left aileron down', OPEN))), role: 'otherseat' as const }
    expect(kinds({ exchanges: [check], tooEarly: [TOO_EARLY] })).toEqual(['controls', 'caution'])
  })

  it('holds a briefing that nobody began before a check and a critical item, and one left open behind them', () => {
    const undone = { id: 'e', name: 'engine failure briefing', done: false, passed: true, topics: [], refused: [] }
    const check = { ...exchange(turn('full left', { done: false })), name: 'control check', role: 'otherseat' as const }
    const deviation = (kind: 'notBegun' | 'notCompleted', where: string) => ({
      kind,
      where,
      sentence: 'Out.',
      why: 'So.',
    })
    const parts = {
      lists: [list(trim(said(1, 'five six up', STALE)))],
      exchanges: [{ ...check, done: false }],
      briefings: [undone],
    }
    const both = [deviation('notBegun', 'control check'), deviation('notBegun', 'engine failure briefing')]
    const [first, ...rest] = foremostIn(pack, run({ ...parts, deviations: both }))
    expect(first).toMatchObject({ kind: 'crewNotDone', about: 'engine failure briefing', more: 1 })
    expect(rest.map(({ kind }) => kind)).toEqual(['critical'])
    const open = both.map(({ where }) => deviation('notCompleted', where))
    expect(kinds({ ...parts, deviations: open })).toEqual(['critical', 'talkNotDone'])
  })

  it('counts what else there was of a kind, and tells the first', () => {
    const lists = [list(item('V one', said(8, 'one two niner', WRONG)), item('V two', said(4, 'one two niner', WRONG)))]
    expect(foremostIn(pack, run({ lists }))).toEqual([
      { kind: 'wrongValue', about: 'V two', t: 4, said: 'one two niner', why: 'V one: 128 kt was right.', more: 1 },
    ])
  })

  it('says of a stale value what was right and which edition it is of', () => {
    const [first] = foremostIn(pack, run({ lists: [list(trim(said(1, 'five six up', STALE)))] }))
    expect(first?.why).toBe('Takeoff trim: 5.2 up was right; it looks like takeoff trim of the preliminary figures.')
  })

  it('says of a value with limits which are right, and of a state how it is said', () => {
    const load = { ...pack, figures: { ...pack.figures, declarations: { ...pack.figures.declarations } } }
    const v1 = pack.figures.declarations.v1
    if (!v1) throw new Error('no V one')
    load.figures.declarations.v1 = { ...v1, accept: { min: 120, max: 130 } }
    const lists = [list(item('V one', said(1, 'one three niner', WRONG)))]
    expect(foremostIn(load, run({ lists }))[0]?.why).toBe('V one: 120 kt to 130 kt was right.')
    const beacon = [list(item('beacon', said(1, 'beacon off', OPEN)))]
    expect(foremostIn(pack, run({ lists: beacon }))[0]?.why).toBe('“on” was right.')
  })

  it('tells a state, a bare "checked", a value shown and a key apart', () => {
    expect(kinds({ lists: [list(item('beacon', said(1, 'beacon off', OPEN)))] })).toEqual(['wrongState'])
    expect(kinds({ lists: [list(trim(said(1, 'set', VALUELESS)))] })).toEqual(['valueless'])
    expect(kinds({ lists: [list({ ...trim(), given: true })] })).toEqual(['given'])
    expect(kinds({ lists: [list({ ...trim(), by: 'key' })] })).toEqual(['byKey'])
  })

  it('leaves out a read-back in two breaths, and names what was lost for good', () => {
    const rest = said(1_500, 'squawk two six one three', CORRECT)
    const asked = said(14_000, 'squawk two six one three', CORRECT)
    const first = said(3, 'cleared to willow lake', LACKING)
    expect(kinds({ exchanges: [exchange(turn('departure', {}, first, rest))] })).toEqual([])
    expect(kinds({ exchanges: [exchange(turn('departure', {}, first, asked))] })).toEqual(['readBack'])
    const [lost] = foremostIn(pack, run({ exchanges: [exchange(turn('departure', {}, first))] }))
    expect(lost).toMatchObject({ kind: 'readBack', about: 'departure', why: 'Transponder was left out.' })
  })

  it('holds a slip that nobody noticed, and not one that was', () => {
    const slip = (noticed: boolean) => ({ slip: { kind: 'acceptsWrong' as const, noticed } })
    expect(kinds({ exchanges: [exchange(turn('departure', slip(false)))] })).toEqual(['slip'])
    expect(kinds({ exchanges: [exchange(turn('departure', slip(true)))] })).toEqual([])
  })

  it('holds a list that was passed over, and none that the run did not come to', () => {
    const notCalled = { ...list(), name: 'before start', called: false, complete: false }
    expect(kinds({ lists: [notCalled, list()] })).toEqual(['listNotRun'])
    expect(kinds({ lists: [list(), notCalled] })).toEqual([])
  })

  it('holds what new figures left stale and the pilot did not notice', () => {
    const change = { item: 'fuel', challenge: 'fuel', changedAt: 5 } as const
    expect(kinds({ catches: [{ ...change, by: 'nobody' }] })).toEqual(['stale'])
    expect(kinds({ catches: [{ ...change, by: 'pilot', t: 6 }] })).toEqual([])
  })

  it('takes sequence and late calls for less than a wrong value', () => {
    const outOfOrder = [{ t: 1, list: 'before start', before: 'load figures' }]
    const watches = [start(call({ late: true }))]
    const lists = [list(item('V one', said(2, 'one two niner', WRONG)))]
    expect(kinds({ outOfOrder, watches, lists })).toEqual(['wrongValue', 'outOfOrder', 'call'])
  })
})

describe('what went well', () => {
  it('is told in one sentence, of what was tried', () => {
    const lists = [
      list(trim(said(1, 'five two up', CORRECT)), item('V one', said(2, 'one two niner', WRONG)), item('V two')),
    ]
    const exchanges = [exchange(turn('departure', {}, said(3, 'cleared', CORRECT)))]
    const watches = [start(call({})), start(call({ late: true }))]
    expect(wentWellIn(run({ lists, exchanges, watches }))).toBe(
      'Right the first time: 1 of 2 items, 1 of 1 calls and read-backs, 1 of 2 engine starts.',
    )
  })

  it('is not made up', () => {
    expect(wentWellIn(run({}))).toBe('')
  })
})

describe('faults of the partner', () => {
  const fault = {
    t: 5,
    kind: 'wrongValue',
    grade: 'hard',
    told: 'It was wrong.',
    of: 'flap',
    about: 'flap',
  } as const

  it('weigh like a stale value where a value was let go, and less where it was none', () => {
    const faults = [
      { ...fault, grave: false, caught: false, kind: 'skipped' as const },
      { ...fault, grave: true, caught: false },
    ]
    const outOfOrder = [{ t: 1, list: 'X', before: 'Y' }]
    expect(kinds({ partner: { faults }, outOfOrder })).toEqual(['letGo', 'unnoticed', 'outOfOrder'])
    expect(kinds({ partner: { faults: faults.map((one) => ({ ...one, caught: true })) } })).toEqual([])
  })
})
