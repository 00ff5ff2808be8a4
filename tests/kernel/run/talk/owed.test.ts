/** What a station does not let go by: what it asked to have confirmed, and a frequency that was cut short. */

import { beforeAll, describe, expect, it } from 'vitest'
import { viewOf } from '../../../../src/app/view/view.ts'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import { packAt } from '../../figures/marram.ts'
import { begun, type Flown, hear, words } from '../demoRun.ts'

let demo: Pack
beforeAll(async () => {
  demo = await packAt('checklists/marram')
})

/** At one turn of the clearance alone, which nothing holds back. */
function at(turn: string): Flown {
  const exchange = demo.phases.flatMap(({ activities }) => activities).find(({ id }) => id === 'clearance')
  if (exchange?.type !== 'exchange') return expect.unreachable()
  const turns = exchange.turns.filter(({ id }) => id === turn).map(({ interlocks: _, ...free }) => free)
  const values = { callsign: 'SALTMARSH 421', standNumber: '14', information: 'K' }
  const said = { ...values, clearanceLimit: 'willow', departureRoute: 'LANTERN 2A', firstLevel: 5000, runway: '24' }
  const frequencies = { departureFrequency: 124.675, transponder: '2613', groundFrequency: 121.8 }
  const from = { situation: { stand: 'push', icing: 'no' }, said: { ...said, ...frequencies }, values }
  return begun(demo, [{ ...exchange, turns }], from)
}
const after = (run: Flown, ...texts: string[]) => texts.reduce(hear, run)
const asked = (...texts: string[]) =>
  words(
    after(
      at('clearance.departure'),
      'saltmarsh four two one stand one five information alfa request clearance',
      ...texts,
    ),
  )

describe('what a station has asked to have confirmed', () => {
  it('is asked for by name until it is said, and nothing else has to be said again', () => {
    expect(asked()).toEqual(['controller: Confirm stand, information letter.'])
    expect(asked('request clearance')).toEqual(['controller: Confirm stand, information letter.'])
    expect(asked('request clearance', 'stand one four')).toEqual(['controller: Confirm information letter.'])
    expect(asked('request clearance', 'stand one four', 'information kilo').join()).toContain('cleared to willow')
  })

  it('said wrong once more is still owed', () => {
    expect(asked('stand one six information kilo')).toEqual(['controller: Confirm stand.'])
    expect(asked('stand one six information kilo', 'stand one four').join()).toContain('cleared to willow')
  })

  it('is let go where the same request comes twice without it', () => {
    const run = after(
      at('clearance.departure'),
      'saltmarsh four two one stand one five request clearance',
      'request clearance',
      'request clearance',
    )
    expect(words(run).join()).toContain('cleared to willow')
    expect(run.state.turns['clearance.departure']?.waived).toEqual(['standNumber'])
  })

  it('is not let go for an address alone', () => {
    const address = 'heron hill delivery saltmarsh four two one'
    expect(asked(address, address, address)).toEqual(['controller: Confirm stand, information letter.'])
  })
})

describe('a frequency read back without its first digit', () => {
  const told = (text: string) => {
    const run = hear(at('clearance.ground'), text)
    return [words(run).join(), viewOf(run.pack, run.state).exchange?.pending?.elements[0]?.state]
  }

  it.each(['ground on twenty one eight', 'twenty one decimal eight', 'ground twenty one point eight'])(
    '"%s" is asked for in full, by its name',
    (text) => expect(told(text)).toEqual(['controller: Saltmarsh four two one, read back frequency.', 'short']),
  )

  it.each(['one two one decimal eight', 'ground on one twenty one eight', 'one twenty one point eight'])(
    '"%s" is whole',
    (text) => expect(told(text)[0]).not.toContain('read back'),
  )

  it('is corrected where it is another one', () => {
    expect(told('ground on twenty one seven')[0]).toContain('negative')
  })
})
