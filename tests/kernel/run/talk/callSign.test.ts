/**
 * Who is calling: ICAO Annex 10 volume II as SERA.14075 (a) has it, FAA AIM 4-2-1 b (looked up) have the call sign with
 * every transmission. Plain phraseology takes one without and counts it; a stricter one asks.
 */

import { beforeAll, describe, expect, test } from 'vitest'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import type { Exchange } from '../../../../src/kernel/pack/exchange.ts'
import { packAt } from '../../figures/marram.ts'
import { type Beginning, begun, type Flown, happen, hear, words } from '../demoRun.ts'

const SAID = {
  ...{ callsign: 'SALTMARSH 421', standNumber: '14', information: 'K', runway: '24', clearanceLimit: 'willow' },
  ...{ departureRoute: 'LANTERN 2A', departureProcedure: 'LANTERN 2', firstLevel: 5000, cruiseLevel: 350 },
  ...{ departureFrequency: 124.675, transponder: '2613', groundFrequency: 121.8 },
}
const ME = 'saltmarsh four two one'
const WHOLE =
  'cleared to willow lake via lantern two alfa departure runway two four climb to altitude five thousand feet ' +
  'departure frequency one two four decimal six seven five squawk two six one three'
const ASKED = 'controller: Station calling, say again call sign.'

let demo: Pack
beforeAll(async () => {
  demo = await packAt('checklists/marram')
})

/** At the clearance, free of what must come before it. */
function delivery(more: Pick<Beginning, 'phraseology' | 'radio'> = {}): Flown {
  const all = demo.phases.flatMap(({ activities }) =>
    activities.filter((one): one is Exchange => one.type === 'exchange'),
  )
  const clearance = all
    .filter(({ id }) => id === 'clearance')
    .map((one) => ({ ...one, turns: one.turns.map(({ interlocks: _, ...turn }) => turn) }))
  return begun(demo, clearance, { situation: { stand: 'push', icing: 'no' }, said: SAID, values: SAID, ...more })
}
const statusOf = ({ state }: Flown, turn = 'clearance.departure') => state.turns[turn]?.status ?? 'ahead'
const said = (run: Flown, ...texts: readonly string[]) => texts.reduce(hear, run)

describe('in plain phraseology', () => {
  test('a call and a read-back without it are taken', () => {
    const called = said(delivery(), 'request clearance')
    expect(statusOf(called)).toBe('said')
    expect(words(hear(called, WHOLE))[0]).toBe('controller: Saltmarsh four two one, read back correct.')
  })

  test('another call sign is not', () => {
    const called = said(delivery(), 'saltmarsh four two two, request clearance')
    expect(words(called)).toEqual(['controller: Confirm call sign.'])
    const read = said(delivery(), 'request clearance', `${WHOLE}, harvest four two one`)
    expect(words(read)).toEqual([ASKED])
    expect(statusOf(hear(read, ME))).toBe('done')
  })
})

describe.each(['standard', 'verbatim'] as const)('in %s phraseology', (phraseology) => {
  test('a call without it is asked who it is, and answered once that was said', () => {
    const called = said(delivery({ phraseology }), 'request clearance')
    expect(words(called)).toEqual([ASKED])
    expect(statusOf(called)).toBe('ahead')
    expect(statusOf(hear(called, ME))).toBe('said')
    expect(statusOf(said(delivery({ phraseology }), `${ME}, request clearance`))).toBe('said')
  })

  test('a right read-back without it is right once it was said, and nothing of it has to be said again', () => {
    const called = said(delivery({ phraseology }), `${ME}, request clearance`)
    const unsigned = hear(called, WHOLE)
    expect(words(unsigned)).toEqual([ASKED])
    expect(statusOf(unsigned)).toBe('said')
    const silent = happen(unsigned, { type: 'silent', order: unsigned.state.listenId, after: 'prompt' })
    expect(words(silent)).toEqual([ASKED])
    expect(statusOf(hear(unsigned, ME))).toBe('done')
    expect(statusOf(hear(called, `${WHOLE}, ${ME}`))).toBe('done')
    expect(statusOf(hear(called, `${ME}, ${WHOLE}`))).toBe('done')
  })

  test('what is wrong is corrected first, and each transmission needs its own', () => {
    const called = said(delivery({ phraseology }), `${ME}, request clearance`)
    const wrong = hear(called, WHOLE.replace('one three', 'one four'))
    expect(words(wrong)).toEqual(['controller: Saltmarsh four two one, negative, squawk two six one three.'])
    expect(words(hear(wrong, 'squawk two six one three'))).toEqual([ASKED])
    expect(statusOf(hear(wrong, `squawk two six one three, ${ME}`))).toBe('done')
  })
})

test('nobody else asks for it: neither a broadcast nor the ground crew', () => {
  const all = demo.phases.flatMap(({ activities }) =>
    activities.filter((one): one is Exchange => one.type === 'exchange'),
  )
  const crew = all.filter(({ id }) => id === 'crew')
  const from = { situation: { stand: 'push', icing: 'no' }, said: SAID, values: SAID, phraseology: 'standard' } as const
  const run = hear(begun(demo, crew, from), 'parking brake set')
  expect(statusOf(run, 'crew.brake')).toBe('done')
})

describe('a clearance that was not copied to its end', () => {
  let called: Flown
  beforeAll(() => {
    called = said(delivery(), 'request clearance')
  })

  // SERA.14075 (c) 3 (looked up): "say again all after ... (last word satisfactorily received)".
  test.each([
    ['say again squawk', 'Saltmarsh four two one, squawk two six one three.'],
    ['confirm squawk', 'Saltmarsh four two one, squawk two six one three.'],
    ['confirm the level', 'Saltmarsh four two one, climb to altitude five thousand feet.'],
    [
      'say again all after level',
      'Saltmarsh four two one, I say again, departure frequency one two four decimal six seven five, squawk two six one three.',
    ],
    [
      'say again all before runway',
      'Saltmarsh four two one, I say again, cleared to willow lake, via lantern two alfa departure.',
    ],
    [
      'say again all after five thousand feet',
      'Saltmarsh four two one, I say again, departure frequency one two four decimal six seven five, squawk two six one three.',
    ],
  ])('"%s" draws that part alone', (text, answer) => {
    const run = hear(called, text)
    expect(words(run)).toEqual([`controller: ${answer}`])
    expect(statusOf(run)).toBe('said')
    expect(statusOf(hear(run, WHOLE))).toBe('done')
  })

  test.each(['say again', 'say again all after squawk', 'say again all before clearance limit'])(
    '"%s" draws all of it',
    (text) => {
      const [all = ''] = words(hear(called, text))
      expect(all).toMatch(/^controller: Saltmarsh four two one, I say again, cleared to .* squawk two six one three\.$/)
    },
  )

  test.each(['roger', 'wilco', 'copied', `roger, ${ME}`, `${ME}, wilco`])('"%s" is no read-back', (text) => {
    const run = hear(called, text)
    expect(words(run)).toEqual(['controller: Saltmarsh four two one, read back.'])
    expect(statusOf(hear(run, WHOLE))).toBe('done')
  })

  test('nor is it one of what is still owed, and that is named', () => {
    const run = said(called, WHOLE.replace(' squawk two six one three', ''), 'wilco')
    expect(words(run)).toEqual(['controller: Saltmarsh four two one, read back squawk.'])
  })
})

describe('sent to another frequency', () => {
  test('it is read back, corrected where it is another one, and answered with nothing', () => {
    const sent = said(
      delivery(),
      'request clearance',
      WHOLE,
      'saltmarsh four two one, ground on one two one decimal six',
    )
    expect(words(sent)).toEqual([
      'controller: Saltmarsh four two one, negative, when ready contact heron hill ground, one two one decimal eight.',
    ])
    const over = hear(sent, `contact heron hill ground one two one decimal eight, ${ME}`)
    expect(statusOf(over, 'clearance.ground')).toBe('done')
    expect(words(over).filter((text) => text.startsWith('controller'))).toEqual([])
  })
})
