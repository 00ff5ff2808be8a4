import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Happening } from '../../../src/kernel/run/events.ts'
import { itemsOf, listsOf } from '../../../src/kernel/run/place.ts'
import { fold } from '../../../src/kernel/run/step.ts'
import { itemState } from '../../../src/kernel/run/turn.ts'
import { begun, type FINAL, PACK, PRELIMINARY, revision, type TestRun, TYPED } from './fixture.ts'

type Move = (run: TestRun) => void

const commands = [
  'sayAgain',
  'standBy',
  'continue',
  'disregard',
  'correction',
  'whatIsLeft',
  'goBack',
  'fromTop',
  'leaveOpen',
  'affirm',
  'negative',
  'remark',
]
const open = (run: TestRun) => (run.state.floor.at === 'item' ? run.state.floor.item : undefined)

const happens =
  (happening: Happening): Move =>
  (run) =>
    void run.happen(happening)
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
    arbitrary: fc.constantFrom(...commands).map(
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
    weight: 1,
    arbitrary: fc.constantFrom('prompt', 'tone').map(
      (after): Move =>
        (run) =>
          void run.happen({ type: 'silent', order: run.state.order, after: after as 'prompt' }),
    ),
  },
)

/** What must hold after every event. */
function expectSound(run: TestRun): void {
  for (const list of listsOf(PACK)) {
    const items = itemsOf(list, run.state.situation)
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
      fc.property(fc.array(move, { maxLength: 60 }), (moves) => {
        const run = begun()
        for (const one of moves) {
          const before = run.state
          one(run)
          expectSound(run)
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
        expect(fold(PACK, 'run', run.events)).toEqual(run.state)
        const cut = Math.floor(run.events.length / 2)
        const half = fold(PACK, 'run', run.events.slice(0, cut))
        expect(half.seq).toBe(cut - 1)
      }),
      { numRuns: 400 },
    )
  })
})
