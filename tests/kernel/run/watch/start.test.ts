import { describe, expect, it } from 'vitest'
import { viewOf } from '../../../../src/app/view/view.ts'
import type { EventBody } from '../../../../src/kernel/run/core/events.ts'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import { FINAL, PRELIMINARY, revision, TYPED } from '../fixture.ts'
import { abnormal, beforeEngine, began, called, callOf, inFlow, STARTING } from '../startFixture.ts'

type Run = ReturnType<typeof inFlow>
const timer = (run: Run, name: string) =>
  run.effects.find((effect) => effect.type === 'startTimer' && effect.timer === name)
const now = (run: Run) => run.state.t

/** The engine stable at a value, some time ago. */
const running = () => {
  const run = beforeEngine()
  run.happen(began(now(run)))
  run.happen(called('rotation', now(run))).happen(called('light', now(run)))
  return run.happen(called('stable', now(run), { value: 58, inRange: true }))
}

describe('an engine start', () => {
  it('begun before its lists were called is refused, and the list is named', () => {
    const run = inFlow()
    run.happen(began(now(run)))
    expect(run.said()).toContain('Not yet, Load list, not called.')
    expect(run.state.watches.engine).toBeUndefined()
  })

  it('takes a limit from the event that the pack names, not from the call before', () => {
    const run = beforeEngine()
    const at = now(run)
    run
      .happen(began(at))
      .happen(called('rotation', at + 100))
      .happen(called('light', at + 19_000))
    const due = timer(run, 'watch')
    // 40 s from rotation, six tenths of it, from this moment.
    expect(due?.type === 'startTimer' && due.ms + now(run)).toBe(at + 100 + 24_000)
  })

  it('notes a call whose speech began after its limit as late, and one that only came in later as in time', () => {
    const late = beforeEngine()
    const at = now(late)
    late
      .happen(began(at))
      .pass(12_000)
      .happen(called('rotation', at + 11_000))
    expect(late.state.watches.engine?.late).toEqual(['rotation'])
    const inTime = beforeEngine()
    inTime
      .happen(began(at))
      .pass(12_000)
      .happen(called('rotation', at + 9_900))
    expect(inTime.state.watches.engine?.late).toEqual([])
  })

  it('asks for a value that was not said with the call, and takes the time of the call for it', () => {
    const run = beforeEngine()
    const at = now(run)
    run.happen(began(at)).happen(called('rotation', at)).happen(called('light', at))
    run.happen(called('stable', at + 3_000))
    expect(run.said()).toBe('Stable, value?')
    run.happen(called('stable', at + 6_000, { value: 58, inRange: true }))
    expect(run.state.watches.engine).toMatchObject({
      calls: { stable: at + 3_000 },
      values: { stable: 58 },
      status: 'done',
    })
  })

  it('questions a value outside the range, and does not take the call', () => {
    const run = beforeEngine()
    const at = now(run)
    run.happen(began(at)).happen(called('rotation', at)).happen(called('light', at))
    run.happen(called('stable', at, { value: 64, inRange: false }))
    expect(run.said()).toBe('Sixty four is out of range. Confirm?')
    expect(run.state.watches.engine?.status).toBe('running')
  })

  it('says times aloud where that is wanted', () => {
    const run = beforeEngine({ timesAloud: true })
    const at = now(run)
    run.happen(began(at)).happen(called('rotation', at + 5_000))
    expect(run.said()).toBe('Rotation, five seconds.')
  })

  it('after an abnormal call begins again only when the time has passed, and tells when', () => {
    const run = beforeEngine()
    run.happen(began(now(run))).happen(abnormal(now(run)))
    expect(run.said()).toBe('Fuel off. Keep it turning. Let it cool, fifty seconds. Say from the top.')
    run.command('fromTop')
    expect(run.said()).toMatch(/^Not yet, let it cool, forty \w+ seconds\.$/)
    run.happen(began(now(run)))
    expect(run.state.watches.engine?.status).toBe('ahead')
    const due = timer(run, 'interlock')
    run.pass((due?.type === 'startTimer' && due.ms) || 0).happen({ type: 'timeUp', of: 'engine' })
    expect(run.said()).toBe('Ready for Engine.')
    run.happen(began(now(run)))
    expect(run.state.watches.engine).toMatchObject({ status: 'running', attempt: 2 })
    const account = debriefOf(STARTING, run.events)
    expect(account.watches.map(({ attempt, status, because }) => [attempt, status, because])).toEqual([
      [1, 'stopped', 'hot start'],
      [2, 'running', undefined],
    ])
  })

  it('hears figures that change by a tone, and tells them when it is over', () => {
    const run = beforeEngine()
    const at = now(run)
    run.happen(began(at)).happen(revision(2, 'final', FINAL, PRELIMINARY))
    expect(run.effects).toEqual([{ type: 'tone', tone: 'attention' }])
    expect(run.state.items['load.trim']?.status).toBe('reopened')
    run.happen(called('rotation', at)).happen(called('light', at))
    run.happen(called('stable', at, { value: 58, inRange: true }))
    expect(run.said()).toMatch(/^Engine stable\. Final figures are in\. Recheck takeoff trim/)
    expect(run.said()).toMatch(/Redo load flow, Set the trim\.$/)
  })

  it.each<[string, EventBody]>([
    ['go back', { type: 'commanded', command: 'goBack', evidence: TYPED }],
    ['correction', { type: 'commanded', command: 'correction', evidence: TYPED }],
    ['a cross-check', { type: 'crossCheckAsked', figure: 'trim', source: 'loadSheet', evidence: TYPED }],
    ['another list', callOf('start')],
  ])('is not left for something else: %s waits', (_, event) => {
    const run = beforeEngine()
    run.happen(began(now(run))).happen(event)
    expect(run.said()).toBe('Not yet, Engine start is not complete.')
    expect(run.state).toMatchObject({ floor: { at: 'watch' }, question: undefined })
    run.happen(called('rotation', now(run)))
    expect(run.state.watches.engine?.calls.rotation).toBeDefined()
  })

  it('takes the place of a question that was open when it began', () => {
    const run = beforeEngine()
    run.happen({ type: 'crossCheckAsked', figure: 'trim', source: 'loadSheet', evidence: TYPED })
    expect(run.state.question).toMatchObject({ about: 'reading' })
    run.happen(began(now(run)))
    expect(run.state.question).toBeUndefined()
    expect(run.effects).toContainEqual(expect.objectContaining({ type: 'listen' }))
  })

  it('keeps its timers through whatever is said in between', () => {
    const run = beforeEngine()
    const at = now(run)
    run.happen(began(at)).command('remark', 'a bird')
    const due = timer(run, 'watch')
    expect(due?.type === 'startTimer' && due.ms + now(run)).toBe(at + 6_000)
    const timers = run.effects.findIndex(({ type }) => type === 'startTimer')
    expect(timers).toBeLessThan(run.effects.findIndex(({ type }) => type === 'speak'))
  })

  it('that was left by a reload goes on with its next call and the time that is left of it', () => {
    const run = beforeEngine()
    const at = now(run)
    run.happen(began(at)).pass(7_000).happen({ type: 'resumed' })
    expect(run.said()).toBe('Rotation?')
    const due = timer(run, 'watch')
    // Six tenths passed during the reload: it is asked for at once.
    expect(due).toMatchObject({ ms: 0, event: { stage: 'ask' } })
  })
})

describe('a time that must pass', () => {
  const unitOff = (run: Run) => run.happen(callOf('start')).answer('correct')

  it('keeps the item open when it is answered too soon, and is told when it is up', () => {
    const run = unitOff(running())
    expect(run.said()).toBe('Not yet, it stays on a little longer, twenty eight seconds.')
    expect(run.state.items['start.unit']?.status).not.toBe('done')
    const due = timer(run, 'interlock')
    const stableAt = run.state.doneAt.engine ?? 0
    expect(due?.type === 'startTimer' && due.ms + now(run)).toBe(stableAt + 30_000)
    run.pass((due?.type === 'startTimer' && due.ms) || 0).happen({ type: 'timeUp', of: 'start.unit' })
    expect(run.said()).toBe('The unit may go off.')
    run.answer('correct')
    expect(run.state.items['start.unit']?.status).toBe('done')
  })

  it('is shown with what is left of it, by the clock', () => {
    const run = running()
    const stableAt = run.state.doneAt.engine ?? 0
    const [clock] = viewOf(STARTING, run.state).clocks
    expect(clock).toMatchObject({ label: 'power unit', until: stableAt + 30_000 })
    run.pass(31_000).command('remark', 'later')
    expect(viewOf(STARTING, run.state).clocks).toEqual([])
  })

  it('is told at once where the machine slept through its end, and only once', () => {
    const run = unitOff(running()).pass(600_000).happen({ type: 'timeUp', of: 'start.unit' })
    expect(run.said()).toContain('The unit may go off.')
    run.happen({ type: 'timeUp', of: 'start.unit' })
    expect(run.said()).toBe('')
  })
})

describe('a remark', () => {
  it('that names a known quirk of the simulator is answered with it, and any other is noted', () => {
    const run = inFlow().command('remark', 'the generator caution is on')
    expect(run.said()).toBe('Remark noted. Known fault of the simulator, a false generator caution.')
    expect(run.command('remark', 'a generator hums').said()).toBe('Remark noted.')
    const { remarks } = debriefOf(STARTING, run.events)
    expect(remarks.map(({ known }) => known)).toEqual(['a false generator caution', undefined])
  })
})

describe('a critical item', () => {
  it('is passed only on a second affirm', () => {
    const run = running().happen(callOf('start')).command('pass', 'training')
    run.command('affirm')
    expect(run.said()).toBe('Critical item. Confirm again?')
    expect(run.state.items['start.unit']?.status).not.toBe('passed')
    run.command('affirm')
    expect(run.state.items['start.unit']).toMatchObject({ status: 'passed', reason: 'training' })
  })
})

describe('coaching', () => {
  const WRONG = [{ name: 'unit', kind: 'word', state: 'wrong', heard: 'on' }] as const

  it('sends the eyes to the instrument and never gives the value; the debrief counts it', () => {
    const run = beforeEngine({ coachAfter: 2 })
    const at = now(run)
    run.happen(began(at)).happen(called('rotation', at)).happen(called('light', at))
    run.happen(called('stable', at, { value: 58, inRange: true })).happen(callOf('start'))
    run.answer('negative', { parts: WRONG })
    expect(run.said()).toBe('I heard on. Look at the power unit panel.')
    expect(run.state.items['start.unit']).toMatchObject({ looks: 1, revealed: false })
    const item = debriefOf(STARTING, run.events).lists[1]?.items[0]
    expect(item).toMatchObject({ look: ['the power unit panel'], looks: 1 })
  })

  it('is silent where it is off', () => {
    const run = running().happen(callOf('start')).answer('negative', { parts: WRONG })
    expect(run.said()).toBe('I heard on.')
  })
})

describe('a list that was not called', () => {
  it('is in the debrief', () => {
    const run = inFlow().happen(callOf('start')).command('negative')
    const account = debriefOf(STARTING, run.events)
    expect(account.lists.map(({ name, called }) => [name, called])).toEqual([
      ['Load list', false],
      ['Start list', true],
    ])
    expect(account.outOfOrder).toMatchObject([{ list: 'Start list', before: 'Load list' }])
  })
})
