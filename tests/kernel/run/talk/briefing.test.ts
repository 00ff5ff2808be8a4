/** What a briefing leaves to be seen of each breath, and what ends it. */

import { describe, expect, it } from 'vitest'
import { isOnlyNamed } from '../../../../src/app/view/partsShown.ts'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import { responseFrom } from '../../../../src/kernel/response/response.ts'
import { TYPED } from '../fixture.ts'
import { SAID, TALK, talkRun } from '../talkFixture.ts'

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

  it('without values is shown as briefed, and as correct only where something was compared', () => {
    const shownAs = (text: string) => {
      const { last } = inBriefing().hear(text).state
      return last && isOnlyNamed(TALK, last)
    }
    expect(shownAs('rejected takeoff')).toBe(true)
    expect(shownAs('runway two seven left')).toBe(false)
    expect(shownAs('runway two seven right')).toBe(false)
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

describe('several values of one topic', () => {
  const SPEED = { kind: 'speed', unit: 'kt' } as const
  const DECLARED = { input: true, alsoCalled: [], spec: SPEED } as const
  const speeds = {
    v1: { ...DECLARED, name: 'v1', label: 'V one' },
    v2: { ...DECLARED, name: 'v2', label: 'V two' },
  }
  const withSpeeds: Pack = {
    ...TALK,
    figures: { ...TALK.figures, declarations: { ...TALK.figures.declarations, ...speeds } },
    phases: TALK.phases.map((phase) => ({
      ...phase,
      activities: phase.activities.map((one) =>
        one.type === 'briefing'
          ? {
              ...one,
              topics: [
                ...one.topics,
                { id: 'briefing.speeds', label: 'speeds', say: [responseFrom('V one <v1> [V two <v2>]')] },
              ],
            }
          : one,
      ),
    })),
  }
  const wrong = () => {
    const run = talkRun(SAID, withSpeeds).hear('request clearance').hear(CLEARANCE)
    run.state = { ...run.state, values: { ...run.state.values, v1: 128, v2: 141 } }
    return run.hear('V one one two eight, V two one three five')
  }

  it('are asked for by the one that was wrong, which is then said by itself', () => {
    const run = wrong()
    expect(run.said()).toEqual(['otherseat: I heard one three five. Speeds, V two?'])
    run.hear('V two one four one')
    expect(run.state.topics['briefing.speeds']).toBe('ok')
    expect(run.state.said).toBe('')
  })

  it('are not called left out when the briefing ends', () => {
    const run = wrong().hear('briefing complete')
    expect(run.said()).toEqual(['otherseat: Nothing on runway, first level and rejected takeoff yet. Speeds, V two?'])
    run.hear('runway two seven left')
    expect(run.state.said).toBe('Speeds, V two?')
  })
})

describe('"recheck" and the name of a briefing', () => {
  it('opens one that was complete, wherever the run is, and none that is still to come', () => {
    const run = inBriefing()
    const topics = ['runway two seven left', 'tarn two alfa departure', 'first level five thousand', 'rejected takeoff']
    for (const topic of topics) run.hear(topic)
    run.hear('briefing complete')
    expect(run.state.briefingsClosed).toEqual(['briefing'])
    run.hear('recheck departure briefing')
    expect(run.state.briefingsClosed).toEqual([])
    expect(run.state.floor.at).toBe('briefing')
    // One that is still to come is made in its turn.
    expect(talkRun().hear('recheck departure briefing').state.floor.at).toBe('exchange')
  })
})
