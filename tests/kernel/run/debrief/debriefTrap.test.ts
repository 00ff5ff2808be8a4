/** Whether the trap of a departure was caught, from what was said first with the final figures in. */

import { describe, expect, it } from 'vitest'
import type { Trap } from '../../../../src/kernel/figures/deal.ts'
import { trapIn } from '../../../../src/kernel/run/debrief/debriefTrap.ts'
import { momentsOf } from '../../../../src/kernel/run/debrief/moments.ts'
import { begun, call, FINAL, PACK, PRELIMINARY, revision, type TestRun } from '../fixture.ts'

const TRAP: Trap = { kind: 'staleTrim', figures: ['trim'], told: 'the trim went' }
const how = (run: TestRun, trap = TRAP) => trapIn(PACK, momentsOf(PACK, run.events).own, trap)

/** At the trim, with the final figures in at once, or only the preliminary ones. */
const atTrim = (isFinal = true) =>
  (isFinal ? begun().happen(revision(2, 'final', FINAL, PRELIMINARY)) : begun()).happen(call('load'))

describe('the trap', () => {
  it('was caught where its figure was right at once, with when and in which words', () => {
    expect(how(atTrim().answer('sayAgain').answer('correct').answer('negative'))).toEqual({
      ...{ told: 'the trim went', caught: true },
      how: 'Caught at 0:05: “words” at takeoff trim.',
    })
  })

  it('was not at first where it was wrong first, though it came right', () => {
    expect(how(atTrim().answer('negative').answer('correct'))).toMatchObject({
      caught: false,
      how: 'At 0:04 you said “words” at takeoff trim first, with the final figures in: not caught at first.',
    })
  })

  it('is judged by a value that was worked out, too', () => {
    const own = { type: 'ownValueSaid', figure: 'trim', value: 4.1, isRight: false, causes: [] } as const
    const evidence = { by: 'typed', text: 'four point one' } as const
    const run = atTrim()
      .happen({ ...own, evidence })
      .answer('correct')
    expect(how(run).how).toContain('you said “four point one” at takeoff trim first')
  })

  it('cannot be judged on preliminary figures, nor by another figure', () => {
    const unknown = { told: 'the trim went', how: 'Nothing of it was answered on the final figures.' }
    expect(how(atTrim(false).answer('negative').answer('correct'))).toEqual(unknown)
    expect(how(atTrim().answer('negative').answer('correct'), { ...TRAP, figures: ['code'] })).toEqual(unknown)
  })

  it('was not caught where the wrong sheet was settled on', () => {
    const rule = { kind: 'wrongTotal', figure: 'trim', also: [], source: 'loadSheet' }
    const figures = { ...PACK.figures, basis: { deal: { traps: [rule] } } } as unknown as typeof PACK.figures
    const run = atTrim().answer('correct')
    const settled = { trim: { use: 'loadSheet', reason: 'newer' } }
    const moments = momentsOf(PACK, run.events).own.map((one) => ({
      ...one,
      after: { ...one.after, inputs: { ...one.after.inputs, settled } as never },
    }))
    expect(trapIn({ ...PACK, figures }, moments, { ...TRAP, kind: 'wrongTotal' })).toMatchObject({
      caught: false,
      how: 'You settled on the sheet that was wrong: not caught.',
    })
  })
})
