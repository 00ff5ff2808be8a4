/**
 * A pilot who parrots the preliminary figures after the final ones came in: refused exactly where the two are shown
 * differently. The runs have real revisions, the answers are judged as the app judges them, with the packs' own responses.
 */

import { beforeAll, describe, expect, test } from 'vitest'
import { type Revised, revisedBy, withoutGiven } from '../../../../src/app/run/revision.ts'
import { compute, figureOf } from '../../../../src/kernel/figures/compute.ts'
import { holds } from '../../../../src/kernel/figures/condition.ts'
import type { Departure } from '../../../../src/kernel/figures/deal.ts'
import type { FigureSet, Inputs } from '../../../../src/kernel/figures/model.ts'
import { interpret } from '../../../../src/kernel/interpret/interpret.ts'
import { showValue } from '../../../../src/kernel/kinds/table.ts'
import type { Item, Pack } from '../../../../src/kernel/pack/checklist.ts'

import type { Exchange, ExchangeTurn } from '../../../../src/kernel/pack/exchange.ts'
import { figuresFor, itemsOf, listsOf, responseOf } from '../../../../src/kernel/pack/place.ts'
import type { Judgement } from '../../../../src/kernel/response/model.ts'
import { statesOf } from '../../../../src/kernel/response/readBack.ts'
import { sayResponse } from '../../../../src/kernel/response/sentence.ts'
import { emptyRun } from '../../../../src/kernel/run/core/emptyRun.ts'
import type { EventBody, Script } from '../../../../src/kernel/run/core/events.ts'
import type { RunState } from '../../../../src/kernel/run/core/state.ts'
import { stationWords } from '../../../../src/kernel/run/talk/radio.ts'
import { saidValues } from '../../../../src/kernel/run/talk/said.ts'
import { scriptFor } from '../../../../src/kernel/run/talk/script.ts'
import { exchangesOf, findTurn } from '../../../../src/kernel/run/talk/talk.ts'
import { cases } from '../../../cases.ts'
import { dealtOf, settled } from '../../figures/dealt.ts'
import { packAt } from '../../figures/marram.ts'
import { type Flown, happen, hear } from '../demoRun.ts'

/** The turns of the demo that end with a read-back of figures, and what calls them. */
const CALLS: Readonly<Record<string, string>> = {
  'information.broadcast': 'get the information',
  'clearance.departure': 'request clearance',
  'startUp.push': 'request push and start',
  'taxi.route': 'request taxi',
}

/** One departure with the revisions that its run has. */
interface Flight {
  readonly departure: Departure
  readonly script: Script | undefined
  readonly revisions: readonly { readonly set: FigureSet; readonly revised: Revised }[]
}

/** The preliminary figures, and the final ones after them. */
function flightOf(pack: Pack, departure: Departure, final: Inputs, script?: Script): Flight {
  // What stations give is theirs to give.
  const own = (inputs: Inputs) => (script ? withoutGiven(pack, inputs, undefined) : inputs)
  const revision = (inputs: Inputs, before?: FigureSet) => ({
    set: compute(pack.figures, inputs),
    revised: revisedBy(pack, inputs, before && { revision: 1, set: before }),
  })
  const first = revision(own(departure.preliminary))
  return { departure, script, revisions: [first, revision(own(final), first.set)] }
}

/** A run in which the preliminary figures were entered, and the same when the final ones have come in. */
function flown(pack: Pack, { departure, script, revisions }: Flight): { before: Flown; after: Flown } {
  const initial = Object.fromEntries(pack.situations.map((one) => [one.name, one.initial]))
  const [first, then] = revisions.map(({ revised }) => revised)
  if (!first || !then) throw new Error('two revisions make a flight')
  const begun = happen(
    { pack, state: emptyRun('demo'), effects: [] },
    {
      type: 'runStarted',
      pack: { id: pack.id, version: pack.version, sha256: 'none', name: pack.name, texts: {} },
      situation: { ...initial, ...departure.preliminary.situation },
      settings: { phraseology: 'plain', coachAfter: 0, radio: 'icao' },
      startedAt: 0,
      ...(script && { script }),
    },
  )
  const before = happen(begun, first)
  return { before, after: happen(before, then) }
}

/** What a run makes of words said at one of its items, wherever it is. */
function judged({ pack, state }: Flown, list: string, item: string, text: string): Judgement {
  const at: RunState = { ...state, floor: { at: 'item', list, item }, question: undefined }
  const { event } = interpret(pack, at, { text, by: 'typed', listenId: state.listenId, beganAt: 0, endedAt: 0 })
  if (event.type !== 'answered') throw new Error(`"${text}" at ${item} is ${event.type}`)
  return event.judgement
}

/** An answer in the item's own words with these values. */
function answer(pack: Pack, item: Item, { situation, values }: RunState): string {
  return sayResponse(
    responseOf(item, { situation, values: {} }),
    figuresFor(pack, values, namedIn(item, situation)),
    'plain',
  )
}

const namedIn = (item: Item, situation: RunState['situation']): string[] =>
  [...responseOf(item, { situation, values: {} }).text.matchAll(/<([\w-]+)>/g)].map(([, name = '']) => name)

const shown = (set: FigureSet | undefined, name: string) => {
  const figure = set && figureOf(set, name)
  return figure ? showValue(figure) : undefined
}

describe.each(['marram', 'pair'])('in dealt departures of %s, after the final figures came in', (id) => {
  let pack: Pack
  let dealt: Departure[]
  beforeAll(async () => {
    pack = await packAt(`checklists/${id}`)
    dealt = dealtOf(pack, cases(1000))
  })

  test('a pilot who parrots the preliminary ones is wrong at the items that say another value now, and right at all others', () => {
    for (const departure of dealt) {
      const flight = flightOf(pack, departure, settled(pack, departure))
      const { before, after } = flown(pack, flight)
      const [old, now] = flight.revisions.map(({ set }) => set)
      const { situation } = after.state
      const wrongAt: string[] = []
      let right = 0
      for (const list of listsOf(pack)) {
        for (const item of itemsOf(list, { situation, values: {} })) {
          const names = namedIn(item, situation)
          const other = names.filter((name) => shown(old, name) !== shown(now, name))
          const text = answer(pack, item, before.state)
          const { verdict, parts } = judged(after, list.id, item.id, text)
          const told = `seed ${departure.seed}, ${item.id}: "${text}"`
          expect(verdict, told).toBe(other.length > 0 ? 'negative' : 'correct')
          // Of an item with several values exactly those that moved.
          const wrong = parts.filter(({ state }) => state === 'wrong').map(({ name }) => name)
          expect(wrong.sort(), told).toEqual(other.sort())
          if (other.length === 0) right++
          else wrongAt.push(...other)
        }
      }
      expect(right, `seed ${departure.seed}`).toBeGreaterThan(0)
      expect(wrongAt, `seed ${departure.seed}`).toEqual(expect.arrayContaining([...departure.trap.figures]))
      const buried = pack.figures.basis?.deal?.traps.find(({ kind }) => kind === departure.trap.kind)?.figure
      expect(wrongAt, `seed ${departure.seed}`).toContain(buried)
    }
  })

  test('a pilot who says the final ones is right everywhere', () => {
    for (const departure of dealt.slice(0, cases(200))) {
      const { after } = flown(pack, flightOf(pack, departure, settled(pack, departure)))
      for (const list of listsOf(pack)) {
        for (const item of itemsOf(list, after.state)) {
          const text = answer(pack, item, after.state)
          const { verdict } = judged(after, list.id, item.id, text)
          expect(verdict, `seed ${departure.seed}, ${item.id}: "${text}"`).toBe('correct')
        }
      }
    }
  })
})

describe('in dealt departures with stations, after the final figures came in', () => {
  let pack: Pack
  let flights: Flight[]
  beforeAll(async () => {
    pack = await packAt('checklists/marram')
    flights = dealtOf(pack, 75).map((departure) => {
      const script = scriptFor(pack, departure.preliminary, departure.seed, { others: [departure.final] })
      return flightOf(pack, departure, departure.final, script)
    })
  })

  /** The pack with one turn alone, free of what must come before it. */
  function withTurn(id: string): { part: Pack; exchange: Exchange; turn: ExchangeTurn } {
    const found = findTurn(pack, id)
    const { interlocks: _, ...all } = found.turn
    const turn = {
      ...all,
      elements: all.elements.filter(({ when }) => holds(when, { situation: { radio: 'icao' }, values: {} })),
    }
    const exchange: Exchange = { ...found.exchange, turns: [turn] }
    return { part: { ...pack, phases: [{ id: 'part', name: 'Part', activities: [exchange] }] }, exchange, turn }
  }

  /** What the station says of each element that is read back. */
  function heardIn(part: Pack, exchange: Exchange, turn: ExchangeTurn, state: RunState): Record<string, string> {
    const { opens: _, ...bare } = turn
    return Object.fromEntries(
      turn.elements.flatMap((element) => {
        const words = stationWords(part, state, exchange, { ...bare, elements: [element] }).whole()
        return element.readBack ? [[element.id, words.map(({ text }) => text).join(' ')]] : []
      }),
    )
  }

  /** The read-back of what the station would have said in this state. */
  function readBack(part: Pack, turn: ExchangeTurn, state: RunState): string {
    const values = saidValues(state)
    return turn.elements
      .flatMap(({ readBack: own }) =>
        own ? [sayResponse(own.icao, figuresFor(part, values, own.icao.figures), 'standard')] : [],
      )
      .join(' ')
  }

  test.each(Object.entries(CALLS))(
    '%s read back as before them is wrong in the elements that are said anew',
    (id, call) => {
      const { part, exchange, turn } = withTurn(id)
      let [moved, unmoved] = [0, 0]
      for (const flight of flights) {
        const { departure } = flight
        if (turn.when && departure.preliminary.situation?.stand !== 'push') continue
        const { before, after } = flown(part, flight)
        const [heardBefore, heardNow] = [before, after].map(({ state }) => heardIn(part, exchange, turn, state))
        const called = hear(after, call)
        const told = `seed ${departure.seed}, ${departure.trap.kind}`
        expect(called.state.turns[id]?.status, told).toBe('said')
        const text = readBack(part, turn, before.state)
        const heard = { text, by: 'typed', listenId: called.state.listenId, beganAt: 0, endedAt: 0 } as const
        const event = interpret(part, called.state, heard).event as EventBody<'transmitted'>
        expect(event.type, `${told}: "${text}"`).toBe('transmitted')
        const elements = turn.elements.flatMap(({ id: name, readBack: own }) =>
          own ? [{ id: name, response: own.icao }] : [],
        )
        const states = statesOf(elements, event.judgement)
        const wrong = Object.keys(states).filter((name) => states[name] === 'wrong')
        const other = Object.keys(heardNow ?? {}).filter((name) => heardBefore?.[name] !== heardNow?.[name])
        expect(wrong.sort(), `${told}: "${text}"`).toEqual(other.sort())
        expect(event.judgement.verdict, `${told}: "${text}"`).toBe(other.length > 0 ? 'negative' : 'correct')
        // The station does not let it pass either.
        const answered = hear(called, text)
        expect(answered.state.turns[id]?.status === 'done', told).toBe(other.length === 0)
        if (other.length > 0) moved++
        else unmoved++
      }
      expect(unmoved).toBeGreaterThan(10)
      // Only what goes by the runway is said anew.
      expect(moved > 10, `${moved} said anew`).toBe(id !== 'startUp.push')
      if (id === 'startUp.push') expect(moved).toBe(0)
    },
  )

  test('what a station says anew goes with another runway, and with nothing else that is dealt', () => {
    for (const flight of flights.slice(0, 60)) {
      const { departure } = flight
      const { before, after } = flown(pack, flight)
      const isOther = departure.preliminary.values.runway !== departure.final.values.runway
      const anew = exchangesOf(pack).filter(({ station, turns }) =>
        station.role === 'otherseat'
          ? false
          : turns.some((turn) => {
              const exchange = findTurn(pack, turn.id).exchange
              const [old, now] = [before, after].map(({ state }) => heardIn(pack, exchange, turn, state))
              return JSON.stringify(old) !== JSON.stringify(now)
            }),
      )
      expect(anew.length > 0, `seed ${departure.seed}`).toBe(isOther)
    }
  })
})
