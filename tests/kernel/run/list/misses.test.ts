/** What Otherseat says to a wrong answer: what it heard, in words, so that a misreading is noticed. */

import { describe, expect, it } from 'vitest'
import type { Part } from '../../../../src/kernel/response/model.ts'
import { begun, call } from '../fixture.ts'

const wrong = (part: Partial<Part>): Part => ({ name: 'trim', kind: 'figure', state: 'wrong', ...part }) as Part
const miss = (...parts: Part[]) => begun().happen(call('load')).answer('negative', { parts })

describe('what was heard', () => {
  it('is a value that was read, as it is said', () => {
    expect(miss(wrong({ read: 6.1, heard: '6.1 up' })).said()).toBe('I heard six point one up.')
  })

  it('is the words of a part that was not read as a value', () => {
    expect(miss(wrong({ heard: 'nose down' })).said()).toBe('I heard nose down.')
  })

  it('is the words of a state, and of a figure that the pack does not have', () => {
    expect(miss(wrong({ name: 'set', kind: 'word', heard: 'not set' })).said()).toContain('I heard not set.')
    expect(miss(wrong({ name: 'gone', read: 5, heard: 'five' })).said()).toContain('I heard five.')
  })

  it('is only what was wrong, each in turn', () => {
    const right: Part = { name: 'flap', kind: 'figure', state: 'ok', read: 14, heard: 'fourteen' }
    const both = [
      wrong({ read: 6.1, heard: 'six one up' }),
      right,
      wrong({ name: 'windows', kind: 'word', heard: 'open' }),
    ]
    expect(miss(...both).said()).toBe('I heard six point one up, open.')
  })

  it('is all that was said where no part was heard', () => {
    expect(miss(wrong({})).said()).toBe('I heard words.')
    expect(miss().said()).toBe('I heard words.')
  })
})

describe('a wrong value', () => {
  it('is the same again only where all that was wrong is the same', () => {
    const one = wrong({ read: 6.1, heard: 'six one up' })
    const other = wrong({ name: 'flap', read: 5, heard: 'five' })
    expect(
      miss(one)
        .answer('negative', { parts: [one] })
        .said(),
    ).toContain('Revision one here.')
    expect(
      miss(one)
        .answer('negative', { parts: [one, other] })
        .said(),
    ).not.toContain('Newer one')
    expect(
      miss(one)
        .answer('negative', { parts: [wrong({ heard: 'six one up' })] })
        .said(),
    ).not.toContain('Newer one')
    expect(miss(one).state.items['load.trim']).toMatchObject({ refused: 'trim=6.1', misses: 1 })
    expect(miss(wrong({ heard: 'low' })).state.items['load.trim']?.refused).toBe('trim=low')
  })

  it('is told with nothing in it that was not said', () => {
    const heard = (text: string, read: number) => miss(wrong({ read, heard: text })).said()
    expect(heard('four point zero', 4)).toBe('I heard four point zero.')
    expect(heard('two four', 24)).toBe('I heard two four.')
    expect(heard('neutral', 0)).toBe('I heard neutral.')
    expect(heard('4.0 up', 4)).toBe('I heard four point zero up.')
  })

  it('leaves what was refused before where nothing was heard wrong', () => {
    const run = miss(wrong({ read: 6.1 })).answer('negative', { parts: [] })
    expect(run.state.items['load.trim']).toMatchObject({ refused: 'trim=6.1', misses: 2 })
    expect(miss().state.items['load.trim']?.refused).toBeUndefined()
  })
})

describe('an answer that is not understood, again and again', () => {
  const unclear = (run: ReturnType<typeof begun>, by: 'voice' | 'typed', text = 'two banana') =>
    run
      .happen({
        type: 'answered',
        item: 'load.trim',
        evidence: { by, text },
        judgement: { verdict: 'sayAgain', because: 'notUnderstood', parts: [] },
        expected: {},
        challengeRevision: 1,
        revision: 1,
      })
      .said()

  it('draws words to the fourth, which says that it still listens, and then a tone each time', () => {
    const run = begun().happen(call('load'))
    const said = Array.from({ length: 6 }, () => unclear(run.pass(10_000), 'voice'))
    expect(said).toEqual([
      ...['Say again, takeoff trim.', 'Say again takeoff trim, digit by digit.', 'Cannot copy. Type it, or hold.'],
      ...['Still listening.', '', ''],
    ])
    expect(run.effects).toContainEqual({ type: 'tone', tone: 'soft' })
  })

  it('where it was typed is asked for again each time: no key would help', () => {
    const run = begun().happen(call('load'))
    const said = Array.from({ length: 4 }, () => unclear(run, 'typed'))
    expect(said).toEqual(['Say again, takeoff trim.', ...Array(3).fill('Say again takeoff trim, digit by digit.')])
  })

  it('asks for digits where there may have been some, and not where none was said', () => {
    for (const [by, text, again] of [
      ['typed', 'checked no', 'Say again, takeoff trim.'],
      ['voice', 'checked no', 'Say again, takeoff trim.'],
      ['typed', 'banana', 'Say again, takeoff trim.'],
      ['typed', 'six banana', 'Say again takeoff trim, digit by digit.'],
      ['voice', 'banana', 'Say again takeoff trim, digit by digit.'],
    ] as const) {
      const run = begun().happen(call('load'))
      unclear(run.pass(10_000), by, text)
      expect(unclear(run.pass(10_000), by, text), `${by}: ${text}`).toBe(again)
    }
  })
})

describe('advice after a miss', () => {
  it('is one thing: whether there are newer figures, and never the value; no paper has it here', () => {
    const trim = wrong({ read: 6.1, heard: 'six one up' })
    const run = begun({ coachAfter: 3 }).happen(call('load'))
    const said = Array.from({ length: 3 }, () => run.answer('negative', { parts: [trim] }).said())
    expect(said).toEqual([
      'I heard six point one up.',
      'I heard six point one up. Revision one here. Newer one?',
      'I heard six point one up. Revision one here. Newer one?',
    ])
    expect(run.state.items['load.trim']?.revealed).toBe(false)
  })
})
