/** Where silence counts: only where an item or a read-back is owed. */

import { describe, expect, it } from 'vitest'
import { timers } from '../../../../src/kernel/run/core/listening.ts'
import { PLACES } from '../../interpret/places.ts'

const ROWS: readonly (readonly [place: keyof typeof PLACES, timers: readonly string[]])[] = [
  ['at the first item', ['prompt', 'tone']],
  ['after a clearance was said', ['prompt', 'tone']],
  ['where the controller says another value', ['prompt', 'tone']],
  ['before a clearance', []],
  ['in a flow', []],
  ['at the line', []],
  ['standing by', []],
  ['standing by with a read-back owed', []],
  ['at a yes-or-no question', []],
  ['asked for the reason of a pass', []],
  ['asked to read a value', []],
  ['in the engine start', []],
]

describe('silence', () => {
  it.each(ROWS)('%s starts %j', (place, expected) => {
    const [, { state }] = PLACES[place]
    const started = timers(state).flatMap((effect) => (effect.type === 'startTimer' ? [effect.timer] : []))
    expect(started).toEqual(expected)
  })

  it('is answered once, and counts for the turn it began in', () => {
    const [, { state }] = PLACES['at the first item']
    expect(timers({ ...state, promptedListenId: state.listenId }, 9_000)).toEqual([
      expect.objectContaining({ timer: 'tone', event: { type: 'silent', order: state.listenId, after: 'tone' } }),
    ])
    expect(timers(state, 9_000)).toContainEqual(expect.objectContaining({ timer: 'prompt', ms: 9_000 }))
  })
})
