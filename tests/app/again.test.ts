/** That moment again: a run of its own that begins with the events of another one. */

import { describe, expect, it } from 'vitest'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { eventsAgain } from '../../src/app/run/beginAgain.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { readEvents } from '../../src/kernel/run/core/readLog.ts'
import { fold } from '../../src/kernel/run/core/step.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { cuesOf } from '../../src/kernel/run/debrief/replay.ts'
import type { Fault } from '../../src/kernel/run/partner/model.ts'
import { marramLines } from '../flight/lines.ts'
import { begun, call, PACK, type TestRun, testRun } from '../kernel/run/fixture.ts'
import { beforeEngine, began, called, STARTING } from '../kernel/run/startFixture.ts'
import { flown as flownThere, goneOn, upTo } from './flown.ts'

const NOW = Date.parse('2001-06-01T10:00:00.000Z')

/** Begun anew from a place, and gone on with. */
function again(events: readonly RunEvent[], seq: number, pack: Pack = PACK): TestRun {
  const run = testRun(pack)
  for (const event of eventsAgain(pack, events, { seq, runId: 'run', now: NOW, seed: 5 })) run.happen(event)
  return run.happen({ type: 'resumed' })
}

/** Missed once at the trim (event 3), right at the rest. */
const flown = () =>
  begun().happen(call('load')).answer('negative').answer('correct').answer('correct').answer('correct')

describe('the log that a moment begins with', () => {
  const log = eventsAgain(PACK, flown().events, { seq: 2, runId: 'again', now: NOW, seed: 5 })

  it('is that of the run up to there, under its own name, and says where it comes from', () => {
    expect(log.map(({ type, runId }) => [type, runId])).toEqual([
      ['runStarted', 'again'],
      ['figuresRevised', 'again'],
      ['listCalled', 'again'],
    ])
    expect(log[0]).toMatchObject({ again: { runId: 'run', seq: 2, lastMisses: 1 } })
  })

  it('ends now: times from the start are as they were', () => {
    expect(log.map(({ t }) => t)).toEqual([0, 1_000, 2_000])
    expect(log.map(({ wall }) => Date.parse(wall))).toEqual([NOW - 2_000, NOW - 1_000, NOW])
    expect(log[0]).toMatchObject({ startedAt: NOW - 2_000 })
  })

  it('keeps words where they were in the time of the run', () => {
    const run = begun().happen(call('load')).hear('four up', { beganAt: 2_500, endedAt: 2_900 })
    const [first, answer] = [0, 3].map(
      (seq) => eventsAgain(PACK, run.events, { seq: 3, runId: 'a', now: NOW, seed: 5 })[seq],
    )
    const startedAt = first?.type === 'runStarted' ? first.startedAt : 0
    expect(answer).toMatchObject({ evidence: { beganAt: startedAt + 2_500, endedAt: startedAt + 2_900 } })
  })

  it('is read back whole, and leaves that of the run as it was', () => {
    const events = flown().events
    const before = structuredClone(events)
    expect(readEvents(eventsAgain(PACK, events, { seq: 4, runId: 'a', now: NOW, seed: 5 }))).toMatchObject({
      isCut: false,
    })
    expect(events).toEqual(before)
  })

  it('knows nothing of a last time that never came to its end', () => {
    const [first] = eventsAgain(PACK, flown().events.slice(0, 5), { seq: 2, runId: 'a', now: NOW, seed: 5 })
    expect(first).toMatchObject({ again: { seq: 2 } })
    expect(first).not.toHaveProperty('again.lastMisses')
  })

  it('has a partner err otherwise than the last time, and counts what was let go then and now', () => {
    const run = begun({ partner: { seed: 1, rate: 0 } }).happen(call('load'))
    const fault: Fault = { kind: 'wrongValue', grade: 'hard', about: 'load.flap', figure: 'flap', said: 24, right: 14 }
    const letGo = () => {
      run.answer('correct').happen({ type: 'faultPlanned', fault })
      return run.answer('correct', { parts: [{ name: 'flap', kind: 'figure', state: 'ok' }] }).answer('correct')
    }
    letGo()
    expect(run.state.lists.load?.complete).toBe(true)
    const [first] = eventsAgain(PACK, run.events, { seq: 2, runId: 'a', now: NOW, seed: 5 })
    expect(first).toMatchObject({ again: { lastMisses: 1 }, settings: { partner: { seed: 5 } } })
    const on = again(run.events, 2)
    on.answer('correct').happen({ type: 'faultPlanned', fault })
    on.answer('correct', { parts: [{ name: 'flap', kind: 'figure', state: 'ok' }] }).answer('correct')
    expect(on.state.again).toMatchObject({ isOver: true, misses: 1 })
    expect(on.said()).toMatch(/as last time/)
  })

  it('cannot begin where there is no event', () => {
    expect(() => eventsAgain(PACK, flown().events, { seq: 40, runId: 'a', now: NOW, seed: 5 })).toThrow(
      'has no event 40',
    )
  })
})

describe('a moment that is done again', () => {
  it('goes on at the open item, with everything before it done and nothing offered', () => {
    const run = again(flown().events, 4)
    expect(run.said()).toBe('Flap?')
    expect(run.state.floor).toMatchObject({ item: 'load.flap' })
    expect(run.state.items['load.trim']?.status).toBe('done')
    expect(run.state).toMatchObject({ interruptions: [], isBack: false })
  })

  it.each([
    [[], 'Drill over, right this time.', 0],
    [['negative'], 'Drill over, as last time.', 1],
    [['negative', 'incomplete'], 'Drill over, worse than last time.', 2],
    [['sayAgain'], 'Drill over, right this time.', 0],
  ] as const)('after %j is over with its list: %s', (missed, words, misses) => {
    const run = again(flown().events, 2)
    for (const verdict of missed) run.answer(verdict)
    run.answer('correct').answer('correct')
    expect(run.state.again).toMatchObject({ isOver: false })
    run.answer('correct')
    expect(run.said()).toBe(words)
    expect(run.state).toMatchObject({ standingBy: true, again: { isOver: true, isWaiting: true, misses } })
  })

  it('says what it can where there is no last time', () => {
    const run = again(flown().events.slice(0, 5), 2).answer('negative').answer('correct').answer('correct')
    expect(run.answer('correct').said()).toBe('Drill over, not all right.')
  })

  it('is gone on with by "continue", and is no break', () => {
    const run = again(flown().events, 2).answer('correct').answer('correct').answer('correct')
    run.pass(200_000).command('continue')
    expect(run.said()).toBe('Start list on your call.')
    expect(run.state).toMatchObject({ standingBy: false, interruptions: [], again: { isOver: true, isWaiting: false } })
    run.happen(call('start')).command('standBy').command('continue')
    expect(run.state.interruptions).toHaveLength(1)
  })

  it('is over at the line', () => {
    const before = begun().happen(call('start')).command('negative').command('affirm').answer('correct')
    const from = before.events.findIndex(({ type }) => type === 'answered') - 1
    const run = again(before.events, from).answer('correct')
    expect(run.state.floor).toMatchObject({ at: 'line' })
    expect(run.said()).toMatch(/^Drill over/)
  })

  it('counts what was called too late or not at all in an engine start', () => {
    const start = (run: TestRun, at: number, late: number) =>
      run
        .happen(began(at))
        .happen(called('rotation', at + late))
        .happen(called('light', at + late + 1_000))
    const stable = (run: TestRun, at: number) => run.happen(called('stable', at, { value: 58, inRange: true }))
    const before = stable(start(beforeEngine(), 6_000, 15_000), 30_000)
    const run = again(before.events, 5, STARTING)
    expect(run.state.again?.lastMisses).toBe(1)
    stable(start(run, 8_000, 2_000), 20_000)
    expect(run.said()).toBe('Drill over, right this time.')
  })

  it('does not end where figures send the pilot to a flow first', () => {
    const run = again(flown().events, 4)
    run.happen({ ...(begun().events[1] as RunEvent<'figuresRevised'>), revision: 2, values: { trim: 4.6, flap: 14 } })
    expect(run.state.again?.isOver).toBe(false)
  })

  it('folds to the state that it had', () => {
    const run = again(flown().events, 2).answer('negative').answer('correct').answer('correct').answer('correct')
    expect(fold(PACK, 'run', run.events)).toEqual(run.state)
  })
})

describe('a start that "stop" has ended, done again', () => {
  const lines = marramLines('icao', 'push')
  const toStart = upTo(lines, 'clear to start')
  const start = ['starting the right engine', 1, 'rotation seen', 5] as const

  it.each([
    ['from the start itself', [...toStart, 'done']],
    ['from the flow before it', toStart],
  ])('%s, is not over before the engine runs', async (_, before) => {
    const { pack, events, debrief } = await flownThere('marram', before, ...start, 'stop', 'brakes set')
    const from = debrief.timeline.find(({ lane }) => lane === 'watch')?.from ?? 0
    const log = eventsAgain(pack, events, { seq: from, runId: 'flight', now: createVirtualClock().now(), seed: 5 })
    const whole = lines.slice(lines.indexOf('starting the right engine'), lines.indexOf('starting the left engine') - 1)
    const [stopped, run] = [await goneOn(pack, log, ...start, 'stop', 'brakes set'), await goneOn(pack, log, ...whole)]
    expect([...stopped.answers, ...run.answers.slice(0, -1)].join(' ')).not.toContain('Drill over')
    expect(run.answers.at(-1)).toBe('Drill over, right.')
  })
})

describe('the debrief of a moment that was done again', () => {
  const run = again(flown().events, 4).answer('incomplete', { because: 'missing' }).answer('correct').answer('correct')
  const debrief = debriefOf(PACK, run.events)

  it('says which it was, and counts only what came after', () => {
    expect(debrief.again).toEqual({ runId: 'run', seq: 4, lastMisses: 0, name: 'Load list', misses: 1, isOver: true })
    expect(debrief.totals).toMatchObject({ items: 2, closed: 2, misses: 1 })
    expect(debrief.lists.flatMap(({ items }) => items.map(({ challenge }) => challenge))).toEqual(['flap', 'windows'])
    expect(debrief.wentWell).toBe('Right the first time: 1 of 2 items.')
    expect(debrief.foremost.map(({ about }) => about)).toEqual(['flap'])
    expect(debrief.revisions).toEqual([])
  })

  it('has only that on its timeline and in its replay, and times its own length', () => {
    expect(debrief.timeline.every(({ t }) => t >= 5_000)).toBe(true)
    expect(debrief.timeline.filter(({ lane }) => lane === 'item').map(({ label }) => label)).toEqual([
      'flap',
      'windows',
    ])
    expect(debrief.durationMs).toBe(4_000)
    expect(cuesOf(PACK, run.events)[0]).toMatchObject({ seq: 5, by: 'note' })
  })

  it('has nothing of what the other run left open elsewhere, nor of what was told there', async () => {
    const lines = marramLines('icao', 'push')
    const said = [...upTo(lines, 'two four six two zero'), 'before start list', 'negative', 'brake set', 'signs on']
    const { pack, events } = await flownThere('marram', said)
    const seq = events.findLastIndex(({ type }) => type === 'answered') - 1
    const log = eventsAgain(pack, events, { seq, runId: 'flight', now: createVirtualClock().now(), seed: 5 })
    const { debrief } = await goneOn(pack, log, 'signs on')
    expect(debrief.lists.map(({ name }) => name)).toEqual(['before start'])
    expect([...debrief.notEnded, ...debrief.outOfOrder]).toEqual([])
    expect(debrief.deviations.filter(({ where }) => where !== 'before start')).toEqual([])
  })

  it('can be done again in its turn', () => {
    expect(debrief.foremost[0]?.from).toBe(4)
  })
})
