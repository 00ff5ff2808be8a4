/** What people say around a value or a state without saying anything of it, each beside what must not get by in the same words. */

import { describe, expect, it } from 'vitest'
import { verdictOf } from './verdictOf.ts'

const SPEEDS = {
  ...{ response: '[reference] <ref> [target] <target>', challenge: 'landing speeds' },
  figures: { ref: { kind: 'speed', value: 118 }, target: { kind: 'speed', value: 123 } },
}
const HEIGHTS = {
  ...{ response: '[reduction] <red> [feet] [acceleration] <acc> [feet]', challenge: 'climb altitudes' },
  figures: {
    red: { kind: 'altitude', value: 1500, unit: 'ft' },
    acc: { kind: 'altitude', value: 3200, unit: 'ft' },
  },
}
const WEIGHT = {
  ...{ response: '<weight> [pounds]', challenge: 'landing weight' },
  figures: { weight: { kind: 'weight', value: 13450, unit: 'lb' } },
}
const BEAM = {
  ...{ response: '<loc> [course] <course>', challenge: 'approach aid' },
  figures: { loc: { kind: 'frequency', value: 110.35 }, course: { kind: 'heading', value: 247 } },
}
const ASSUMED = {
  ...{ response: '<t> [degrees] [entered]', challenge: 'assumed temperature' },
  figures: { t: { kind: 'temperature', value: 48, unit: 'C' } },
}
const STANDBY = {
  ...{ response: '<q> [set] (crosschecked | cross checked)', challenge: 'standby altimeter' },
  figures: { q: { kind: 'altimeter', value: 30.07, unit: 'inHg' } },
}
const RADAR = { response: 'standby', states: [['standby'], ['on'], ['off']], challenge: 'weather radar' }
const DAMPER = { response: 'engaged', states: [['engaged'], ['disengaged']], challenge: 'yaw damper' }
const HYDRAULICS = { response: 'hydraulics off', states: [['on'], ['off']], challenge: '' }
const MIXTURE = { challenge: 'mixture', response: 'rich | leaned', figures: {} } as const
const FLAP = {
  challenge: 'flap',
  response: '[flap] <flap>',
  figures: { flap: { kind: 'choice', value: '12', options: { 5: ['five'], 12: ['twelve'] } } },
} as const
const CODE = {
  ...{ response: '<code> [set]', challenge: 'transponder' },
  figures: { code: { kind: 'digits', length: 4, value: '4271' } },
}

describe('said in a pilot’s own words', () => {
  it.each([
    // Verbs of the names.
    [SPEEDS, "one eighteen for the reference and we're targeting one twenty three", 'correct'],
    [SPEEDS, "one eighteen for the reference and we're targeting one thirty three", 'negative value'],
    [HEIGHTS, 'we reduce at fifteen hundred and accelerate at thirty two hundred', 'correct'],
    [HEIGHTS, 'we accelerate at fifteen hundred and reduce at thirty two hundred', 'negative value'],
    // Hundreds without the word.
    [WEIGHT, 'thirteen thousand four fifty', 'correct'],
    [WEIGHT, 'thirteen thousand five forty', 'negative value'],
    [WEIGHT, 'thirteen thousand fifty', 'negative value'],
    // No point, and nobody misses it.
    [BEAM, 'one ten thirty five, course two four seven', 'correct'],
    [BEAM, 'one ten fifty three, course two four seven', 'negative value'],
    [BEAM, 'one ten three, course two four seven', 'sayAgain notUnderstood'],
    // A word of the challenge is neither doubt nor command.
    [ASSUMED, "assumed temp is forty eight and it's in the box", 'correct'],
    [ASSUMED, 'forty eight i assume', 'sayAgain notUnderstood'],
    [STANDBY, 'standby is on thirty oh seven and it agrees with the other two', 'correct'],
    [STANDBY, 'standby is on thirty oh seven', 'incomplete missing'],
    [STANDBY, "thirty oh seven, and it doesn't agree", 'negative state'],
    [STANDBY, 'stand by', 'command'],
    // On a state.
    [RADAR, "I've got the radar on standby", 'correct'],
    [RADAR, "I've got the radar on", 'negative state'],
    [DAMPER, "Y D's engaged", 'correct'],
    [DAMPER, 'disengaged', 'negative state'],
    // What others may do now.
    [HYDRAULICS, "hydraulics off, you're good to connect", 'correct'],
    [HYDRAULICS, "hydraulics on, you're good to connect", 'negative state'],
    [HYDRAULICS, 'hydraulics off, go ahead and hook up', 'correct'],
    // Either is right, and not both.
    [MIXTURE, 'rich', 'correct'],
    [MIXTURE, 'leaned', 'correct'],
    [MIXTURE, 'rich leaned', 'sayAgain twoValues'],
    [FLAP, 'flaps twelve, twelve indicated', 'correct'],
    // Begun again.
    [CODE, 'four two seven, ah, four two seven one', 'correct'],
    [CODE, 'four two seven, ah, four two seven two', 'negative value'],
    [CODE, 'four two seven two, no, four two seven one', 'sayAgain twoValues'],
  ])('%j: "%s" is %s', (item, heard, verdict) => {
    expect(verdictOf(item, heard)).toBe(verdict)
  })
})

describe('one of several', () => {
  const PUMPS = { response: '[both] pumps on', states: [['on'], ['off']], challenge: 'fuel pumps' }
  it.each([
    ['pump on', 'incomplete missing'],
    ['pump is on', 'incomplete missing'],
    ['left pump on', 'incomplete missing'],
    ['pumps on', 'correct'],
    ['left pump on, right pump on', 'correct'],
    ['on', 'correct'],
  ])('"%s" is %s', (heard, verdict) => {
    expect(verdictOf(PUMPS, heard)).toBe(verdict)
  })
})
