/** A key in place of an answer, and answers that come to an item that is no longer open. */

import { describe, expect, it } from 'vitest'
import { begun, call, TYPED } from '../fixture.ts'

const atTrim = () => begun().happen(call('load'))
const byKey = (item: string, revision = 1) =>
  ({
    type: 'confirmedByKey',
    item,
    expected: { trim: 5.2 },
    revision,
    evidence: { by: 'key', text: '' },
  }) as const

describe('a key in place of an answer', () => {
  it('closes the open item with a tick, and the item keeps by what it was closed', () => {
    const run = atTrim().happen(byKey('load.trim'))
    expect(run.state.items['load.trim']).toMatchObject({ status: 'done', by: 'key', expected: { trim: 5.2 } })
    expect(run.effects).toContainEqual({ type: 'tone', tone: 'tick' })
    expect(run.state.floor).toMatchObject({ at: 'item', item: 'load.flap' })
  })

  it('does nothing to an item that is not open', () => {
    const before = atTrim().state
    const run = atTrim().happen(byKey('load.flap'))
    expect(run.state.items['load.flap']?.status ?? 'open').toBe('open')
    expect(run.state.floor).toEqual(before.floor)
    expect(run.effects).toEqual([])
  })
})

describe('an answer', () => {
  const judgement = { verdict: 'correct', parts: [] } as const
  const answered = (item: string, revision: number) =>
    ({
      type: 'answered',
      item,
      evidence: TYPED,
      judgement,
      expected: { trim: 5.2 },
      challengeRevision: revision,
      revision,
    }) as const

  it.each([
    ['to an item that is not open', answered('load.flap', 1)],
    ['on figures that are no longer in force', answered('load.trim', 0)],
  ])('%s closes nothing', (_, event) => {
    const run = atTrim().happen(event)
    expect(run.state.floor).toMatchObject({ at: 'item', item: 'load.trim' })
    expect(run.state.items[event.item]?.status ?? 'open').toBe('open')
    expect(run.effects).toEqual([])
  })
})

describe('words that are judged against nothing', () => {
  it.each(['late', 'figuresChanged'] as const)('because they were %s draw nothing', (because) => {
    const run = atTrim().happen({ type: 'voided', item: 'load.trim', because, evidence: TYPED })
    expect(run.effects).toEqual([])
    expect(run.state.floor).toMatchObject({ item: 'load.trim' })
  })

  it('because their beginning was lost are asked for again', () => {
    const run = atTrim().happen({ type: 'voided', item: 'load.trim', because: 'onsetCut', evidence: TYPED })
    expect(run.effects.some(({ type }) => type === 'listen')).toBe(true)
  })
})

describe('what was read off a source', () => {
  it('answers the question that was open', () => {
    const run = atTrim().happen({ type: 'crossCheckAsked', figure: 'trim', source: 'loadSheet', evidence: TYPED })
    expect(run.state.question).toMatchObject({ about: 'reading' })
    const stated = { type: 'stated', figure: 'trim', source: 'loadSheet', value: 5.2, evidence: TYPED } as const
    expect(run.happen(stated)).toMatchObject({ state: { question: undefined }, effects: [] })
  })
})
