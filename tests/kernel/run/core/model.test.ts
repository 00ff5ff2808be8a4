import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { itemsOf, listsOf } from '../../../../src/kernel/pack/place.ts'
import { type EventBody, RUN_COMMANDS } from '../../../../src/kernel/run/core/events.ts'
import { itemState } from '../../../../src/kernel/run/core/progress.ts'
import { fold, step } from '../../../../src/kernel/run/core/step.ts'
import { cases } from '../../../cases.ts'
import { type FINAL, PRELIMINARY, revision, type TestRun, TYPED } from '../fixture.ts'
import { abnormal, beforeEngine, began, called, ENGINE, inFlow, STARTING } from '../startFixture.ts'

type Move = (run: TestRun) => void

const MODES = [{}, { flows: 'memory' }, { flows: 'spoken' }, { timesAloud: true, coachAfter: 2 }] as const
const open = (run: TestRun) => (run.state.floor.at === 'item' ? run.state.floor.item : undefined)

/** The call that is to be heard next, with a value in its range. */
const rightCall: Move = (run) => {
  const next = ENGINE.calls.find(({ id }) => run.state.watches.engine?.calls[id] === undefined)
  const value = next?.value ? { value: 58, inRange: true } : {}
  if (next) run.happen(called(next.id, run.state.t, value))
}

const happens =
  (body: EventBody): Move =>
  (run) =>
    void run.happen(body)
const move: fc.Arbitrary<Move> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.constantFrom('correct', 'negative', 'incomplete', 'sayAgain').map(
      (verdict): Move =>
        (run) =>
          void (open(run) && run.answer(verdict as 'correct')),
    ),
  },
  {
    weight: 3,
    arbitrary: fc.constantFrom(...RUN_COMMANDS).map(
      (command): Move =>
        (run) =>
          void run.command(command),
    ),
  },
  {
    weight: 3,
    arbitrary: fc.constantFrom('load', 'start').map((list) => happens({ type: 'listCalled', list, evidence: TYPED })),
  },
  { weight: 1, arbitrary: fc.constant(happens({ type: 'cleared', clearance: 'push', evidence: TYPED })) },
  {
    weight: 1,
    arbitrary: fc
      .constantFrom('push', 'self')
      .map((value) => happens({ type: 'situationSet', name: 'stand', value, evidence: TYPED })),
  },
  {
    weight: 2,
    arbitrary: fc.tuple(fc.constantFrom(5.2, 4.6), fc.constantFrom(8, 14)).map(
      ([trim, flap]): Move =>
        (run) => {
          const values = { ...PRELIMINARY, trim, flap }
          run.happen(
            revision(
              run.state.revision + 1,
              run.state.revision % 2 ? 'final' : 'preliminary',
              values,
              run.state.values as typeof FINAL,
            ),
          )
        },
    ),
  },
  { weight: 1, arbitrary: fc.constant((run: TestRun) => void run.command('pass', 'training')) },
  { weight: 1, arbitrary: fc.constant(happens({ type: 'resumed' })) },
  {
    weight: 2,
    arbitrary: fc.constantFrom(500, 15_000, 45_000, 200_000).map(
      (ms): Move =>
        (run) =>
          void run.pass(ms),
    ),
  },
  {
    weight: 3,
    arbitrary: fc
      .constantFrom('papers', 'setTrim')
      .map((step) => happens({ type: 'stepDone', step: `loadFlow.${step}`, evidence: TYPED })),
  },
  { weight: 1, arbitrary: fc.constant(happens({ type: 'flowClosed', flow: 'loadFlow', evidence: TYPED })) },
  { weight: 1, arbitrary: fc.constant(happens({ type: 'flowAsked', flow: 'loadFlow', evidence: TYPED })) },
  { weight: 3, arbitrary: fc.constant((run: TestRun) => void run.happen(began(run.state.t))) },
  { weight: 6, arbitrary: fc.constant(rightCall) },
  { weight: 1, arbitrary: fc.constant((run: TestRun) => void run.happen(abnormal(run.state.t))) },
  {
    weight: 6,
    arbitrary: fc.tuple(fc.constantFrom('rotation', 'light', 'stable'), fc.constantFrom(58, 64, undefined)).map(
      ([call, value]): Move =>
        (run) =>
          void run.happen(
            called(call, run.state.t, call === 'stable' && value !== undefined ? { value, inRange: value === 58 } : {}),
          ),
    ),
  },
  {
    weight: 1,
    arbitrary: fc
      .tuple(fc.constantFrom('rotation', 'light', 'stable'), fc.constantFrom('ask', 'limit'))
      .map(([call, stage]) => happens({ type: 'watchDue', watch: 'engine', call, stage: stage as 'ask' })),
  },
  { weight: 1, arbitrary: fc.constantFrom('engine', 'start.unit').map((of) => happens({ type: 'timeUp', of })) },
  {
    weight: 1,
    arbitrary: fc.constantFrom('prompt', 'tone').map(
      (after): Move =>
        (run) =>
          void run.happen({ type: 'silent', order: run.state.listenId, after: after as 'prompt' }),
    ),
  },
)

/** From the first flow, or with the first list done and the engine to be started. */
const begins = fc.constantFrom(...MODES.flatMap((mode) => [() => inFlow(mode), () => beforeEngine(mode)]))

/** Calls are taken in their order only, and the watch is done with the last of them; what time holds is not done before. */
function expectTimed(run: TestRun, before: TestRun['state']): void {
  const { engine } = run.state.watches
  const isCalled = ENGINE.calls.map(({ id }) => engine?.calls[id] !== undefined)
  expect(isCalled).toEqual([...isCalled].sort((one, other) => Number(other) - Number(one)))
  expect(engine?.status === 'done').toBe(isCalled.every((one) => one))
  const value = engine?.values.stable
  if (value !== undefined) expect(value).toBe(58)
  const wasRunning = before.watches.engine?.status === 'running'
  // An engine that is being started keeps the floor.
  if (engine?.status === 'running') expect(run.state.floor.at).toBe('watch')
  const { notBefore } = before.watches.engine ?? {}
  if (engine?.status === 'running' && !wasRunning && notBefore) {
    expect(run.state.t).toBeGreaterThanOrEqual(notBefore.until)
  }
  const isNew = run.state.doneAt['start.unit'] !== undefined && before.doneAt['start.unit'] === undefined
  if (isNew && run.state.items['start.unit']?.status === 'done') {
    expect(run.state.t).toBeGreaterThanOrEqual((run.state.doneAt.engine ?? Number.POSITIVE_INFINITY) + 30_000)
  }
  // Whatever was asked for, the next moment of a running start has its timer wherever timers were stopped.
  if (run.effects.some(({ type }) => type === 'stopTimers') && engine?.status === 'running') {
    const next = ENGINE.calls.find(({ id }) => engine.calls[id] === undefined)
    const isTold = next !== undefined && engine.unheard.includes(next.id)
    const hasTimer = run.effects.some((effect) => effect.type === 'startTimer' && effect.timer === 'watch')
    expect(hasTimer).toBe(!isTold)
  }
}

/** Breaks follow one another and none is longer than the time there was. */
function expectBreaks({ state }: TestRun): void {
  for (const [index, { t, lengthMs }] of state.interruptions.entries()) {
    expect(lengthMs).toBeGreaterThanOrEqual(0)
    expect(t + lengthMs).toBeLessThanOrEqual(state.interruptions[index + 1]?.t ?? state.t)
  }
}

/** What must hold after every event. */
function expectSound(run: TestRun): void {
  for (const list of listsOf(STARTING)) {
    const items = itemsOf(list, run.state)
    for (const { id } of items) {
      const { status, expected } = itemState(run.state, id)
      if (status === 'done')
        for (const [name, value] of Object.entries(expected)) expect(run.state.values[name]).toBe(value)
    }
    if (run.state.lists[list.id]?.complete) {
      for (const { id } of items) expect(['done', 'passed']).toContain(itemState(run.state, id).status)
    }
  }
}

describe('a run under any sequence of events', () => {
  it('closes no item without its evidence, completes nothing over an open or stale item, and folds to the same state', () => {
    fc.assert(
      fc.property(begins, fc.array(move, { maxLength: 80, size: 'max' }), fc.nat(), (begin, moves, place) => {
        const run = begin()
        for (const one of moves) {
          const before = run.state
          one(run)
          if (run.state === before) continue
          expectSound(run)
          expectTimed(run, before)
          expectBreaks(run)
          const event = run.events.at(-1)
          for (const [id, item] of Object.entries(run.state.items)) {
            const closed =
              ['done', 'passed'].includes(item.status) && !['done', 'passed'].includes(itemState(before, id).status)
            if (!closed) continue
            const isAnswer = event?.type === 'answered' && event.item === id && event.judgement.verdict === 'correct'
            const isPass =
              event?.type === 'commanded' && event.command === 'affirm' && before.question?.about === 'pass'
            expect(isAnswer || isPass).toBe(true)
          }
        }
        expect(fold(STARTING, 'run', run.events)).toEqual(run.state)
        // From any prefix, and the rest.
        const cut = place % run.events.length
        const half = fold(STARTING, 'run', run.events.slice(0, cut))
        expect(half.seq).toBe(cut - 1)
        const whole = run.events.slice(cut).reduce((state, event) => step(STARTING, state, event).state, half)
        expect(whole).toEqual(run.state)
      }),
      { numRuns: cases(200) },
    )
  })
})
