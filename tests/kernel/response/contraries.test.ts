/** What a briefing must never say. That a takeoff is rejected only before V1: common practice, no source. */

import { describe, expect, it } from 'vitest'
import { transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import { type SpokenTopic, topicsIn } from '../../../src/kernel/response/topics.ts'

const STOP = ['stop', 'reject', 'abort']
const GO = ['continue', 'go', 'fly']
const TOPICS: readonly SpokenTopic[] = [
  {
    id: 'reject',
    say: ['rejected takeoff', '(we | I) [will] [call] stop'].map((text) => responseFrom(text)),
    never: [{ when: ['before v one', 'below v one'], do: GO, instead: STOP }],
  },
  {
    id: 'failure',
    say: ['engine failure', '(after | above) V one (we | I) [will] continue'].map((text) => responseFrom(text)),
    never: [{ when: ['after v one', 'above v one'], do: STOP, instead: GO }],
  },
]
const said = (text: string, held = {}) => topicsIn(TOPICS, {}, transcriptOf(text), held)

describe('a contradiction in a briefing', () => {
  it.each([
    ['after V one we stop', { failure: 'wrong' }],
    ['we stop after V one', { failure: 'wrong' }],
    ['engine failure after V one, I close both thrust levers and stop on the runway', { failure: 'wrong' }],
    ['for any failure after V one I will reject the takeoff', { failure: 'wrong' }],
    ['before V one we continue the takeoff', { reject: 'wrong' }],
    ['if we have a failure before V one we continue', { reject: 'wrong' }],
    ['below V one we go, above V one we stop', { reject: 'wrong', failure: 'wrong' }],
    ['before V one we stop, after V one we continue', { reject: 'ok', failure: 'ok' }],
    ['we stop before V one, we go after V one', { reject: 'ok', failure: 'ok' }],
    ['after V one we do not stop, we continue, engine failure', { failure: 'ok' }],
    ['after V one we stop, correction, after V one we continue', { failure: 'ok' }],
    ['engine failure after V one we continue', { failure: 'ok' }],
  ])('"%s"', (text, topics) => {
    expect(said(text).topics).toEqual(topics)
  })

  it('is put right by what is said rightly after it, and told in its words', () => {
    const wrong = said('above V one we abort')
    expect(wrong.heard).toEqual(['above v one we abort'])
    expect(said('engine failure, after V one we continue', wrong.parts).topics).toEqual({ failure: 'ok' })
    expect(said('rejected takeoff', wrong.parts).topics).toEqual({ reject: 'ok' })
  })
})
