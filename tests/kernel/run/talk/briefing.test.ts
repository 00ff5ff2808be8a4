/** What a briefing leaves to be seen of each breath, and what ends it. */

import { describe, expect, it } from 'vitest'
import { TYPED } from '../fixture.ts'
import { talkRun } from '../talkFixture.ts'

const CLEARANCE = 'cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven one'
const inBriefing = () => talkRun().hear('request clearance').hear(CLEARANCE)

describe('a breath of a briefing', () => {
  it('with right values is right, topic by topic', () => {
    const run = inBriefing().hear('runway two seven left')
    expect(run.state.last).toMatchObject({
      of: 'briefing',
      item: 'briefing',
      challenge: 'departure briefing',
      text: 'runway two seven left',
      judgement: { verdict: 'correct', parts: [{ name: 'briefing.runway', kind: 'word', state: 'ok' }] },
    })
  })

  it('with a wrong value is negative, and the topic is asked for again', () => {
    const run = inBriefing().hear('runway two seven left, level six thousand')
    expect(run.state.last?.judgement).toEqual({
      verdict: 'negative',
      because: 'value',
      parts: [
        { name: 'briefing.runway', kind: 'word', state: 'ok' },
        { name: 'briefing.level', kind: 'word', state: 'wrong' },
      ],
    })
    expect(run.said().join(' ')).toBe('otherseat: I heard six thousand. First level?')
  })

  it('that denies a topic is negative, though no value was wrong', () => {
    const briefed = { type: 'briefed', briefing: 'briefing', evidence: TYPED, heard: [] } as const
    const denied = inBriefing().happen({ ...briefed, topics: { 'briefing.level': 'wrong' } })
    expect(denied.state.last?.judgement.verdict).toBe('negative')
    const unknown = inBriefing().happen({ ...briefed, topics: {}, heard: ['six thousand'] })
    expect(unknown.state.last?.judgement.verdict).toBe('negative')
  })

  it('elsewhere changes nothing', () => {
    const run = talkRun()
    const { floor } = run.state
    run.happen({ type: 'briefingEnded', briefing: 'briefing', evidence: TYPED })
    expect([run.said(), run.state.floor]).toEqual([[], floor])
    expect(run.state.briefingsClosed).toEqual([])
  })
})

describe('"recheck" and the name of a briefing', () => {
  it('opens one that was complete, wherever the run is; one that was not begun is not known', () => {
    const run = inBriefing()
    const topics = ['runway two seven left', 'tarn two alfa departure', 'first level five thousand', 'rejected takeoff']
    for (const topic of topics) run.hear(topic)
    run.hear('briefing complete')
    expect(run.state.briefingsClosed).toEqual(['briefing'])
    run.hear('recheck departure briefing')
    expect(run.state.briefingsClosed).toEqual([])
    expect(run.state.floor.at).toBe('briefing')
    expect(talkRun().hear('recheck departure briefing').state.floor.at).not.toBe('briefing')
  })
})
