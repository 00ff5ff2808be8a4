/** What the debrief says of departures that were flown badly, by typing. */

import { describe, expect, it } from 'vitest'
import { viewOf } from '../../src/app/view/view.ts'
import { debriefLines } from '../../src/cli/debriefText.ts'
import { missesIn } from '../../src/kernel/run/core/again.ts'
import { debriefOf, headlineOf } from '../../src/kernel/run/debrief/debrief.ts'
import { momentsOf } from '../../src/kernel/run/debrief/moments.ts'
import { marramLines } from '../flight/lines.ts'
import { flown, flownFrom, upTo } from './flown.ts'
import { rig } from './rig.ts'

const JET = marramLines('icao', 'push')
/** Up to the flap of the briefing. */
const TO_FLAP = upTo(JET, 'first level five thousand')
const V1_WRONG = 'V one one two niner, rotate one three four'
const ENDED = 'briefing complete'
/** What is missing is told once more before the list. */
const LEFT = ['before start list', 'negative', 'before start list', 'negative'] as const

describe('a briefing that was called complete with topics open, and left', () => {
  const said = [V1_WRONG, 'engine failure', ENDED, 'flap twelve', ENDED, 'rejected takeoff', ENDED] as const
  const flight = flown('marram', TO_FLAP, ...said, ...LEFT, 'brake set')

  it('is told as that, not as one whose end was not called', async () => {
    const { debrief, answers } = await flight
    expect(answers[2]).toBe('Nothing on flap and rejected takeoff yet. Takeoff speeds, V one?')
    const told = debrief.deviations.filter(({ where }) => where === 'departure briefing')
    expect(told.map(({ sentence, why }) => `${sentence} ${why}`)).toEqual([
      'Takeoff speeds was briefed with a wrong value, and not put right. V one: 128 kt was right.',
      'Said wrong, and not put right: takeoff speeds. Called complete 3 times, and refused. What nobody briefs, nobody expects.',
      'Flap was left out at first. It came when it was asked for.',
      'Rejected takeoff was left out at first. It came when it was asked for.',
    ])
  })

  it('has its wrong speed among the first three things', async () => {
    const { debrief } = await flight
    expect(debrief.foremost[0]).toMatchObject({
      ...{ kind: 'wrongValue', about: 'departure briefing, takeoff speeds', said: V1_WRONG },
      why: 'V one: 128 kt was right. It was not put right.',
    })
  })

  it('counts each wrong value and each end that was refused', async () => {
    const { debrief } = await flight
    expect(debrief.totals).toMatchObject({ missed: 4, briefingMisses: 4, topicsLeftOut: 2 })
    expect(debriefLines(debrief)).toContain('4 missed: 4 in briefings.')
    expect(debriefLines(debrief)).toContain(
      'departure briefing: not done, 4 missed, called complete 3 times, and refused',
    )
  })

  it('stands on the timeline, with each of them', async () => {
    const { debrief } = await flight
    const told = debrief.timeline.filter((one) => one.told.startsWith('Departure briefing: '))
    expect(told.map((one) => [one.label, one.went])).toEqual([
      ['departure briefing', 'missed'],
      ['takeoff speeds', 'missed'],
      ...[1, 2, 3].map(() => ['called complete', 'missed']),
    ])
    expect(told[2]?.told).toBe('Departure briefing: called complete with flap, takeoff speeds, rejected takeoff open.')
    expect(told.some((one) => one.told.includes('128'))).toBe(false)
  })

  it('keeps what is right to itself while the run goes on', async () => {
    const { pack, events } = await flight
    const { deviations, foremost, briefings } = debriefOf(pack, events, true)
    expect(JSON.stringify({ deviations, foremost, briefings })).not.toContain('128 kt')
  })
})

describe('a topic that was left out', () => {
  const whyOf = async (...then: readonly string[]) => {
    const { debrief } = await flown(
      'marram',
      TO_FLAP,
      'engine failure',
      ENDED,
      ...then,
      'before start list',
      'negative',
    )
    return debrief.deviations.find(({ sentence }) => sentence.startsWith('Takeoff speeds was left out'))?.why
  }
  it('and came wrong, or not at all, is told as that', async () => {
    expect(await whyOf('V one one two eight, rotate one three four')).toBe('It came when it was asked for.')
    expect(await whyOf(V1_WRONG)).toBe('It came when it was asked for, and wrong.')
    expect(await whyOf()).toBe('It was asked for, and did not come.')
  })
})

describe('what was missed', () => {
  /** Wrong, half, too early, refused: at items, in calls, in a briefing, in a start. */
  const bad = [
    ...['load figures list', 'two four six two one', 'done', ...upTo(JET, 'clear to start').slice(1)],
    ...['signs on', 'starting the left engine', 'done', 'starting the right engine', 'rotation seen', 'affirm', 20],
    ...['one two percent, fuel on', 1, 'two four percent', 'light up', 'fuel off', 'continue'],
  ]
  const withWrong = bad.flatMap((line) =>
    line === 'flap twelve'
      ? ['flap fifteen', ENDED, line]
      : line === 'runway two four'
        ? ['runway two five', line]
        : [line],
  )

  it('is one count, whose parts stand with the lists, the exchanges, the briefings and the starts', async () => {
    const { debrief, pack, events } = await flown('marram', withWrong)
    const { totals, lists, exchanges, watches } = debrief
    const sum = (all: readonly number[]) => all.reduce((one, other) => one + other, 0)
    const { missed, misses, radioMisses, briefingMisses, startDeviations, early, letGo } = totals
    expect(missed).toBe(misses + radioMisses + briefingMisses + startDeviations + early + letGo)
    expect([misses, radioMisses, briefingMisses, startDeviations, early].map((count) => count > 0)).toEqual(
      Array.from({ length: 5 }, () => true),
    )
    expect(sum(lists.flatMap(({ items }) => items).map((item) => item.misses))).toBe(misses)
    expect(sum(exchanges.flatMap(({ turns }) => turns).map((turn) => turn.misses))).toBe(radioMisses)
    expect(watches.length).toBeGreaterThan(0)
    // A moment that is done again is counted as it goes, and to the same number.
    const { own } = momentsOf(pack, events)
    expect(sum(own.map(({ before, after, event }) => missesIn(before, after, event)))).toBe(missed)
  })
})

describe('an exchange that was said wrong and left', () => {
  it('was not left out as well', async () => {
    const request = 'heron hill ground, saltmarsh four two one, request push and start'
    const then = ['push and start approved facing west', 'engines running list', 'negative'] as const
    const { debrief } = await flownFrom('startUp', 'marram', [request], ...then)
    const told = debrief.deviations.filter(({ where }) => where.startsWith('push clearance'))
    expect(told.map(({ kind, sentence }) => [kind, sentence])).toEqual([
      ['wrong', 'Not what was right.'],
      ['notCompleted', 'Left open: push clearance.'],
    ])
  })
})

describe('a run begun in the middle', () => {
  it('tells nothing as left out that was done before it and is open again', async () => {
    const start = JET.slice(
      JET.indexOf('starting the left engine'),
      JET.indexOf('engine stable five niner percent') + 1,
    )
    const then = ['push and start list', 'negative', 'area clear', 'both engines stable'] as const
    const { debrief, state } = await flownFrom('leftStart', 'marram', [...start, 'no push'], ...then)
    expect(state.turns['startUp.clearance']?.status).not.toBe('done')
    expect(headlineOf(debrief)).not.toContain('push clearance')
    expect(debrief.deviations.filter(({ where }) => where === 'push clearance')).toEqual([])
    expect(debrief.exchanges.map(({ name }) => name)).not.toContain('push clearance')
  })
})

describe('an engine start', () => {
  const RIGHT = [...upTo(JET, 'clear to start'), 'done', ...upTo(JET, 'engine stable five eight percent').slice(-13)]

  it('may follow another when the starter has rested since it was out', async () => {
    const { answers, state, debrief } = await flown(
      'marram',
      RIGHT,
      'starting the left engine',
      3,
      'starting the left engine',
    )
    expect(answers[0]).toMatch(/^Not yet, let the starter rest, .* seconds\.$/)
    expect(state.watches.leftStart?.status).toBe('running')
    const early = debrief.deviations.find(({ where }) => where === 'left engine start')
    expect(early).toMatchObject({ kind: 'sequence', sentence: expect.stringMatching(/^Begun .* s too early\.$/) })
  })

  it('has a call made before the one that must come first, and denies no call that came in time', async () => {
    const begun = [...upTo(JET, 'clear to start'), 'done', 'starting the right engine', 1, 'rotation seen', 4]
    const { debrief, answers } = await flown('marram', begun, 'light up', 'negative', 'fuel on at two four percent')
    expect(answers[1]).toBe('No fuel on. Fuel off, or call it.')
    const sentences = debrief.deviations.map(({ sentence }) => sentence)
    expect(sentences).toContain('Light up: called before fuel on, which had not been seen.')
    expect(sentences.join(' ')).not.toContain('no call at its limit')
  })

  it('has no call too soon behind one that was called late', async () => {
    const begun = [...upTo(JET, 'clear to start'), 'done', 'starting the right engine', 12, 'rotation seen']
    const { debrief } = await flown('marram', begun, 'two four percent, fuel on')
    const calls = debrief.watches[0]?.calls
    expect(calls?.[0]).toMatchObject({ label: 'rotation', late: true })
    expect(calls?.[1]).toMatchObject({ label: 'fuel on', value: 24 })
    expect(calls?.[1]?.earlyAfterMs).toBeUndefined()
  })
})

describe('an element of a read-back that was left out', () => {
  it('is named once', async () => {
    const request = 'heron hill ground, saltmarsh four two one, request taxi'
    const half = [
      'taxi to holding point charlie three, runway two four',
      'via bravo echo charlie',
      'q n h one zero one zero',
    ]
    const { debrief } = await flownFrom('taxi', 'marram', [request, ...half, 8, 'hold short of runway three three'])
    const [told] = debrief.deviations.filter(({ kind }) => kind === 'leftOut')
    expect(told?.sentence).toBe('Left out: hold short.')
    expect(debrief.foremost[0]?.why).toBe('Hold short was left out.')
  })
})

describe('revisions', () => {
  it('are counted as they were accepted; what stations give has no number', async () => {
    const on = await rig({ talk: 'tests/cli/answers/talk.yaml' })
    const lines = upTo(JET, 'runway two four')
    for (const text of [lines[0], 'two four six two one', ...lines.slice(1)]) await on.hear(String(text))
    expect(on.state().revision).toBe(2)
    expect(viewOf(on.pack, on.state()).figures).toBe('final figures')
    await on.revise('amended')
    const debrief = debriefOf(on.pack, on.run.events())
    expect(debrief.revisions.map(({ revision, givenBy }) => [revision, givenBy === undefined])).toEqual([
      [1, true],
      [1, false],
      [2, true],
    ])
    expect(debrief.lists[0]?.items[0]?.tries[0]).toMatchObject({ challengeRevision: 1, revision: 1 })
    expect(debrief.timeline.some(({ told }) => told.includes('accepted as revision 2'))).toBe(true)
    expect(on.store.getState().revisions.at(-1)).toMatchObject({ revision: 3, accepted: 2 })
    expect(viewOf(on.pack, on.state()).figures).toMatch(/figures, revision 2$/)
    expect(debriefLines(debrief).some((line) => / figures, revision 2: /.test(line))).toBe(true)
  })
})

describe('what was said', () => {
  it('is told with the number of the event that holds it, in what to take away and at every try', async () => {
    const flights = await Promise.all([
      flown('marram', TO_FLAP, V1_WRONG, ENDED, ...LEFT, 'brake released'),
      flown('marram', [], 'load figures list', 'two four three six zero', 'four point eight up', 'one two eight'),
    ])
    let count = 0
    for (const { debrief, events } of flights) {
      const textAt = (seq: number | undefined) => {
        const event = events.find((one) => one.seq === seq)
        return event && 'evidence' in event ? event.evidence.text : undefined
      }
      for (const { said, saidIn } of debrief.foremost) {
        expect(textAt(saidIn)).toBe(said)
        if (said !== undefined) count++
      }
      const items = debrief.lists.flatMap((list) => list.items)
      const turns = debrief.exchanges.flatMap((exchange) => exchange.turns)
      for (const { seq, text } of [...items, ...turns].flatMap(({ tries }) => tries)) expect(textAt(seq)).toBe(text)
    }
    expect(count).toBeGreaterThan(2)
  })
})
