/**
 * The hard orders of the demo's ground sequence, listed here independently of the pack, against every order in which
 * the pilot might take it. What each turn is called by is the pilot's plain words.
 */

import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import type { Activity, Pack } from '../../../../src/kernel/pack/checklist.ts'
import { watchState } from '../../../../src/kernel/run/watch/watchTiming.ts'
import { cases } from '../../../cases.ts'
import { packAt } from '../../figures/marram.ts'
import { begun, type Flown, happen, hear, words } from '../demoRun.ts'

const WORDS = {
  checks: 'confirm doors and steps',
  brake: 'parking brake set',
  bar: 'confirm steering pin and tow bar',
  chocks: 'remove the chocks',
  power: 'external power off',
  unplug: 'disconnect the cable',
  beacon: 'beacon on',
  relay: 'cleared to push facing east',
  release: 'brakes released',
  start: 'clear to start',
} as const
type Turn = keyof typeof WORDS
const TURNS = Object.keys(WORDS) as Turn[]

/** What must have been done first. Common practice of ramp work, no source. */
const HARD_ORDERS: readonly (readonly [first: Turn, then: Turn])[] = [
  ['brake', 'bar'],
  ['brake', 'chocks'],
  ['bar', 'chocks'],
  ['power', 'unplug'],
  ['checks', 'relay'],
  ['chocks', 'relay'],
  ['unplug', 'relay'],
  ['bar', 'relay'],
  ['beacon', 'relay'],
  ['relay', 'release'],
  ['checks', 'start'],
  ['beacon', 'start'],
]
/** Behind the start: the crew asks for the brake before anything else is said. */
const LEAVING = { disconnect: 'disconnect', signal: 'signal in sight' } as const

let demo: Pack
beforeAll(async () => {
  demo = await packAt('checklists/marram')
})

/** A turn that is over. */
const DONE = { status: 'done', partsSoFar: [], begun: {}, misses: 0, sayAgains: 0, shown: false } as const

const isDone = ({ state }: Flown, turn: string) => state.turns[turn]?.status === 'done'

/** The demo with these of its activities alone, in this order; clearances in as asked. */
function at(ids: readonly string[], cleared: readonly string[], situation = { stand: 'push', icing: 'no' }): Flown {
  const all = demo.phases.flatMap(({ activities }) => activities)
  const activities = ids.map((id): Activity => {
    const found = all.find((activity) => activity.id === id)
    if (!found) throw new Error(`the demo has no ${id}`)
    return found
  })
  const said = { pushDirection: 'east', holdingPoint: 'C3', taxiRoute: 'E C', crossing: '33' }
  const papers = {
    takeoffFlap: '12',
    runway: '24',
    altimeter: 1009,
    altimeterInches: 29.8,
    blockFuel: 5640,
    fuelRequired: 4880,
    callsign: 'SALTMARSH 421',
  }
  const values = { ...papers, transponder: '2613', pushDirection: 'east', holdingPoint: 'C3' }
  const run = begun(demo, activities, { situation, said, values, cleared })
  // Own power came on line in the cockpit flow.
  const step = 'cockpitFlow.ownPower'
  const { stepsDone, doneAt } = run.state
  return { ...run, state: { ...run.state, stepsDone: [...stepsDone, step], doneAt: { ...doneAt, [step]: 0 } } }
}

/** Whether Otherseat let the turn be called done; anything but a plain yes or a plain objection is a mistake. */
function taken(before: Flown, turn: Turn): { readonly after: Flown; readonly accepted: boolean } {
  const after = hear(before, WORDS[turn])
  const said = words(after)[0] ?? ''
  const accepted = isDone(after, `crew.${turn}`)
  expect(said, `${turn} after ${Object.keys(before.state.turns)}`).toMatch(
    accepted ? /^groundCrew: / : /^otherseat: Not yet, /,
  )
  return { after, accepted }
}

describe('the ground sequence of the demo', () => {
  test.each([
    ['pushed back', 'push', TURNS],
    ['under its own power', 'own', TURNS.filter((turn) => !['bar', 'relay', 'release'].includes(turn))],
  ])('%s: what breaks a hard order is questioned wherever it comes, and nothing else is', (_, stand, turns) => {
    const orders = HARD_ORDERS.filter(([first, then]) => turns.includes(first) && turns.includes(then))
    const lacking = (turn: Turn, done: ReadonlySet<Turn>) =>
      orders.some(([first, then]) => then === turn && !done.has(first))
    const start = at(['crew'], ['push'], { stand, icing: 'no' })
    // From every set of turns that can be done by then, every turn that may come next: no permutation is left out.
    const reached = new Map<string, { run: Flown; done: ReadonlySet<Turn> }>([['', { run: start, done: new Set() }]])
    let [questioned, accepted] = [0, 0]
    for (const { run, done } of reached.values()) {
      for (const turn of turns.filter((one) => !done.has(one))) {
        const outcome = taken(run, turn)
        expect(outcome.accepted, `${turn} after ${[...done]}`).toBe(!lacking(turn, done))
        if (!outcome.accepted) {
          questioned++
          continue
        }
        accepted++
        const next = new Set([...done, turn])
        const key = turns.filter((one) => next.has(one)).join(' ')
        if (!reached.has(key)) reached.set(key, { run: outcome.after, done: next })
      }
    }
    expect(questioned).toBeGreaterThan(20)
    expect(accepted).toBeGreaterThan(40)
  })

  test('whole permutations, taken at random: an objection comes exactly where an order is broken', () => {
    const start = at(['crew'], ['push'])
    fc.assert(
      fc.property(fc.shuffledSubarray([...TURNS], { minLength: TURNS.length }), (turns) => {
        let run = start
        const done = new Set<Turn>()
        for (const turn of turns) {
          const outcome = taken(run, turn)
          const isBroken = HARD_ORDERS.some(([first, then]) => then === turn && !done.has(first))
          expect(outcome.accepted, `${turn} in ${turns}`).toBe(!isBroken)
          run = outcome.after
          if (outcome.accepted) done.add(turn)
        }
      }),
      { numRuns: cases(150) },
    )
  })

  test('the push is relayed only when it is cleared, and only as it was cleared', () => {
    const before = ['checks', 'brake', 'bar', 'chocks', 'power', 'unplug', 'beacon'] as const
    const uncleared = before.reduce((run, turn) => hear(run, WORDS[turn]), at(['startUp', 'crew'], []))
    expect(isDone(hear(uncleared, WORDS.relay), 'crew.relay')).toBe(false)
    const cleared = before.reduce((run, turn) => hear(run, WORDS[turn]), at(['crew'], ['push']))
    const other = hear(cleared, 'cleared to push facing west')
    expect(isDone(other, 'crew.relay')).toBe(false)
    expect(words(other)).toEqual(['groundCrew: Confirm push direction.'])
    expect(isDone(hear(other, WORDS.relay), 'crew.relay')).toBe(true)
  })

  test('the crew leaves after the brake is set, and signals after it has left', () => {
    const start = at(['away'], [])
    expect(words(start)[0]).toBe('groundCrew: Pushback completed, confirm brakes set.')
    for (const turn of ['disconnect', 'signal'] as const) {
      const early = hear(start, LEAVING[turn])
      expect(words(early)[0]).toMatch(/^otherseat: Not yet, /)
      expect(isDone(early, `away.${turn}`)).toBe(false)
    }
    const set = hear(start, 'parking brake set')
    expect(isDone(hear(set, LEAVING.signal), 'away.signal')).toBe(false)
    const off = hear(set, LEAVING.disconnect)
    expect(isDone(off, 'away.disconnect')).toBe(true)
    expect(hear(off, LEAVING.signal).state.cleared).toContain('allClear')
  })
})

describe('what waits for the ground crew, whatever the order of the pack', () => {
  test.each([
    ['flap', 'flapOrder', 'flap twelve', 'flapOrder.order', [], 'no flap before all clear'],
    ['the control check', 'controlCheck', 'full left', 'controlCheck.left', [], 'no controls before all clear'],
    ['taxi', 'taxi', 'request taxi', 'taxi.route', [], 'no taxi before hand signal'],
    ['rolling', 'rolling', 'clear left', 'rolling.left', ['taxi'], 'hand signal first'],
  ])('%s', (_, activity, text, turn, cleared, caution) => {
    const early = hear(at([activity, 'taxi', 'away'], cleared), text)
    expect(words(early)).toEqual([`otherseat: Not yet, ${caution}.`])
    expect(early.state.turns[turn]?.status ?? 'ahead').toBe('ahead')
    const signalled = ['parking brake set', ...Object.values(LEAVING)].reduce(hear, at(['away', activity], ['taxi']))
    expect(['said', 'done']).toContain(hear(signalled, text).state.turns[turn]?.status)
  })
})

describe('the brake comes off and a runway is crossed', () => {
  const LOOKED = ['clear left', 'taxi light on'] as const
  const rolling = (cleared: readonly string[]) =>
    ['parking brake set', ...Object.values(LEAVING)].reduce(hear, at(['away', 'rolling'], cleared))

  test('the brake only after the look, with the taxi light on', () => {
    for (let count = 0; count < LOOKED.length; count++) {
      const early = LOOKED.slice(0, count).reduce(hear, rolling(['taxi']))
      expect(words(hear(early, 'brakes released'))[0]).toMatch(/^otherseat: Not yet, /)
      expect(isDone(hear(early, 'brakes released'), 'rolling.brake')).toBe(false)
    }
    expect(isDone(hear(LOOKED.reduce(hear, rolling(['taxi'])), 'brakes released'), 'rolling.brake')).toBe(true)
    // Whoever sits on the right calls the right side, and that seat is simulated.
    expect(words(hear(rolling(['taxi']), 'clear left'))).toEqual(['otherseat: My side simulated, clear right.'])
  })

  test('nothing moves without a taxi clearance', () => {
    const looked = LOOKED.reduce(hear, rolling([]))
    expect(words(hear(looked, 'brakes released'))).toEqual(['otherseat: Not yet, taxi clearance first.'])
  })

  test('a runway is crossed after its clearance, its read-back and both looks, and the holding point comes behind it', () => {
    const start = at(['lookOut'], [])
    expect(isDone(hear(start, 'clear left'), 'lookOut.left')).toBe(false)
    const short = at(['crossing', 'lookOut', 'vacated', 'holding'], [])
    const rolled = {
      ...short,
      state: { ...short.state, doneAt: { 'rolling.brakes': 0 }, turns: { 'rolling.brakes': { ...DONE } } },
    }
    const cleared = hear(rolled, 'holding short runway three three')
    expect(words(cleared)[0]).toMatch(/cross runway three three, report runway vacated/)
    expect(words(hear(cleared, 'crossing runway zero six'))[0]).toMatch(
      /^controller: Saltmarsh four two one, negative, cross runway three three/,
    )
    const steps = ['crossing runway three three', 'clear left', 'runway vacated']
    const over = steps.reduce(hear, cleared)
    expect(['crossing.cross', 'lookOut.left', 'vacated.report'].map((id) => isDone(over, id))).toEqual([
      ...[true, true, true],
    ])
    expect(isDone(hear(over, 'holding point charlie three'), 'holding.holding')).toBe(true)
  })

  test.each([
    ['full left', 'left aileron up right aileron down', 'left aileron down right aileron up'],
    ['full forward', 'elevator down', 'elevator up'],
    ['full forward', 'elevators down', 'elevators up'],
    ['rudder left', 'rudder left', 'rudder right'],
  ])('"%s" is over with what the display shows, and crossed controls are not', (call, right, crossed) => {
    const turn = { 'full left': 'left', 'full forward': 'forward', 'rudder left': 'rudderLeft' }[call] ?? ''
    const exchange = at(['controlCheck'], ['allClear'])
    const order = exchange.state
    const before = ['left', 'right', 'forward', 'aft', 'rudderLeft'].slice(
      0,
      ['left', 'right', 'forward', 'aft', 'rudderLeft'].indexOf(turn),
    )
    const turns = Object.fromEntries(before.map((id) => [`controlCheck.${id}`, { ...DONE }]))
    const asked = hear({ ...exchange, state: { ...order, turns } }, call)
    expect(words(asked)).toEqual(['otherseat: Display.'])
    expect(isDone(hear(asked, crossed), `controlCheck.${turn}`)).toBe(false)
    expect(isDone(hear(asked, right), `controlCheck.${turn}`)).toBe(true)
  })
})

describe('a list or a flow calls nothing done that a hard order holds back', () => {
  const SIGNAL = ['parking brake set', ...Object.values(LEAVING)]
  const KEY = { by: 'key', text: '' } as const
  /** Which item or step of which activity, how it is said, and what it waits for. */
  const ALL_CLEAR = [
    ['pushAndStart', 'crew', 'brake set tug away'],
    ['enginesRunning', 'ground', 'tow bar clear pin in hand'],
    ['enginesRunning', 'flap', 'flap twelve set'],
    ['readyForTaxi', 'controls', 'full left full right'],
    ['afterStartFlow', 'flap', 'flap is set'],
    ['taxiFlow', 'controls', 'controls are free'],
  ] as const

  /** The open item, every one before it being left open. */
  function reached(run: Flown, item: string): Flown {
    let next = run
    while (next.state.floor.at === 'item' && next.state.floor.item !== item) next = hear(next, 'leave it open')
    expect(next.state.floor).toMatchObject({ at: 'item', item })
    return next
  }
  /** Though the ground crew has not been finished with. */
  function call(run: Flown, list: string): Flown {
    const called = happen(run, { type: 'listCalled', list, evidence: KEY })
    return called.state.question ? hear(called, 'negative') : called
  }
  const isClosed = ({ state }: Flown, id: string) => state.items[id]?.status === 'done' || state.stepsDone.includes(id)

  test.each(ALL_CLEAR)('%s, %s: before the hand signal', (activity, own, text) => {
    const id = `${activity}.${own}`
    for (let count = 0; count <= SIGNAL.length; count++) {
      const run = SIGNAL.slice(0, count).reduce(hear, at(['away', activity], []))
      const ways = activity.endsWith('Flow')
        ? [happen(run, { type: 'stepDone', step: id, evidence: { by: 'typed', text } })]
        : [reached(call(run, activity), id)].flatMap((open) => [
            hear(open, text),
            happen(open, { type: 'confirmedByKey', item: id, evidence: KEY, expected: {}, revision: 1 }),
          ])
      const isSignalled = count === SIGNAL.length
      for (const way of ways) {
        expect(isClosed(way, id), `${id} after ${count} of the steps to the signal`).toBe(isSignalled)
        if (!isSignalled) expect(words(way)[0]).toMatch(/^otherseat: Not yet, /)
      }
      if (isSignalled || !activity.endsWith('Flow')) continue
      expect(isClosed(happen(run, { type: 'flowClosed', flow: activity, evidence: KEY }), id)).toBe(false)
    }
  })

  test.each([
    [[], 'right engine start'],
    [['rightStart'], 'left engine start'],
    [['leftStart'], 'right engine start'],
    [['rightStart', 'leftStart'], undefined],
  ])('both engines are stable when both starts are: %s', (started, caution) => {
    const run = at(['rightStart', 'leftStart', 'pushAndStart'], [])
    const watches = Object.fromEntries(
      started.map((id) => [id, { ...watchState(run.state, id), status: 'done' as const }]),
    )
    const called = hear({ ...run, state: { ...run.state, watches } }, 'push and start list')
    // A start that is still ahead is asked about first.
    expect(called.state.question?.about).toBe(caution === undefined ? undefined : 'outOfOrder')
    const on = reached(caution === undefined ? called : hear(called, 'negative'), 'pushAndStart.engines')
    const said = hear(on, 'both engines stable')
    expect(isClosed(said, 'pushAndStart.engines')).toBe(caution === undefined)
    if (caution !== undefined) expect(words(said)).toEqual([`otherseat: Not yet, ${caution}.`])
  })

  test('the whole demo, at the stand: no list behind the start completes before it', () => {
    const all = demo.phases.flatMap(({ activities }) => activities.map(({ id }) => id))
    for (const [list, own, text] of [
      ['readyForTaxi', 'controls', 'full left full right'],
      ['enginesRunning', 'flap', 'flap twelve set'],
      ['pushAndStart', 'engines', 'both engines stable'],
    ] as const) {
      const run = reached(hear(call(at(all, []), list), 'negative'), `${list}.${own}`)
      expect(words(hear(run, text))[0], list).toMatch(/^otherseat: Not yet, /)
      expect(isClosed(hear(run, text), `${list}.${own}`), list).toBe(false)
    }
  })
})

describe('an engine', () => {
  const BELOW_THE_LINE = ['all closed slides armed', 'beacon on', 'all pumps on']
  const LIST = [
    ...[
      'before start list',
      'brake set',
      'signs on',
      'four thousand eight hundred eighty',
      'five thousand six hundred forty',
      'one zero zero niner',
    ],
    ...['code two six one three', ...BELOW_THE_LINE],
  ]
  const START = 'starting the right engine'

  test.each([
    ['before the before start list, and so before the beacon', ['rightStart', 'beforeStart', 'crew'], []],
    ['before the ground crew has cleared it', ['beforeStart', 'rightStart', 'crew'], LIST],
  ])('is not started %s', (_, activities, before) => {
    const early = hear(before.reduce(hear, at(activities, ['push'])), START)
    expect(words(early)[0]).toMatch(/^otherseat: Not yet, /)
    expect(early.state.watches.rightStart).toBeUndefined()
  })

  test('is started when list and ground crew are through', () => {
    const crew = TURNS.map((turn) => WORDS[turn])
    const run = [...LIST, ...crew].reduce(hear, at(['beforeStart', 'crew', 'rightStart'], ['push']))
    expect(hear(run, START).state.watches.rightStart?.status).toBe('running')
  })
})
