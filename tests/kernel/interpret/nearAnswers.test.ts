/** Answers that differ in one place from the one that was heard, judged as it was. */

import { describe, expect, it } from 'vitest'
import { lastAnswerIn } from '../../../src/app/run/lastAnswer.ts'
import { nearAnswers } from '../../../src/kernel/interpret/nearAnswers.ts'
import { isAnswer } from '../../../src/kernel/run/core/forRoom.ts'
import { begun, call, PACK, type TestRun } from '../run/fixture.ts'

function near(run: TestRun): string[] {
  const answer = lastAnswerIn(PACK, run.events)
  if (!answer || !isAnswer(answer.event)) throw new Error('nothing was answered')
  return nearAnswers(PACK, { before: answer.before, event: answer.event }).map(
    ({ how, words, judgement }) => `${how}: ${words.join(' ')}: ${judgement?.verdict ?? 'none'}`,
  )
}

const atTrim = () => begun().happen(call('load'))

describe('answers near to one', () => {
  it('that was right are wrong or half', () => {
    expect(near(atTrim().hear('five point two up'))).toEqual([
      'otherDigit: five point three up: negative',
      'opposite: five point two down: negative',
      'leftOut: five point two: incomplete',
    ])
  })

  it('that was wrong begin with the value in force', () => {
    expect(near(atTrim().hear('six point one up, set'))).toEqual([
      'putRight: five point two up set: correct',
      'otherDigit: five point three up set: negative',
      'opposite: five point two down set: negative',
    ])
  })

  it('are made of numerals as well, and of words of state', () => {
    expect(near(atTrim().hear('5.2 up', { by: 'typed' }))[0]).toBe('otherDigit: 5.3 up: negative')
    const windows = atTrim().answer('correct').answer('correct').hear('closed')
    expect(near(windows)).toEqual(['opposite: open: negative'])
  })

  it('take nothing from what a half answer lacks', () => {
    expect(near(atTrim().hear('five point two')).join()).not.toContain('up')
  })
})
