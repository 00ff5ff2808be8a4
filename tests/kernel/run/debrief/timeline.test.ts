/** A run along its time: what stands where, how it went, and the sentence that tells it. Times by hand: an event a second. */

import { describe, expect, it } from 'vitest'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import type { Lane, TimelineEntry } from '../../../../src/kernel/run/debrief/timelineEntry.ts'
import { begun, call, FINAL, PACK, PRELIMINARY, revision, type TestRun } from '../fixture.ts'
import { beforeEngine, began, called, STARTING } from '../startFixture.ts'
import { SAID, TALK, talkRun } from '../talkFixture.ts'

const lane = (run: Pick<TestRun, 'events'>, name: Lane, pack = PACK): readonly TimelineEntry[] =>
  debriefOf(pack, run.events).timeline.filter((entry) => entry.lane === name)
const brief = (entries: readonly TimelineEntry[]) => entries.map(({ t, endT, label, went }) => [t, endT, label, went])

/** Started at 0 s, figures at 1 s, the list called at 2 s. */
const inList = () => begun().happen(call('load'))

describe('the timeline of a run', () => {
  it('has phases and lists as long as they last', () => {
    const run = inList().answer('correct').answer('correct').answer('correct').pass(3_000).happen(call('start'))
    expect(brief(lane(run, 'phase'))).toEqual([
      [1_000, 5_000, 'Load', 'plain'],
      [5_000, 9_000, 'Start', 'plain'],
    ])
    expect(brief(lane(run, 'list'))).toEqual([[2_000, 5_000, 'Load list', 'plain']])
    expect(lane(run, 'list')[0]?.told).toBe('Load list, 0:03 in all.')
  })

  it('has each item from when it was put, with what was said and the wait', () => {
    const run = inList().pass(4_000).answer('negative', { because: 'value' }).answer('correct').answer('sayAgain')
    run.answer('correct').happen({ type: 'silent', order: 0, after: 'tone' })
    expect(brief(lane(run, 'item'))).toEqual([
      [2_000, 8_000, 'takeoff trim', 'missed'],
      [8_000, 10_000, 'flap', 'askedAgain'],
      [10_000, 11_000, 'windows', 'open'],
    ])
    expect(lane(run, 'item')[0]).toMatchObject({
      answeredAt: 7_000,
      told: 'Takeoff trim: “words”, wrong; “words”, right; answered after 5.0 s.',
    })
  })

  it('takes the first word for the answer where the ear has it, and never what was said before the challenge', () => {
    const heard = (beganAt: number) =>
      lane(
        inList()
          .pass(4_000)
          .hear('five point two up', { beganAt, endedAt: beganAt + 900 }),
        'item',
      )[0]
    expect(heard(4_500)).toMatchObject({ answeredAt: 4_500, went: 'right' })
    expect(heard(1_000)).toMatchObject({ answeredAt: 2_000 })
  })

  it('tells what was closed by key, passed and left open apart, by its words', () => {
    const run = inList().happen({
      ...{ type: 'confirmedByKey', item: 'load.trim', evidence: { by: 'key', text: '' } },
      ...{ expected: {}, revision: 1 },
    })
    run.command('leaveOpen').command('pass', 'training').command('affirm')
    expect(lane(run, 'item').map(({ label, went }) => [label, went])).toEqual([
      ['takeoff trim', 'byKey'],
      ['flap', 'open'],
      ['windows', 'passed'],
      ['flap', 'open'],
    ])
    expect(lane(run, 'item')[0]?.told).toBe('Takeoff trim: by key, not read back.')
  })

  it('has figures as they came in, with what they opened again, and an item each time that it was put', () => {
    const run = inList()
      .answer('correct')
      .happen(revision(2, 'final', FINAL, PRELIMINARY))
    expect(brief(lane(run, 'figures'))).toEqual([
      [1_000, 1_000, 'preliminary', 'plain'],
      [4_000, 4_000, 'final', 'plain'],
    ])
    expect(lane(run, 'figures')[1]?.told).toBe('Final figures accepted as revision 2; opened again: takeoff trim.')
  })

  it('has breaks as long as they were', () => {
    const run = inList().command('standBy').pass(60_000).command('continue')
    expect(lane(run, 'break')).toMatchObject([{ t: 3_000, endT: 64_000, told: 'Stood by at takeoff trim, 1:01.' }])
  })

  it('has read-backs from their first word until the turn was done', () => {
    const run = talkRun(SAID)
    run.hear('request clearance')
    run.hear('cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven two')
    run.hear('squawk four two seven one')
    const [turn] = lane(run, 'talk', TALK)
    expect(turn).toMatchObject({ label: 'departure clearance', went: 'missed', endT: 4_000 })
    expect(turn?.told).toBe(
      'Departure clearance: “request clearance”, right; “cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven two”, wrong; “squawk four two seven one”, right.',
    )
  })

  it('has the calls of an engine start against their limits, and one that was never heard at its limit', () => {
    const run = beforeEngine().happen(began(6_000)).happen(called('rotation', 8_000))
    run.happen({ type: 'watchDue', watch: 'engine', call: 'light', stage: 'ask' })
    run.happen({ type: 'watchDue', watch: 'engine', call: 'light', stage: 'limit' })
    expect(lane(run, 'watch', STARTING)).toMatchObject([
      { t: 6_000, label: 'Engine start', went: 'missed' },
      { t: 8_000, label: 'rotation', went: 'right', limits: { dueAt: 16_000 } },
      { t: 28_000, label: 'light up', went: 'missed', limits: { dueAt: 28_000 } },
    ])
    const [, rotation, light] = lane(run, 'watch', STARTING)
    expect(rotation?.told).toBe('Engine start, rotation: after 2.0 s, by 10.0 s.')
    expect(light?.told).toBe('Engine start, light up: not heard, by 22.0 s, no call at its limit.')
  })

  it('never tells what would have been right', () => {
    const run = inList().hear('four point eight up')
    expect(JSON.stringify(debriefOf(PACK, run.events, true).timeline)).not.toMatch(/5\.2|five point two/)
  })
})

describe('the place from which a moment can be done again', () => {
  const fromOf = (run: TestRun, label: string) => lane(run, 'item').find((entry) => entry.label === label)?.from

  it('is the event with which it was to be answered, however often it was tried', () => {
    const run = inList().answer('negative').answer('sayAgain').answer('correct').answer('negative')
    expect(fromOf(run, 'takeoff trim')).toBe(2)
    expect(fromOf(run, 'flap')).toBe(5)
  })

  it('is the revision where figures changed while it was open', () => {
    const flap = { ...PRELIMINARY, flap: 15 }
    const run = inList()
      .happen(revision(2, 'final', flap, PRELIMINARY))
      .answer('negative')
    expect(lane(run, 'item').at(-1)?.from).toBe(3)
  })

  it('of a call in a start is before the start', () => {
    const run = beforeEngine().happen(began(6_000)).happen(called('rotation', 8_000))
    expect(lane(run, 'watch', STARTING).map(({ from }) => from)).toEqual([5, 5])
  })

  it('goes with each thing to take away', () => {
    const run = inList().answer('negative', { because: 'value' }).answer('correct').command('confirm', 'flap')
    run.answer('correct')
    expect(debriefOf(PACK, run.events).foremost.slice(0, 2)).toMatchObject([
      { about: 'takeoff trim', from: 2 },
      { kind: 'given', about: 'flap', from: 4 },
    ])
  })
})
