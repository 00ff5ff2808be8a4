/** The voices outside the crew in a real browser: read-backs and an order by voice, what lies between them typed. */

import { afterEach, describe, expect, inject, test } from 'vitest'
import type { SpokenAnswer } from '../../audio/departure.ts'
import { CLEARANCE, CODE, HOLD_SHORT, NEGATIVE, ORDER, TAXI, WRONG_ORDER } from '../../audio/talk.ts'
import { goOnFlown, type Typed } from '../flown.ts'
import { openPage, type TestPage } from '../page.ts'
import { type Pilot, pilotAt } from '../pilot.ts'

let opened: TestPage | undefined
afterEach(async () => {
  await opened?.close()
  opened = undefined
})

/** Holds what the stations say. */
const TALK = 'tests/cli/answers/talk.yaml'

type Judged = { readonly verdict: string; readonly parts: readonly { readonly name: string; readonly state: string }[] }

async function goOn(answers: readonly Typed[]): Promise<{ page: TestPage; pilot: Pilot }> {
  opened = await openPage({ address: inject('address') })
  await goOnFlown(opened, answers, { talk: TALK })
  return { page: opened, pilot: pilotAt(opened) }
}

const transmissions = async (pilot: Pilot, turn: string) =>
  (await pilot.events())
    .filter((event) => event.type === 'transmitted' && event.turn === turn)
    .map(({ judgement, evidence, part }) => ({
      part,
      ...(judgement as Judged),
      ...(evidence as { readonly by: string; readonly text: string }),
    }))

/** Says something, and again where it was not understood so, as a pilot would; what is right is right at once. */
async function sayTo(pilot: Pilot, turn: string, spoken: SpokenAnswer, wanted = 'correct') {
  for (let sayings = 1; sayings <= 5; sayings++) {
    const before = await transmissions(pilot, turn)
    await pilot.say(spoken)
    const after = await transmissions(pilot, turn)
    const last = after.at(-1)
    if (last && after.length > before.length && [wanted, 'correct'].includes(last.verdict)) return last
  }
  throw new Error(`${spoken.text}: ${JSON.stringify((await pilot.events()).slice(-3))}`)
}

const FIGURES = [
  ...['load figures list', 'two four six two zero', 'three point one up', 'one two eight', 'one three four'],
  ...['one four one', 'niner zero point four', 'edition two, seven two on board'],
]
const INFORMATION = [
  'get the information',
  ...['information kilo, one zero one zero', 'wind two three zero degrees one six knots, runway two four'],
]
const BRIEFING = [
  'done',
  ...['departing runway two four, lantern two alfa departure, first level five thousand', 'flap twelve'],
  'V one one two eight, rotate one three four',
  ...['rejected takeoff, engine failure', 'briefing complete'],
]
const BEFORE_START = [
  ...[
    'before start list',
    'brake set',
    'signs on',
    'four thousand eight hundred eighty',
    'five thousand six hundred forty',
    'one zero one zero',
  ],
  ...['two six one three', 'request push and start', 'push and start approved facing east'],
  ...['all closed slides armed', 'beacon on', 'all pumps on'],
]
const engine = (side: string, stable: string): readonly Typed[] => [
  ...[`starting the ${side} engine`, 1, 'rotation seen', 4, 'two four percent, fuel on', 1],
  ...['light up', 'oil pressure rising', 'fan turning', 3, 'peak six eight five', 1, 'starter out', 6],
  `engine stable five ${stable} percent`,
]
const PUSH = [
  ...[
    'confirm doors and steps',
    'parking brake set',
    'confirm tow bar and steering',
    'remove the chocks',
    'external power off',
  ],
  ...['disconnect the cable', 'beacon on', 'cleared to push facing east', 'brakes released', 'clear to start'],
  'done',
  ...engine('right', 'eight'),
  13,
  ...engine('left', 'niner'),
  ...['parking brake set', 'disconnect', 'signal in sight'],
  ...['push and start list', 'brake set, tug away', 'both engines stable'],
]
const TO_TAXI = [
  ...['flap twelve set', 'done', 'engines running', 'both on', 'both off', 'ignition off', 'tow bar clear pin in hand'],
  'flap twelve set',
  26,
  'unit off',
  ...['full left', 'left aileron up right aileron down', 'full right', 'right aileron up left aileron down'],
  ...['full forward', 'elevator down', 'full aft', 'elevator up', 'rudder left', 'rudder left'],
  ...['rudder right', 'rudder right', 'neutral', 'done'],
  ...['ready for taxi', 'full left full right', 'three zero zero eight zero', 'two seven point three'],
  ...['three point one up', 'V one one two eight rotate one three four V two one four one', 'niner zero point four'],
  ...['runway two four', 'two thousand niner hundred', 'cabin ready', 'configuration normal'],
]

const CLEARED = [
  'cleared to willow lake lantern two alfa departure runway two four climb five thousand',
  'departure frequency one two four decimal six seven five squawk two six one three',
  'ground one two one decimal eight',
]
const TO_CLEARANCE = [...FIGURES, ...INFORMATION]
const TO_FLAP = [...TO_CLEARANCE, 'request clearance', ...CLEARED, ...BRIEFING, ...BEFORE_START, ...PUSH]

describe('by voice', () => {
  test('a clearance with one wrong element is corrected, and its words stand nowhere', async () => {
    const { page, pilot } = await goOn(TO_CLEARANCE)
    await pilot.type('request clearance')
    await pilot.listened()
    expect((await transmissions(pilot, 'clearance.departure')).map(({ verdict }) => verdict)).toEqual(['correct'])
    expect(await page.page.getByText(/willow/i).count()).toBe(0)
    const [limit, level, wrongCode] = CLEARANCE
    if (!limit || !level || !wrongCode) throw new Error('the clearance is not in three breaths')
    const ok = new Set<string>()
    for (const [spoken, ...names] of [
      [limit, 'clearanceLimit', 'departureRoute'] as const,
      [level, 'runway', 'firstLevel'] as const,
    ]) {
      // A part that was not heard is asked for, and said again.
      for (let sayings = 1; sayings <= 3 && !names.every((name) => ok.has(name)); sayings++) {
        const { verdict, parts } = await sayTo(pilot, 'clearance.departure', spoken, 'incomplete')
        expect(verdict).toBe('incomplete')
        for (const { name, state } of parts) if (state === 'ok') ok.add(name)
      }
      expect([...ok]).toEqual(expect.arrayContaining(names))
    }
    const readBack = await sayTo(pilot, 'clearance.departure', wrongCode, 'negative')
    expect(readBack).toMatchObject({ verdict: 'negative', by: 'voice' })
    const wrong = readBack.parts.filter(({ state }) => state === 'wrong')
    expect(wrong?.map(({ name }) => name)).toEqual(['transponder'])
    const elements = await page.page.getByRole('list', { name: 'To be read back' }).textContent()
    expect(elements?.replace(/\s+/g, ' ')).toContain('squawk wrong')
    expect(await sayTo(pilot, 'clearance.departure', CODE)).toMatchObject({ verdict: 'correct' })
    await nothingElse(page, pilot)
  })

  test('an order that differs from the figure is questioned', async () => {
    const { page, pilot } = await goOn(TO_FLAP)
    expect(await pilot.headline()).toBe('flap order')
    expect(await sayTo(pilot, 'flapOrder.order', WRONG_ORDER, 'negative')).toMatchObject({
      verdict: 'negative',
      by: 'voice',
    })
    expect(await pilot.headline()).toContain('confirm')
    for (let sayings = 1; sayings <= 5 && (await pilot.headline()).includes('confirm'); sayings++) {
      await pilot.say(NEGATIVE)
      await pilot.listened()
    }
    expect(await sayTo(pilot, 'flapOrder.order', ORDER)).toMatchObject({ verdict: 'correct', by: 'voice' })
    await nothingElse(page, pilot)
  })

  test('a taxi clearance is read back, and is not whole without its hold short', async () => {
    const { page, pilot } = await goOn([...TO_FLAP, 'flap twelve', ...TO_TAXI])
    await pilot.type('request taxi')
    for (const spoken of TAXI) {
      expect(await sayTo(pilot, 'taxi.route', spoken, 'incomplete')).toMatchObject({ verdict: 'incomplete' })
    }
    expect(await sayTo(pilot, 'taxi.route', HOLD_SHORT)).toMatchObject({ verdict: 'correct', by: 'voice' })
    await nothingElse(page, pilot)
  })
})

async function nothingElse(page: TestPage, pilot: Pilot): Promise<void> {
  expect((await pilot.events()).filter(({ type }) => type === 'cleared' || type === 'voiceFailed')).toEqual([])
  expect(page.foreign()).toEqual([])
  expect(page.errors()).toEqual([])
}
