import { describe, expect, it } from 'vitest'
import { changedPaths, laidUnder, type PastDraft, pastAfter } from '../../src/app/figures/undo.ts'
import type { Inputs } from '../../src/kernel/figures/model.ts'

const draft = (values: Inputs['values'], loads: Inputs['loads'] = {}): Inputs => ({ status: 'final', values, loads })

/** The past of a draft that was all of these one after the other. */
const pastOf = (...drafts: readonly Inputs[]) =>
  drafts
    .slice(1)
    .reduce<readonly PastDraft[]>((past, after, index) => pastAfter(past, drafts[index] as Inputs, after), [])

describe('undo', () => {
  it('tells by path what changed between two drafts', () => {
    const before = draft({ fuel: 1, trim: 2 })
    expect(changedPaths(before, { ...before, values: { fuel: 1, trim: 3 } })).toEqual(['values.trim'])
    expect(changedPaths(before, draft({ fuel: 1 }, { hold: 4 }))).toEqual(['values.trim', 'loads.hold'])
    expect(changedPaths(before, before)).toEqual([])
  })

  it('has one step for all keys in a field, and one for a whole sheet', () => {
    const empty = draft({})
    const typed = [draft({ fuel: 5 }), draft({ fuel: 52 }), draft({ fuel: 520 })]
    const sheet = draft({ fuel: 600, trim: 3 }, { hold: 40 })
    const another = draft({ fuel: 700, trim: 4 }, { hold: 50 })
    expect(pastOf(empty, ...typed).map((step) => step.draft)).toEqual([empty])
    expect(pastOf(empty, ...typed, sheet, another).map((step) => step.draft)).toEqual([empty, typed[2], sheet])
  })

  it('has no step where nothing changed', () => {
    expect(pastOf(draft({ fuel: 5 }), draft({ fuel: 5 }))).toEqual([])
  })

  it('keeps what came by voice in the meantime', () => {
    const past = laidUnder(pastOf(draft({ fuel: 5 }), draft({ fuel: 6 })), (one) => ({
      ...one,
      values: { ...one.values, altimeter: 1009 },
    }))
    expect(past.map((step) => step.draft.values)).toEqual([{ fuel: 5, altimeter: 1009 }])
  })
})
