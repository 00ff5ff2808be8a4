/** Words of command that a response has for its own are words of the answer there. */

import { describe, expect, it } from 'vitest'
import { judgeText } from '../../corpus/judgeText.ts'

const judged = (response: string, heard: string, yesNo = false) => {
  const { verdict, because, command } = judgeText({ response, figures: {}, heard, yesNo })
  return [verdict, because ?? command].filter((each) => each !== undefined).join(' ')
}

describe.each([
  ['disregard lights', 'disregard lights', 'correct'],
  ['(disregard lights | on)', 'disregard lights', 'correct'],
  ['set', 'disregard', 'command disregard'],
  ['set', 'set disregard', 'command disregard'],
  ['remark sent', 'remark sent', 'correct'],
  ['(remark sent | none)', 'remark sent', 'correct'],
  ['set', 'remark birds set', 'command remark'],
  ['set', 'uh remark birds set', 'command remark'],
  ['correction applied', 'correction applied', 'correct'],
  ['(correction applied | none)', 'correction applied', 'correct'],
  ['set', 'negative', 'negative refused'],
  ['set', 'uh negative', 'negative refused'],
  ['set', 'the negative', 'negative refused'],
  ['set', 'negative that is', 'negative refused'],
  ['set', 'negative flaps', 'sayAgain ambiguous'],
  ['set', 'uh', 'sayAgain notUnderstood'],
  ['on', 'off stand by', 'negative state'],
  ['on', 'off say again', 'negative state'],
  ['on', 'off checklist', 'negative state'],
  ['on', 'on stand by', 'correct'],
  ['on', 'stand by', 'command standBy'],
  ['negative pressure', 'negative pressure', 'correct'],
  ['(negative pressure | none)', 'negative pressure', 'correct'],
])('to "%s"', (response, heard, outcome) => {
  it(`"${heard}" is ${outcome}`, () => {
    expect(judged(response, heard)).toBe(outcome)
  })
})

it('"negative" is no refusal where it is a word of the answer, and a no where a yes or no is asked', () => {
  expect(judged('negative pressure', 'negative')).not.toBe('negative refused')
  expect(judged('set', 'negative', true)).toBe('command negative')
})

it('a refusal and a command say nothing of the parts', () => {
  for (const heard of ['negative', 'disregard']) {
    expect(judgeText({ response: 'set', figures: {}, heard }).parts).toEqual([])
  }
})

describe('the name of a list', () => {
  const lists = { beforeStart: ['before start'], start: ['start'], taxi: ['taxi', 'taxi out'] }
  const called = (heard: string) => {
    const { command, argument } = judgeText({ response: 'set', figures: {}, heard, lists })
    return `${command} ${argument}`
  }

  it.each([
    ['before start checklist', 'call beforeStart'],
    ['the before start list please', 'call beforeStart'],
    ['please give me the before start checklist', 'call beforeStart'],
    ['ok taxi out list', 'call taxi'],
    ['banana before start checklist', 'undefined undefined'],
    ['before start checklist banana', 'undefined undefined'],
    ['before checklist', 'undefined undefined'],
  ])('"%s" is %s', (heard, outcome) => {
    expect(called(heard)).toBe(outcome)
  })
})
