/** An answer of several parts, each with states of its own: what is wrong is told of the right part. */

import { expect, it, test } from 'vitest'
import { authored, called, flown, problemsIn, withoutColumns } from './authored.ts'

const ENTRIES = `
- item: cabin
  challenge: seats and belts
  response: "locked {seats} on {belts}"
  states: {seats: [[locked], [loose, unlocked]], belts: [["on"], ["off", loose]]}
- item: levers
  challenge: levers
  response: "(idle | closed) {throttle} fine {propeller} cutoff {mixture}"
  states:
    throttle: [[idle, closed], [open, half open]]
    propeller: [[fine], [coarse, feather]]
    mixture: [[cutoff], [rich, lean]]
- item: surfaces
  challenge: surfaces
  response: "up {left} down {right}"
  states: {left: [[up], [down]], right: [[down], [up]]}
`
const PACK = authored({ entries: ENTRIES })
function verdictOn(item: number, text: string): string {
  const run = flown(PACK).happen(called())
  for (const right of ['locked and on', 'idle fine cutoff'].slice(0, item)) run.hear(right)
  const { verdict, because = '', parts } = run.hear(text).state.last?.judgement ?? { verdict: 'none', parts: [] }
  return [verdict, because, ...parts.map(({ name, state }) => `${name} ${state}`)]
    .filter((word) => word !== '')
    .join(', ')
}

test.each([
  [0, 'locked and on', 'correct, seats ok, belts ok'],
  [0, 'seats locked, belts on', 'correct, seats ok, belts ok'],
  [0, 'seats locked, belts loose', 'negative, state, seats ok, belts wrong'],
  [0, 'seats locked, belts off', 'negative, state, seats ok, belts wrong'],
  [0, 'seats loose, belts on', 'negative, state, seats wrong, belts ok'],
  [0, 'seats unlocked, belts off', 'negative, state, seats wrong, belts wrong'],
  [0, 'loose, loose', 'negative, state, seats wrong, belts wrong'],
  [0, 'seats locked', 'incomplete, missing, seats ok, belts missing'],
  [1, 'closed, fine, cutoff', 'correct, throttle ok, propeller ok, mixture ok'],
  [1, 'idle, feather, cutoff', 'negative, state, throttle ok, propeller wrong, mixture ok'],
  [1, 'idle, fine, rich', 'negative, state, throttle ok, propeller ok, mixture wrong'],
  [1, 'half open, coarse, lean', 'negative, state, throttle wrong, propeller wrong, mixture wrong'],
  [2, 'up, down', 'correct, left ok, right ok'],
  [2, 'down, up', 'sayAgain, ambiguous, left missing, right missing'],
  [2, 'down', 'sayAgain, ambiguous, left missing, right missing'],
])('item %i, "%s": %s', (item, text, told) => {
  expect(verdictOn(item, text)).toBe(told)
})

it('states of a part that the response does not tag are told', () => {
  const entries = ENTRIES.replace('belts: [["on"]', 'belt: [["on"]')
  expect(withoutColumns(problemsIn({ entries }))).toEqual([
    'procedures.yaml:11: no part of the response is tagged "belt"; did you mean "belts"?',
  ])
})

it('one state is not all of two that are joined', () => {
  const floats = authored({
    entries: '- {item: floats, challenge: floats, response: "pumped and closed", states: [[closed], [open]]}',
  })
  const verdict = (said: string) => flown(floats).happen(called()).hear(said).state.last?.judgement.verdict
  expect(verdict('pumped and closed')).toBe('correct')
  expect(verdict('closed')).not.toBe('correct')
})
