/**
 * Every element of every exchange of the demo that is read back: right, in another order, wrong, left out, corrected. The
 * answers are put together here from the pack's wordings and the values, not taken from the runner.
 */

import { beforeAll, describe, expect, test } from 'vitest'
import { holds } from '../../../../src/kernel/figures/condition.ts'
import type { Figure, Figures, KindSpec, Value } from '../../../../src/kernel/kinds/kind.ts'
import { plausibleMistake, sayValue } from '../../../../src/kernel/kinds/table.ts'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'

import type { Element, Exchange, ExchangeTurn } from '../../../../src/kernel/pack/exchange.ts'
import { fillTemplate } from '../../../../src/kernel/pack/template.ts'
import type { Response } from '../../../../src/kernel/response/response.ts'
import { sayResponse } from '../../../../src/kernel/response/sentence.ts'
import { seeded } from '../../../../src/kernel/seeded.ts'
import { packAt } from '../../figures/marram.ts'
import { begun, type Flown, hear } from '../demoRun.ts'

const VALUES: Readonly<Record<string, Value>> = {
  ...{
    information: 'K',
    windDirection: 220,
    windSpeed: 14,
    temperature: 11,
    altimeter: 1009,
    altimeterInches: 29.8,
    runway: '24',
  },
  ...{ clearanceLimit: 'willow', departureRoute: 'LANTERN 2A', firstLevel: 5000, departureFrequency: 124.675 },
  ...{ transponder: '2613', pushDirection: 'east', holdingPoint: 'C3', taxiRoute: 'B E C', crossing: '33' },
  ...{ callsign: 'SALTMARSH 421', standNumber: '14', groundFrequency: 121.8, towerFrequency: 118.3 },
  ...{ observed: '0850', transitionLevel: '90', visibility: 8, visibilityMiles: 5, cloud: 'few', cloudBase: 3000 },
  ...{ dewPoint: 7, departureProcedure: 'LANTERN 2', cruiseLevel: 350 },
}
/** The turns that end with a read-back, what calls them, and the stand they are for. */
const TURNS = [
  ['information.broadcast', 'get the information', 'push'],
  ['clearance.departure', 'request clearance', 'push'],
  ['clearance.ground', undefined, 'push'],
  ['startUp.push', 'request push and start', 'push'],
  ['startUp.start', 'request start', 'own'],
  ['away.brake', undefined, 'push'],
  ['taxi.route', 'request taxi', 'push'],
  ['crossing.cross', 'holding short runway three three', 'push'],
  ['tower.tower', undefined, 'push'],
] as const

let demo: Pack
beforeAll(async () => {
  demo = await packAt('checklists/marram')
})

const exchangesOf = (pack: Pack) =>
  pack.phases.flatMap(({ activities }) => activities.filter((one): one is Exchange => one.type === 'exchange'))
const specOf = (name: string) => demo.figures.declarations[name]?.spec as KindSpec
const figure = (name: string, value = VALUES[name] as Value): Figure => ({ ...specOf(name), value }) as Figure
/** An element with what is read back of it in one phraseology. */
type Spoken = Omit<Element, 'readBack'> & { readonly readBack: Response }

/** An element as it is read back, with other values for some of its figures. */
function spoken({ readBack }: Spoken, other: Readonly<Record<string, Value>> = {}): string {
  const figures: Figures = Object.fromEntries(
    readBack.figures.map((name) => [name, figure(name, other[name] ?? VALUES[name])]),
  )
  return sayResponse(readBack, figures, 'standard')
}

/** It must be read back: not all of it stands in one pair of brackets. */
const isOwed = ({ readBack }: Spoken) => !/^\[[^\]]*\]$/.test(readBack.text)

/** What the station says of an element, as the pack words it. */
function said({ says }: Spoken, radio: 'icao' | 'faa'): string {
  const text = fillTemplate(says[radio], (name) => sayValue(figure(name), 'standard'))
  return radio === 'faa' ? text.replace('decimal', 'point') : text
}

const capital = (text: string) => `${text[0]?.toUpperCase()}${text.slice(1)}`

const answer = ({ effects }: Flown) => effects.flatMap((effect) => (effect.type === 'speak' ? [effect.text] : []))[0]

/** Where the station has spoken and waits for the read-back of this turn, which alone the pack has now. */
function awaiting(id: string, call: string | undefined, stand: string, radio: 'icao' | 'faa' = 'icao') {
  const exchange = exchangesOf(demo).find(({ turns }) => turns.some((turn) => turn.id === id)) as Exchange
  const turn = exchange.turns.find((one) => one.id === id) as ExchangeTurn
  const { interlocks: _, ...free } = turn
  const from = { situation: { stand, icing: 'no' }, said: VALUES, values: VALUES, radio }
  let run = begun(demo, [{ ...exchange, turns: [free] }], from)
  if (call !== undefined) run = hear(run, call)
  expect(run.state.turns[id]?.status).toBe('said')
  const elements = turn.elements
    .filter(({ when }) => holds(when, { situation: { radio }, values: {} }))
    .flatMap((one): Spoken[] => (one.readBack ? [{ ...one, readBack: one.readBack[radio] }] : []))
  const { role } = exchange.station
  // A controller begins with the call sign.
  const flight = radio === 'icao' ? 'saltmarsh four two one, ' : 'saltmarsh four twenty one, '
  return {
    ...{ run, elements, isBroadcast: role === 'broadcast', isController: role === 'controller' },
    begins: role === 'controller' ? flight : '',
    status: (after: Flown) => after.state.turns[id]?.status,
  }
}

/** Other states of an element that has them: denied, or the contrary. */
function denials(element: Spoken): string[] {
  const text = spoken(element)
  if (element.readBack.figures.length === 0) {
    const words = text.split(' ')
    return [[...words.slice(0, -1), 'not', words.at(-1)].join(' '), ...(/set$/.test(text) ? ['brakes released'] : [])]
  }
  if (!text.includes('hold short')) return []
  const crossing = text.replace(/.*runway/, 'runway')
  return [
    `cross ${crossing}`,
    `crossing ${crossing}`,
    `hold short then cross ${crossing}`,
    `${text}, cross ${crossing}`,
    `cross ${crossing}, ${text}`,
  ]
}

/** Other values that the figures of an element could be heard as. */
function mistakes(element: Spoken): Record<string, Value>[] {
  return element.readBack.figures.flatMap((name) => {
    const found = [1, 2, 3, 4, 5].map((seed) => plausibleMistake(specOf(name), VALUES[name] as Value, seeded(seed)))
    const { kind } = specOf(name)
    const values = [...found, ...(kind === 'identifier' ? ['M'] : kind === 'route' ? ['B C', 'E C', 'B E', 'C'] : [])]
    return [...new Set(values)].flatMap((value) => (value === undefined ? [] : [{ [name]: value }]))
  })
}

test('the turns tried here are all that the demo wants read back', () => {
  // What is read off a display is no read-back.
  const stations = exchangesOf(demo).filter(({ station }) => station.role !== 'otherseat')
  const owed = stations.flatMap(({ turns }) =>
    turns.filter(({ elements }) => elements.some(({ readBack }) => readBack !== undefined)).map(({ id }) => id),
  )
  expect(owed.sort()).toEqual(TURNS.map(([id]) => id).sort())
})

describe.each(TURNS)('%s', (id, call, stand) => {
  test.each(['icao', 'faa'] as const)(
    'is right in the words of %s in its own order, backwards, and with each element first',
    (radio) => {
      const { run, elements, status } = awaiting(id, call, stand, radio)
      const orders = [elements, elements.toReversed()]
      for (const index of elements.keys()) orders.push([...elements.slice(index), ...elements.slice(0, index)])
      for (const order of orders) {
        const text = order.map((element) => spoken(element)).join(', ')
        expect(status(hear(run, text)), text).toBe('done')
      }
    },
  )

  test('is right with the call sign in front, at the end or both, and so is each element that alone is owed', () => {
    const { run, elements, status, isController } = awaiting(id, call, stand)
    if (!isController) return
    const flight = 'saltmarsh four two one'
    const around = (text: string) => [`${flight}, ${text}`, `${text}, ${flight}`, `${flight}, ${text}, ${flight}`]
    const all = elements.map((element) => spoken(element)).join(', ')
    for (const text of around(all)) expect(status(hear(run, text)), text).toBe('done')
    const other = `${all}, saltmarsh four two two`
    expect(status(hear(run, other)), other).toBe('said')
    for (const owed of elements.filter(isOwed)) {
      const rest = elements.filter((one) => one !== owed).map((one) => spoken(one))
      const before = rest.length > 0 ? hear(run, rest.join(', ')) : run
      for (const text of around(spoken(owed))) expect(status(hear(before, text)), `${text}, owed alone`).toBe('done')
    }
  })

  test('with another state of an element, or with both, is answered by the right one', () => {
    const { run, elements, status, begins } = awaiting(id, call, stand)
    for (const wrong of elements) {
      const rest = elements.filter((one) => one !== wrong).map((one) => spoken(one))
      for (const denial of denials(wrong)) {
        const texts = [elements.map((one) => (one === wrong ? denial : spoken(one))).join(', '), denial]
        for (const [index, text] of texts.entries()) {
          const after = hear(index === 1 && rest.length > 0 ? hear(run, rest.join(', ')) : run, text)
          expect(status(after), text).toBe('said')
          expect(answer(after), text).toBe(`${capital(`${begins}negative, ${said(wrong, 'icao')}`)}.`)
          expect(status(hear(after, spoken(wrong))), `${text}, then right`).toBe('done')
        }
      }
    }
  })

  test('is not right with two values of one element, in either order', () => {
    const { run, elements, status } = awaiting(id, call, stand)
    for (const wrong of elements) {
      for (const other of mistakes(wrong)) {
        for (const both of [
          [spoken(wrong), spoken(wrong, other)],
          [spoken(wrong, other), spoken(wrong)],
        ]) {
          const text = elements.flatMap((one) => (one === wrong ? both : [spoken(one)])).join(', ')
          expect(status(hear(run, text)), text).toBe('said')
        }
        const late = [...elements.map((one) => spoken(one)), spoken(wrong, other)].join(', ')
        expect(status(hear(run, late)), late).toBe('said')
      }
    }
  })

  test('is not complete without any one element, and the station asks for that one', () => {
    const { run, elements, status, isBroadcast, begins } = awaiting(id, call, stand)
    if (elements.length < 2) return
    for (const left of elements.filter(isOwed)) {
      const after = hear(
        run,
        elements
          .filter((one) => one !== left)
          .map((one) => spoken(one))
          .join(', '),
      )
      expect(status(after), left.id).toBe('said')
      expect(answer(after)).toBe(
        isBroadcast ? `${capital(left.label)}?` : `${capital(`${begins}read back ${left.label}`)}.`,
      )
      expect(status(hear(after, spoken(left))), `${left.id} later`).toBe('done')
    }
  })

  test.each(['icao', 'faa'] as const)(
    'with any one value wrong is answered by the right one in the words of %s',
    (radio) => {
      const { run, elements, status, isBroadcast, begins } = awaiting(id, call, stand, radio)
      for (const wrong of elements) {
        for (const other of mistakes(wrong)) {
          const text = elements.map((one) => spoken(one, one === wrong ? other : {})).join(', ')
          const after = hear(run, text)
          expect(status(after), text).toBe('said')
          expect(answer(after), text).toMatch(
            isBroadcast
              ? new RegExp(`^I heard .+\\. ${capital(wrong.label)}\\?$`)
              : new RegExp(`^${capital(`${begins}negative, ${said(wrong, radio)}`)}\\.$`),
          )
          expect(status(hear(after, spoken(wrong, other))), `${text}, and again`).toBe('said')
          expect(status(hear(after, spoken(wrong))), `${text}, then right`).toBe('done')
        }
      }
    },
  )

  test('with any one value corrected in the same breath is right', () => {
    const { run, elements, status } = awaiting(id, call, stand)
    for (const wrong of elements) {
      for (const other of mistakes(wrong)) {
        const text = elements
          .map((one) => (one === wrong ? `${spoken(one, other)}, correction, ${spoken(one)}` : spoken(one)))
          .join(', ')
        expect(status(hear(run, text)), text).toBe('done')
      }
    }
  })

  test('is not read back by any acknowledgement', () => {
    const { run, status } = awaiting(id, call, stand)
    for (const text of ['roger', 'wilco', 'affirm', 'copied all', 'saltmarsh four two one']) {
      expect(status(hear(run, text)), text).toBe('said')
    }
  })
})

test('a word that was heard as one digit is no other call sign: it is asked for again, and what was right is kept', () => {
  const [id, call, stand] = TURNS.find(([turn]) => turn === 'taxi.route') ?? expect.unreachable()
  const { run, elements, status } = awaiting(id, call, stand)
  const short = elements.find((element) => spoken(element).includes('hold short')) ?? expect.unreachable()
  const before = hear(run, elements.flatMap((one) => (one === short ? [] : [spoken(one)])).join(', '))
  const after = hear(before, spoken(short).replace('hold', 'oh'))
  expect(status(after)).toBe('said')
  expect(answer(after)).toBe('Saltmarsh four two one, say again.')
  expect(status(hear(after, spoken(short)))).toBe('done')
  // Another flight's number still is another one.
  const other = hear(before, `${spoken(short)}, saltmarsh four two two`)
  expect(status(other)).toBe('said')
  expect(answer(other)).toBe('Station calling, say again call sign.')
})
