/** Calls of an engine start: not sooner than they can be seen, with their values, and in any order where the pack says so. */

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { buttonsOf } from '../../../../src/app/view/buttons.ts'
import { viewOf } from '../../../../src/app/view/view.ts'
import type { Flow, Pack, Watch } from '../../../../src/kernel/pack/checklist.ts'
import { responseFrom } from '../../../../src/kernel/response/response.ts'
import type { EventBody } from '../../../../src/kernel/run/core/events.ts'
import { fold } from '../../../../src/kernel/run/core/step.ts'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import { outsideOf } from '../../../../src/kernel/run/watch/callValue.ts'
import { WATCH_AHEAD } from '../../../../src/kernel/run/watch/watchTiming.ts'
import { cases } from '../../../cases.ts'
import { PACK, PRELIMINARY, revision, type TestRun, TYPED, testRun } from '../fixture.ts'

/** Invented, as all engines here. */
const START: Watch = {
  type: 'watch',
  id: 'right',
  name: 'right engine start',
  begins: responseFrom('starting right'),
  hold: 'hand on the selector',
  calls: [
    { id: 'turning', label: 'rotation', say: responseFrom('rotation'), notBefore: 2, within: 9 },
    {
      id: 'fuel',
      label: 'fuel on',
      say: responseFrom('<value> [percent] fuel on'),
      group: 'up',
      notBefore: 4,
      within: 20,
      after: 'turning',
      value: { spec: { kind: 'integer' }, min: 23, label: 'speed', stopWords: 'fuel off' },
    },
    {
      id: 'light',
      label: 'light up',
      say: responseFrom('light up'),
      group: 'up',
      notBefore: 1,
      within: 10,
      after: 'fuel',
    },
    { id: 'oil', label: 'oil pressure', say: responseFrom('oil pressure'), group: 'up', within: 30 },
    {
      id: 'peak',
      label: 'peak',
      say: responseFrom('peak <value>'),
      group: 'up',
      after: 'light',
      value: { spec: { kind: 'integer' }, max: 765, stopWords: 'fuel off' },
    },
    {
      id: 'stable',
      label: 'stable',
      say: responseFrom('stable <value>'),
      within: 40,
      after: 'light',
      value: { spec: { kind: 'integer' }, min: 57, max: 61, label: 'speed' },
    },
  ],
  abnormal: [
    {
      id: 'fire',
      label: 'tailpipe fire',
      say: responseFrom('tailpipe fire'),
      stopWords: 'fuel off',
      actions: ['then by the flight manual'],
    },
  ],
  stopWords: 'stop the start',
}
const LEFT: Watch = {
  ...START,
  id: 'left',
  name: 'left engine start',
  begins: responseFrom('starting left'),
  interlocks: [{ after: 'right', seconds: 12, say: 'let the starter rest', due: 'left engine when ready' }],
}
const FLOW: Flow = {
  type: 'flow',
  id: 'outside',
  name: 'Outside',
  steps: [{ id: 'outside.clear', text: 'Area clear', sets: [] }],
}
const TWO: Pack = { ...PACK, phases: [{ id: 'start', name: 'Start', activities: [START, LEFT] }] }

const BEGAN = 10_000
const began = (watch = 'right', at = BEGAN): EventBody => ({ type: 'watchBegan', watch, at, evidence: TYPED })
const call = (id: string, after: number, value?: number): EventBody => ({
  type: 'watchCalled',
  watch: 'right',
  call: id,
  at: BEGAN + after,
  evidence: TYPED,
  ...(value !== undefined && { value }),
})

function ready(): TestRun {
  return testRun(TWO)
    .happen({
      type: 'runStarted',
      pack: { id: 'fixture', version: '1', sha256: 'none', name: 'Fixture', texts: {} },
      situation: {},
      settings: { phraseology: 'plain', coachAfter: 0 },
      startedAt: 0,
    })
    .happen(revision(1, 'final', PRELIMINARY))
}
const running = (...events: EventBody[]) => events.reduce((run, event) => run.happen(event), ready().happen(began()))
/** Fuel on 5 s after the rotation that was called 3 s after the beginning. */
const lit = () => running(call('turning', 3_000), call('fuel', 8_000, 24), call('light', 10_000))
const own = (run: TestRun) => run.state.watches.right
const tones = (run: TestRun) => run.effects.flatMap((effect) => (effect.type === 'tone' ? [effect.tone] : []))
const inDebrief = (run: TestRun, label: string) =>
  debriefOf(TWO, run.events).watches[0]?.calls.find((one) => one.label === label)
const deviations = (run: TestRun) => debriefOf(TWO, run.events).totals.startDeviations

describe('a call sooner than it can have been seen', () => {
  it('is questioned, and one at that very moment is taken', () => {
    const early = running(call('turning', 1_999))
    expect(early.said()).toBe('Already? Confirm rotation.')
    expect(tones(early)).toEqual(['attention'])
    expect(own(early)?.calls).toEqual({})
    const inTime = running(call('turning', 2_000))
    expect(own(inTime)).toMatchObject({ calls: { turning: BEGAN + 2_000 }, early: {} })
    expect(inTime.state.question).toBeUndefined()
  })

  it('runs from the call that the pack names, not from the beginning', () => {
    const early = running(call('turning', 3_000), call('fuel', 6_999, 24))
    expect(early.said()).toBe('Already? Confirm fuel on.')
    expect(own(running(call('turning', 3_000), call('fuel', 7_000, 24)))?.calls.fuel).toBe(BEGAN + 7_000)
  })

  it.each<[string, EventBody]>([
    ['affirmed', { type: 'commanded', command: 'affirm', evidence: TYPED }],
    ['said once more', call('turning', 1_500)],
  ])('and %s is taken, and stays a deviation', (_, event) => {
    const run = running(call('turning', 500), event)
    expect(own(run)?.early).toEqual({ turning: BEGAN + 500 })
    expect(own(run)?.calls.turning).toBeDefined()
    expect(run.state.question).toBeUndefined()
    expect(inDebrief(run, 'rotation')).toMatchObject({ earlyAfterMs: 500 })
    expect(deviations(run)).toBe(1)
    // Called again in its time it stands right on the screen; the debrief has both.
    const isEarly = own(run)?.calls.turning === BEGAN + 500
    expect(viewOf(TWO, run.state).watch?.calls[0]).toMatchObject({ state: 'called', isEarly })
  })

  it('and denied is still to be called; that it came too early stays', () => {
    const run = running(call('turning', 500)).command('negative')
    expect(run.said()).toBe('')
    expect(run.state.question).toBeUndefined()
    expect(own(run)?.calls).toEqual({})
    run.happen(call('turning', 4_000))
    expect(own(run)).toMatchObject({ calls: { turning: BEGAN + 4_000 }, early: { turning: BEGAN + 500 } })
    expect(inDebrief(run, 'rotation')).toMatchObject({ afterMs: 4_000, earlyAfterMs: 500 })
  })

  it('that was questioned and then came in time is taken from then, and what it was first stays', () => {
    const run = running(call('turning', 500), call('turning', 2_500))
    expect(own(run)).toMatchObject({ calls: { turning: BEGAN + 2_500 }, early: { turning: BEGAN + 500 } })
  })

  it('keeps its value while it is questioned', () => {
    const run = running(call('turning', 3_000), call('fuel', 4_000, 24)).command('affirm')
    expect(own(run)).toMatchObject({ values: { fuel: 24 }, calls: { fuel: BEGAN + 4_000 } })
  })

  it('a whole start called in 4.8 seconds is questioned at each call that could not be seen', () => {
    const run = running()
    const asked = [
      call('turning', 800),
      call('fuel', 1_600, 24),
      call('light', 2_400),
      call('oil', 3_200),
      call('peak', 4_000, 700),
      call('stable', 4_800, 58),
    ].flatMap((event) => {
      run.happen(event)
      const question = run.said()
      if (run.state.question) run.command('affirm')
      return question.startsWith('Already?') ? [question] : []
    })
    expect(asked).toEqual(['Already? Confirm rotation.', 'Already? Confirm fuel on.', 'Already? Confirm light up.'])
    expect(own(run)?.status).toBe('done')
    expect(deviations(run)).toBe(3)
  })

  it('that was seen before another one is noted as too early too', () => {
    const run = running(call('oil', 1_000))
    expect(run.said()).toBe('Out of order, oil pressure. Rotation?')
    run.command('affirm')
    expect(own(run)).toMatchObject({ early: { turning: BEGAN + 1_000 }, calls: { oil: BEGAN + 1_000 } })
  })

  it.each([
    [6_999, { light: BEGAN + 6_999 }],
    [7_000, {}],
  ])('is one where those before it were only affirmed: light up after %i ms', (after, early) => {
    // Two seconds to the rotation, four to fuel on, one to light up.
    const run = running(call('light', after))
    expect(run.command('affirm').said()).toBe('Out of order, light up. Fuel on?')
    expect(run.command('affirm').said()).toBe('Speed?')
    run.happen(call('fuel', 9_000, 24))
    expect(run.said()).toBe(after === 7_000 ? '' : 'Already? Confirm light up.')
    expect(own(run)?.early).toEqual(early)
  })

  it('leaves the limits running while it is questioned', () => {
    const run = running(call('turning', 500))
    run.happen({ type: 'watchDue', watch: 'right', call: 'turning', stage: 'limit' })
    expect(run.said()).toBe('No rotation. Stop the start, or call it.')
  })
})

describe('a call that was not understood', () => {
  const due = (run: TestRun) => run.effects.find((one) => one.type === 'startTimer' && one.timer === 'watch')
  const at = (run: TestRun) => {
    const timer = due(run)
    return timer?.type === 'startTimer' ? timer.ms + run.state.t : undefined
  }

  it('is asked for again at once, and the time of the start runs on', () => {
    const run = running(call('turning', 3_000))
    const before = run.state
    const limit = at(run)
    run.hear('the light I mean')
    expect(run.said()).toBe('Say again.')
    expect(run.effects.some(({ type }) => type === 'listen')).toBe(true)
    expect(own(run)).toEqual(before.watches.right)
    expect(at(run)).toBe(limit)
    run.happen(call('fuel', 8_000, 24))
    expect(own(run)?.calls.fuel).toBe(BEGAN + 8_000)
  })

  it('is asked for aloud once in eight seconds where it is spoken, each time where it is typed', () => {
    const run = running(call('turning', 3_000)).hear('the light I mean').hear('light I mean')
    expect(run.said()).toBe('')
    expect(tones(run)).toEqual(['soft'])
    expect(run.hear('we have ignition', { by: 'typed' }).said()).toBe('Say again.')
    expect(run.pass(8_000).hear('light I mean').said()).toBe('Say again.')
  })

  it('draws nothing where it was other talk', () => {
    expect(running(call('turning', 3_000)).hear('look at that bird').said()).toBe('')
  })

  it('leaves the question of a call that was questioned open', () => {
    const run = running(call('turning', 500)).hear('rotation not')
    expect(run.said()).toBe('Say again.')
    expect(run.state.question).toMatchObject({ about: 'callEarly' })
    expect(run.command('sayAgain').said()).toBe('Already? Confirm rotation.')
  })
})

describe('a value that a call asks for', () => {
  const turning = () => running(call('turning', 3_000))

  it('is asked for by its name, and the call holds from when it was called', () => {
    const run = turning().happen(call('fuel', 8_000))
    expect(run.said()).toBe('Speed?')
    expect(own(run)?.calls.fuel).toBeUndefined()
    expect(viewOf(TWO, run.state).hint).toBe('Read it out: speed.')
    run.happen(call('fuel', 9_500, 24))
    expect(own(run)).toMatchObject({ calls: { fuel: BEGAN + 8_000 }, values: { fuel: 24 }, outside: {} })
  })

  it('is asked for by the name of its call where it has none of its own', () => {
    expect(lit().happen(call('peak', 15_000)).said()).toBe('Peak, value?')
  })

  it.each([
    ['fuel', 23, 22, 'Twenty two is low. Fuel off, or recheck.'],
    ['peak', 765, 766, 'Seven six six is high. Fuel off, or recheck.'],
  ])('%s: %i is right, %i draws the stop words at once and is counted', (id, right, wrong, words) => {
    const place = () => (id === 'fuel' ? turning() : lit())
    const run = place().happen(call(id, 15_000, wrong))
    expect(run.said()).toBe(words)
    expect(own(run)?.calls[id]).toBeUndefined()
    expect(own(run)?.outside).toEqual({ [id]: [{ value: wrong, at: BEGAN + 15_000 }] })
    expect(deviations(run)).toBe(1)
    const other = place().happen(call(id, 15_000, right))
    expect(other.said()).toBe('')
    expect(own(other)).toMatchObject({ calls: { [id]: BEGAN + 15_000 }, outside: {} })
  })

  it.each([57, 61])('of %i, a limit itself, is between them', (value) => {
    const run = lit()
      .happen(call('oil', 12_000))
      .happen(call('peak', 14_000, 700))
    run.happen(call('stable', 30_000, value))
    expect(own(run)).toMatchObject({ status: 'done', outside: {} })
  })

  it('that was misread is put right, and what was said first stays in the debrief', () => {
    const run = turning()
      .happen(call('fuel', 8_000, 14))
      .happen(call('fuel', 9_000, 14))
      .happen(call('fuel', 10_000, 24))
    expect(own(run)?.values).toEqual({ fuel: 24 })
    // The same value said again is one; each reading has its own time.
    const fuel = { afterMs: 10_000, value: 24, outside: [{ value: 14, afterMs: 8_000 }] }
    expect(inDebrief(run, 'fuel on')).toMatchObject(fuel)
    expect(viewOf(TWO, run.state).watch?.calls[1]).toMatchObject({ value: 'speed 24', outside: [] })
  })

  it.each([56, 62])('of %i is asked where it stops nothing; affirmed it draws the stop words of the watch', (value) => {
    const words = value === 56 ? 'Fifty six' : 'Sixty two'
    const run = lit()
      .happen(call('oil', 12_000))
      .happen(call('peak', 14_000, 700))
      .happen(call('stable', 30_000, value))
    expect(run.said()).toBe(`${words} is out of range. Confirm?`)
    expect(buttonsOf(TWO, run.state).map(({ label }) => label)).toEqual(
      expect.arrayContaining(['Affirm', 'Negative', 'stable', 'tailpipe fire']),
    )
    expect(run.command('affirm').said()).toBe(
      `${words} is ${value === 56 ? 'low' : 'high'}. Stop the start, or recheck.`,
    )
    expect(own(run)?.status).toBe('running')
  })

  it('of which the reading is denied is asked for again, and was none', () => {
    const run = lit()
      .happen(call('oil', 12_000))
      .happen(call('peak', 14_000, 700))
      .happen(call('stable', 30_000, 62))
    expect(run.command('negative').said()).toBe('Speed?')
    expect(own(run.happen(call('stable', 33_000, 58)))).toMatchObject({
      status: 'done',
      outside: { stable: [] },
    })
  })

  it('is not passed over by the next call, which is taken once it is there', () => {
    const run = turning().happen(call('fuel', 8_000)).happen(call('light', 10_000))
    expect(run.said()).toBe('Speed?')
    run.happen(call('fuel', 12_000, 24))
    expect(own(run)?.calls).toMatchObject({ fuel: BEGAN + 8_000, light: BEGAN + 10_000 })
    expect(own(run)?.pending).toBeUndefined()
  })

  it('that must not be too low stops the start where what comes before its call was not seen, and then asks', () => {
    const run = running(call('fuel', 4_000, 24))
    expect(run.said()).toBe('Fuel off. Out of order, fuel on. Rotation?')
    expect(own(run)?.calls).toEqual({})
    expect(run.command('negative').said()).toBe('No rotation. Stop the start, or call it.')
  })

  it('is asked for where its call was seen and not called, and the later call is kept', () => {
    const run = turning().happen(call('light', 10_000))
    expect(run.said()).toBe('Out of order, light up. Fuel on?')
    expect(run.command('affirm').said()).toBe('Speed?')
    run.happen(call('fuel', 12_000, 24))
    // When fuel was on is not known: nothing is too early after it.
    expect(run.state.question).toBeUndefined()
    expect(own(run)).toMatchObject({ calls: { fuel: BEGAN + 10_000, light: BEGAN + 10_000 }, early: {} })
  })

  it('that is still owed is named at the limit', () => {
    const run = turning().happen(call('fuel', 8_000))
    run.happen({ type: 'watchDue', watch: 'right', call: 'fuel', stage: 'limit' })
    expect(run.said()).toBe('No speed. Stop the start, or call it.')
    expect(own(run)?.unheard).toEqual(['fuel'])
  })
})

describe('calls of a group', () => {
  it.each([
    ['before light up', ['oil', 'light']],
    ['behind it', ['light', 'oil']],
  ])('come in any order: oil pressure %s', (_, order) => {
    const run = running(call('turning', 3_000), call('fuel', 8_000, 24))
    for (const id of order) run.happen(call(id, 11_000))
    expect(run.state.question).toBeUndefined()
    expect(Object.keys(own(run)?.calls ?? {})).toEqual(['turning', 'fuel', ...order])
  })

  it('still wait for the one that they name', () => {
    const run = running(call('turning', 3_000), call('oil', 5_000), call('peak', 6_000, 700))
    expect(run.said()).toBe('Out of order, peak. Fuel on?')
  })

  it('are all there before what comes behind the group', () => {
    const run = lit()
      .happen(call('peak', 14_000, 700))
      .happen(call('stable', 30_000, 58))
    expect(run.said()).toBe('Out of order, stable. Oil pressure?')
    expect(own(run)?.status).toBe('running')
  })

  it('run from the call before the group, each by its own limit; the first to be due has the timer', () => {
    const due = (run: TestRun) => run.effects.find((one) => one.type === 'startTimer' && one.timer === 'watch')
    const at = (run: TestRun) => {
      const timer = due(run)
      return timer?.type === 'startTimer' ? timer.ms + run.state.t : undefined
    }
    const run = running(call('turning', 3_000))
    // Six tenths of 20 s for fuel on, of 30 s for oil pressure.
    expect(due(run)).toMatchObject({ event: { call: 'fuel', stage: 'ask' } })
    expect(at(run)).toBe(BEGAN + 3_000 + 12_000)
    run.happen(call('fuel', 8_000, 24)).happen(call('light', 10_000))
    expect(due(run)).toMatchObject({ event: { call: 'oil', stage: 'ask' } })
    expect(at(run)).toBe(BEGAN + 3_000 + 18_000)
    run.happen({ type: 'watchDue', watch: 'right', call: 'oil', stage: 'ask' })
    expect(run.state.said).toBe('Oil pressure?')
    expect(due(run)).toMatchObject({ event: { call: 'oil', stage: 'limit' } })
    expect(at(run)).toBe(BEGAN + 3_000 + 30_000)
  })

  it('stand on the screen as next all of them, each with a button', () => {
    const run = running(call('turning', 3_000))
    const { watch } = viewOf(TWO, run.state)
    expect(watch?.calls.map(({ state }) => state)).toEqual(['called', 'next', 'ahead', 'next', 'ahead', 'ahead'])
    expect(watch?.calls.map(({ dueAt }) => dueAt)).toEqual([
      undefined,
      BEGAN + 23_000,
      undefined,
      BEGAN + 33_000,
      undefined,
      undefined,
    ])
    expect(
      buttonsOf(TWO, run.state)
        .map(({ label }) => label)
        .slice(0, 3),
    ).toEqual(['fuel on', 'oil pressure', 'tailpipe fire'])
  })
})

describe('what is said once a run', () => {
  const once = "Hand on the selector. Limits are the flight manual's. Look before you act."

  it('is what the hands do and whose the limits are, behind the prompt', () => {
    expect(ready().said()).toBe(`Ready for right engine. ${once}`)
  })

  it('comes with no other start, and the announced end of a wait is not doubled by a prompt', () => {
    const run = lit()
      .happen(call('oil', 12_000))
      .happen(call('peak', 14_000, 700))
      .happen(call('stable', 30_000, 58))
    expect(run.said()).toBe('Right engine stable.')
    run.happen(began('left', run.state.t))
    expect(run.said()).toMatch(/^Not yet, let the starter rest, \w+ seconds\.$/)
    run.pass(12_000).happen({ type: 'timeUp', of: 'left' })
    expect(run.said()).toBe('Left engine when ready.')
    expect(run.command('fromTop').said()).toBe('Ready for left engine.')
  })

  it('leaves out what the hands do where the start was begun before it could be said', () => {
    const run = testRun({ ...TWO, phases: [{ id: 'start', name: 'Start', activities: [FLOW, START, LEFT] }] })
    run
      .happen({
        type: 'runStarted',
        pack: { id: 'fixture', version: '1', sha256: 'none', name: 'Fixture', texts: {} },
        situation: {},
        settings: { phraseology: 'plain', coachAfter: 0 },
        startedAt: 0,
      })
      .happen(revision(1, 'final', PRELIMINARY))
      .happen(began())
    for (const event of [call('turning', 3_000), call('fuel', 8_000, 24), call('light', 10_000), call('oil', 12_000)])
      run.happen(event)
    run.happen(call('peak', 14_000, 700)).happen(call('stable', 30_000, 58))
    expect(run.said()).toBe("Right engine stable. Limits are the flight manual's. Look before you act.")
  })
})

describe('an abnormal start without a way back', () => {
  it('has its stop words and leaves the rest to the flight manual', () => {
    const run = lit().happen({
      type: 'watchStopped',
      watch: 'right',
      abnormal: 'fire',
      at: BEGAN + 12_000,
      evidence: TYPED,
    })
    expect(run.said()).toBe('Fuel off. Then by the flight manual.')
    expect(viewOf(TWO, run.state).hint).toBe(
      'Stopped: tailpipe fire. The flight manual comes first; "from the top" sets the start up again.',
    )
    expect(run.command('fromTop').said()).toBe('Ready for right engine.')
  })
})

describe('a start with all of this', () => {
  const ids = START.calls.map(({ id }) => id)
  const move = fc.oneof(
    {
      weight: 8,
      arbitrary: fc.record({ call: fc.constantFrom(...ids), value: fc.constantFrom(undefined, 14, 24, 58, 700, 800) }),
    },
    { weight: 3, arbitrary: fc.constantFrom('affirm' as const, 'negative' as const) },
    {
      weight: 2,
      arbitrary: fc.record({ due: fc.constantFrom(...ids), stage: fc.constantFrom('ask' as const, 'limit' as const) }),
    },
    { weight: 3, arbitrary: fc.constantFrom(1_000, 4_000, 12_000) },
  )

  it('under any sequence of calls takes none silently that came too soon, out of turn or out of limits', () => {
    fc.assert(
      fc.property(fc.array(move, { maxLength: 60, size: 'max' }), (moves) => {
        const run = ready().happen(began('right', 0))
        for (const one of moves) {
          const before = run.state
          if (typeof one === 'number') run.pass(one)
          else if (typeof one === 'string') run.command(one)
          else if ('due' in one) run.happen({ type: 'watchDue', watch: 'right', call: one.due, stage: one.stage })
          else run.happen(call(one.call, before.t - BEGAN, one.value))
          const { calls, values, early, late, status, seenBefore } = own(run) ?? WATCH_AHEAD
          for (const { id, after, notBefore = 0, value } of START.calls) {
            const at = calls[id]
            if (at === undefined) continue
            const since = after === undefined ? 0 : (calls[after] ?? Number.POSITIVE_INFINITY)
            expect(at).toBeGreaterThanOrEqual(since)
            const isSooner = at < since + notBefore * 1_000
            // Of a call that came late nobody knows when it was seen.
            const isTimed = ![...seenBefore, ...late].includes(after ?? '')
            if (isSooner && isTimed && !seenBefore.includes(id)) expect(early[id]).toBeDefined()
            if (value) expect(outsideOf(value, values[id] ?? Number.NaN)).toBeUndefined()
            if (value) expect(values[id]).toBeDefined()
          }
          expect(status === 'done').toBe(ids.every((id) => calls[id] !== undefined))
        }
        expect(fold(TWO, 'run', run.events)).toEqual(run.state)
      }),
      { numRuns: cases(200) },
    )
  })

  it('folds to the same state', () => {
    const run = running(call('turning', 500), call('turning', 800), call('fuel', 8_000, 14), call('light', 9_000))
    run
      .happen(call('fuel', 9_500, 24))
      .command('affirm')
      .happen(call('oil', 11_000))
    expect(fold(TWO, 'run', run.events)).toEqual(run.state)
  })
})
