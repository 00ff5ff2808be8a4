/** What pilots say to an answer of the other seat, in their own words: objections, agreement, and what is neither. */

import { describe, expect, it } from 'vitest'
import { pointOf, withoutAttention } from '../../../src/kernel/interpret/disputed.ts'
import type { RunSettings } from '../../../src/kernel/run/core/events.ts'
import type { Fault } from '../../../src/kernel/run/partner/model.ts'
import { begun, call, type TestRun } from '../run/fixture.ts'

const CHALLENGES: Partial<RunSettings> = { partner: { seed: 1, rate: 0 }, roles: 'pilotChallenges' }
const swapped = () => begun(CHALLENGES).happen(call('load'))
const WRONG_TRIM: Fault = {
  ...{ kind: 'wrongValue', grade: 'hard', about: 'load.trim' },
  ...{ figure: 'trim', said: 5.6, right: 5.2 },
}
/** "Five point six up", where 5.2 up is right. */
const wrong = () => swapped().happen({ type: 'faultPlanned', fault: WRONG_TRIM }).hear('takeoff trim')
const valueless = () =>
  swapped()
    .happen({ type: 'faultPlanned', fault: { kind: 'valueless', grade: 'obvious', about: 'load.trim' } })
    .hear('takeoff trim')
const right = () => swapped().hear('takeoff trim')

const lastOf = (run: TestRun) => run.events.at(-1)
/** What became of it, and of which kind the objection is. */
const became = (run: TestRun, text: string) => {
  const event = lastOf(run.hear(text))
  return event?.type === 'objected' ? `objected ${event.to}` : event?.type
}

describe('of a wrong value', () => {
  it.each([
    'five point two up',
    'no, five point two up',
    'negative, five point two up',
    "that's wrong, it should be five point two up",
    'hang on, the card says five point two up',
    "wait a second, I've got five point two up",
    'I make it five point two up',
    "isn't it five point two up?",
    "shouldn't that be five point two up?",
    'sorry, I have five point two up here',
    'on the load sheet it is five point two up',
    'it should have been five point two up, please',
    "that can't be right, five point two up on my card",
    'not quite, five point two up',
    'checked, five point two up',
    'are you sure? I read five point two up',
    'captain, the trim is five point two up',
    'should be 5.2 up',
    "hang on, I've got five point two up on the takeoff data",
    'no, takeoff trim is five point two up',
    'the trim card says five point two up',
    "it's five point two up",
    'that was five point six up, should be five point two up',
  ])('%s', (text) => {
    expect(became(wrong(), text)).toBe('objected value')
  })

  it.each([
    ...['no', 'nope', "that's wrong", 'that is not right', "that doesn't look right", "I don't agree", 'I disagree'],
    ...['are you sure?', 'are you sure about that', 'check that', 'check that again please', 'confirm', 'confirm that'],
    ...['hang on, check that', 'look again', 'have another look', "that's not what I have", 'not what I have'],
    ...['I have a different value', 'mine is different', "I don't think so", "that can't be right", 'verify that'],
    ...['are you sure? check that', "I don't think that was right", "that wasn't right"],
    ...['check the trim', 'wrong', 'incorrect', 'sorry captain, that is not correct'],
  ])('doubted: %s', (text) => {
    expect(became(wrong(), text)).toBe('objected any')
  })

  it.each([
    'value?',
    'checked what?',
    'what value?',
    "what's the value",
    'I need the value',
    'and the value please',
    'I need the figure, not checked',
    'checked is not a value',
  ])('where none was said: %s', (text) => {
    expect(became(valueless(), text)).toBe('objected any')
  })

  it.each(['five point six up, checked', 'I have five point six up', 'five point six up'])(
    'is agreed with by who says the same: %s',
    (text) => {
      expect(became(wrong(), text)).toBe('accepted')
    },
  )
})

describe('of a right value', () => {
  it.each([
    ...['checked', 'check', 'agreed', 'I agree', 'correct', "that's correct", "that's right", 'confirmed', 'verified'],
    ...['OK', 'okay, thanks', 'roger', 'yes', 'thank you', 'good', 'next', 'affirm', 'cross-checked', 'that checks'],
    ...['five point two up, checked', 'checked, five point two up', 'I have five point two up', 'five point two up'],
    ...['the card says five point two up', 'I have the same'],
  ])('agreed with: %s', (text) => {
    expect(became(right(), text)).toBe('accepted')
  })

  it.each(['negative, five point two up', 'no, five point six up', 'I have five point six up', 'five point four up'])(
    'disputed all the same: %s',
    (text) => {
      expect(became(right(), text)).toBe('objected value')
    },
  )

  it.each([
    ...['five point', 'trim', 'the load sheet', 'how do you do', 'say again', 'seven thousand feet', 'no flags'],
    ...['one two three', 'the weather is bad', 'no change', 'not yet', 'stop', 'stand by'],
  ])('is no objection and no agreement: %s', (text) => {
    expect(became(right(), text)).not.toMatch(/^(objected|accepted)/)
  })

  it('is the last of its list: the list called complete takes it for right', () => {
    const atLast = () => swapped().hear('takeoff trim').hear('flap').hear('windows')
    for (const text of ['list complete', 'load list complete', 'load list completed', 'that completes the load list']) {
      const run = atLast()
      expect([text, became(run, text)]).toEqual([text, 'accepted'])
      expect(run.state.lists.load?.complete).toBe(true)
    }
    expect(became(atLast(), 'start list complete')).not.toBe('accepted')
  })
})

describe('a challenge', () => {
  it('is known by less than its whole name, where only one is meant', () => {
    for (const text of ['trim', 'the trim', 'trim please', 'takeoff trim?', 'and the trim']) {
      const event = lastOf(swapped().hear(text))
      expect([text, event]).toMatchObject([text, { type: 'challenged', item: 'load.trim' }])
    }
    const next = lastOf(swapped().hear('takeoff trim').hear('thanks, flaps'))
    expect(next).toMatchObject({ type: 'challenged', item: 'load.flap' })
    expect(lastOf(swapped().hear('takeoff'))).toMatchObject({ type: 'challenged', item: 'load.trim' })
    expect(lastOf(swapped().hear('takeoff flap'))?.type).not.toBe('challenged')
  })
})

describe('what was gone by', () => {
  const SKIP: Fault = { kind: 'skipped', grade: 'middling', about: 'load.flap', items: ['load.flap'] }
  const skipped = () =>
    begun({ partner: { seed: 1, rate: 0 } })
      .happen(call('load'))
      .happen({ type: 'faultPlanned', fault: SKIP })
      .answer('correct')

  it.each([
    ...[
      'you skipped flap',
      'you missed the flaps',
      'what about the flap?',
      "we haven't done the flap",
      'how about flaps',
    ],
    ...[
      'hang on, you forgot the flap',
      "you've left out flap",
      'what happened to flap?',
      'flap is missing',
      'flap was skipped',
    ],
    ...['flap first', 'go back to flap', 'we need the flap', "you didn't ask for the flap", 'still flap'],
  ])('%s', (text) => {
    const event = lastOf(skipped().hear(text))
    expect(event).toMatchObject({ type: 'objected', to: 'skipped' })
    expect(skipped().hear(text).said()).toBe('Correction. Flap?')
  })
})

describe('a list called complete too early', () => {
  const EARLY: Fault = { kind: 'completeEarly', grade: 'hard', about: 'load', items: ['load.windows'] }
  const early = () =>
    begun({ partner: { seed: 1, rate: 0 } })
      .happen(call('load'))
      .answer('correct')
      .happen({ type: 'faultPlanned', fault: EARLY })
      .answer('correct')

  it.each([
    ...[
      'not complete',
      "it's not complete",
      "that list isn't complete",
      'no, not complete',
      "we're not done yet",
      'not yet complete',
    ],
    ...[
      'the list is not finished',
      'load list not complete',
      'something is missing',
      'hang on, not complete',
      'incomplete',
    ],
  ])('%s', (text) => {
    expect(became(early(), text)).toBe('objected notComplete')
  })
})

describe('an answer to a call for somebody else', () => {
  it.each([
    ...['not for us', "that wasn't for us", "that's not us", 'that was for someone else', 'wrong call sign'],
    ...[
      'different call sign',
      "that wasn't our call sign",
      'negative, not for us',
      'it was for another aircraft',
      'not ours',
    ],
  ])('%s', (text) => {
    expect(became(right(), text)).toBe('objected notForUs')
  })
})

describe('words', () => {
  it('that lead to the point and trail it are taken off', () => {
    expect(pointOf("Hang on, that's wrong, the card says one two six, I think.")).toEqual({
      ...{ text: 'one two six', lead: 'against' },
    })
    expect(pointOf('I’ve got 1.5, please')).toEqual({ text: '1.5', lead: 'states' })
    expect(pointOf('one two six')).toEqual({ text: 'one two six', lead: undefined })
    expect(pointOf('')).toEqual({ text: '', lead: undefined })
    expect(withoutAttention('Sorry, captain, check that, please!')).toBe('check that')
    expect(withoutAttention('sorry')).toBe('sorry')
  })
})
