/** The recorded broadcast of the demo: it says what is new, and answers nobody. */

import { beforeAll, describe, expect, test } from 'vitest'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import type { Exchange } from '../../../../src/kernel/pack/exchange.ts'
import { packAt } from '../../figures/marram.ts'
import { type Beginning, begun, type Flown, happen, hear, words } from '../demoRun.ts'

const PAPERS = {
  runway: '24',
  altimeter: 1009,
  altimeterInches: 29.8,
  temperature: 11,
  windDirection: 220,
  windSpeed: 14,
  transitionLevel: '90',
  dewPoint: 7,
}
const SAID = {
  ...{ observed: '0850', visibility: 8, visibilityMiles: 5, cloud: 'few', cloudBase: 3000 },
  ...{ information: 'K', altimeter: 1011, altimeterInches: 29.85, windDirection: 240, windSpeed: 16 },
}
const WHOLE = 'information kilo, runway two four, wind two four zero one six, altimeter one zero one one'
const SPOKEN =
  'broadcast: Heron hill departure information kilo, time zero eight five zero, departure runway two four, ' +
  'transition level niner zero, wind two four zero degrees one six knots, visibility eight kilometres, ' +
  'cloud few three thousand feet, temperature one one, dew point seven, Q N H one zero one one, ' +
  'advise on first contact you have information kilo.'

let demo: Pack
let said: Flown
beforeAll(async () => {
  demo = await packAt('checklists/marram')
  const exchanges = demo.phases.flatMap(({ activities }) => activities.filter(({ type }) => type === 'exchange'))
  const information = exchanges.filter(({ id }) => id === 'information') as Exchange[]
  const from = { situation: { stand: 'push', icing: 'no' }, said: SAID, values: PAPERS }
  said = hear(begun(demo, information, from), 'get the information')
})

const statusOf = ({ state }: Flown) => state.turns['information.broadcast']?.status

test('it says a later wind and altimeter setting than the papers, and these become the figures', () => {
  expect(words(said)).toEqual([SPOKEN])
  const taken = hear(said, WHOLE)
  expect(statusOf(taken)).toBe('done')
  expect(taken.effects.find(({ type }) => type === 'recordFromStation')).toMatchObject({
    values: { information: 'K', altimeter: 1011, windDirection: 240, windSpeed: 16 },
  })
})

test('values may stand without their names in the order in which they were said', () => {
  expect(statusOf(hear(said, WHOLE.replace('altimeter ', '').replace('wind ', '').replace('runway ', '')))).toBe('done')
})

test('what the papers have is not what was said: Otherseat tells what was heard and asks for it again', () => {
  const after = hear(said, WHOLE.replace('one zero one one', 'one zero zero niner'))
  expect(words(after)).toEqual(['otherseat: I heard one zero zero niner. Altimeter?'])
  expect(statusOf(hear(after, 'one zero one one'))).toBe('done')
})

// CAP 413 and MATS 1 (looked up): below 1,000 the unit is said, or "niner niner two" is taken for 29.92.
test.each([
  [992, 'Q N H niner niner two hectopascals, advise'],
  [1000, 'Q N H one zero zero zero, advise'],
])('a setting of %i is said as "%s"', (altimeter, text) => {
  const exchanges = demo.phases.flatMap(({ activities }) => activities.filter(({ type }) => type === 'exchange'))
  const information = exchanges.filter(({ id }) => id === 'information') as Exchange[]
  const from = { situation: { stand: 'push', icing: 'no' }, said: { ...SAID, altimeter }, values: PAPERS }
  expect(words(hear(begun(demo, information, from), 'get the information'))[0]).toContain(text)
})

describe('Otherseat asks for what lacks', () => {
  test('at once', () => {
    expect(words(hear(said, 'information kilo, one zero one one'))).toEqual(['otherseat: Runway, wind?'])
  })

  test('after a stand by', () => {
    const waiting = hear(hear(said, 'information kilo'), 'stand by')
    expect(words(hear(waiting, 'continue'))).toEqual(['otherseat: Runway, wind, altimeter?'])
  })

  test('when nothing is said', () => {
    const silent = happen(said, { type: 'silent', order: said.state.listenId, after: 'prompt' })
    expect(words(silent)).toEqual(['otherseat: Information letter, runway, wind, altimeter?'])
  })
})

describe('in FAA words', () => {
  const begin = (id: string, more: Pick<Beginning, 'radio' | 'slip'> = { radio: 'faa' }) => {
    const all = demo.phases.flatMap(({ activities }) => activities.filter(({ type }) => type === 'exchange'))
    const exchanges = (all as Exchange[])
      .filter((one) => one.id === id)
      .map((one) => ({ ...one, turns: one.turns.map(({ interlocks: _, ...turn }) => turn) }))
    const situation = { stand: 'push', icing: 'no' }
    const values = { ...PAPERS, callsign: 'SALTMARSH 421' }
    const taxi = { holdingPoint: 'C3', taxiRoute: 'B E C', crossing: '33' }
    return begun(demo, exchanges, { situation, said: { ...SAID, ...taxi }, values, ...more })
  }

  test('the setting is said and read back in inches, and is the same one in hectopascals from then on', () => {
    const run = hear(begin('information'), 'get the information')
    expect(words(run)[0]).toContain(
      'wind two four zero at one six, visibility five, few clouds at three thousand, temperature one one',
    )
    expect(words(run)[0]).toContain('dew point seven, altimeter two niner eight five, departing runway two four')
    const wrong = hear(run, WHOLE.replace('one zero one one', 'two niner eight zero'))
    expect(words(wrong)).toEqual(['otherseat: I heard two niner eight zero. Altimeter?'])
    const taken = hear(wrong, 'altimeter two niner eight five')
    expect(taken.effects.find(({ type }) => type === 'recordFromStation')).toMatchObject({
      values: { altimeter: 1011 },
    })
  })

  // FAA JO 7110.65 3-7-2: "Runway Three Six Left, taxi via taxiway Alpha, hold short of Runway Two Seven" (looked up).
  test('the runway comes first in a taxi clearance', () => {
    const run = hear(begin('taxi'), 'request taxi')
    expect(words(run)[0]).toMatch(
      /runway two four, at charlie three, taxi via bravo echo charlie, hold short of runway three three, altimeter two/,
    )
    const icao = hear(begin('taxi', { radio: 'icao' }), 'request taxi')
    expect(words(icao)[0]).toMatch(/taxi to holding point charlie three, runway two four, via bravo echo charlie/)
  })

  const CLEARED = 'runway two four, at charlie three, taxi via bravo echo charlie, hold short of runway three three'

  test.each([
    ['', 'read back correct'],
    ['charlie three', 'negative, at charlie three'],
    ['two four', 'negative, runway two four'],
  ])('a taxi clearance may be read back as it was said, and is wrong where "%s" is another one', (right, answer) => {
    const others: Readonly<Record<string, string>> = { 'charlie three': 'charlie four', 'two four': 'two five' }
    const text = `${CLEARED}, altimeter two niner eight five`.replace(right, others[right] ?? right)
    const [said = ''] = words(hear(hear(begin('taxi'), 'request taxi'), text))
    expect(said.toLowerCase()).toBe(`controller: saltmarsh four twenty one, ${answer}.`)
  })

  test('what is agreed is what was said in them', () => {
    const taken = hear(hear(begin('information'), 'get the information'), WHOLE.replace('one zero one one', '29.85'))
    expect(taken.state.turns['information.broadcast']?.agreed).toMatchObject({ altimeterInches: 29.85 })
  })

  test('a wrong setting that was called correct is taken back in inches', () => {
    const slip = { turn: 'taxi.route', figure: 'altimeterInches', kind: 'acceptsWrong', seed: 3 } as const
    const asked = hear(begin('taxi', { radio: 'faa', slip }), 'request taxi')
    const accepted = hear(asked, `${CLEARED}, altimeter two niner eight six`)
    expect(accepted.state.turns['taxi.route']?.slip).toBe('open')
    const back = hear(accepted, 'correction, altimeter two niner eight five')
    expect(words(back)[0]).toBe('controller: Saltmarsh four twenty one, affirm, altimeter two niner eight five.')
    expect(back.state.turns['taxi.route']?.slip).toBe('noticed')
  })
})

test('it is heard again from its beginning, whatever is asked for', () => {
  expect(words(hear(said, 'say again'))).toEqual([SPOKEN])
  expect(words(hear(said, 'say again wind'))).toEqual([SPOKEN])
})

test('the temperature need not be said, is right where it is and wrong where it is not', () => {
  expect(statusOf(hear(said, `${WHOLE}, temperature one one`))).toBe('done')
  const after = hear(said, `${WHOLE}, temperature one two`)
  expect(words(after)).toEqual(['otherseat: I heard one two. Temperature?'])
  expect(statusOf(hear(after, 'temperature one one'))).toBe('done')
})
