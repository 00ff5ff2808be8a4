/** Every item of the demo interrupted before, during and after its answer, in every way: the right offer, nothing skipped, nothing twice. */

import { beforeAll, describe, expect, it } from 'vitest'
import { revisedBy } from '../../../../src/app/run/revision.ts'
import { readPackDir } from '../../../../src/cli/packDir.ts'
import { compute } from '../../../../src/kernel/figures/compute.ts'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import { findItem, itemsOf, listsOf } from '../../../../src/kernel/pack/place.ts'
import { emptyRun } from '../../../../src/kernel/run/core/emptyRun.ts'
import type { Effect, EventBody, RunCommand, RunEvent } from '../../../../src/kernel/run/core/events.ts'
import { restedOn } from '../../../../src/kernel/run/core/progress.ts'
import type { Interruption, RunState } from '../../../../src/kernel/run/core/state.ts'
import { fold, step } from '../../../../src/kernel/run/core/step.ts'
import { nextCall, watchAt, watchState } from '../../../../src/kernel/run/watch/watchTiming.ts'
import { revision } from '../../figures/marram.ts'
import { TYPED } from '../fixture.ts'

const LONG_MS = 200_000
const OFFER = 'one back if you like'

/** A run that can be forked: nothing in it changes. */
interface Flown {
  readonly state: RunState
  readonly events: readonly RunEvent[]
  readonly effects: readonly Effect[]
}

let pack: Pack
/** The demo as it stands when each item is asked, and at its end. */
let places: readonly Flown[]

function happen(flown: Flown, body: EventBody, afterMs = 1_000): Flown {
  const seq = flown.state.seq + 1
  const t = flown.state.t + afterMs
  const event: RunEvent = { v: 1, seq, runId: 'run', t, wall: '2000-01-01T00:00:00.000Z', ...body }
  return { ...step(pack, flown.state, event), events: [...flown.events, event] }
}

const said = ({ effects }: Flown) =>
  effects.flatMap((effect) => (effect.type === 'speak' ? [effect.text] : [])).join(' ')
const command = (name: RunCommand): EventBody => ({ type: 'commanded', command: name, evidence: TYPED })
const itemAt = ({ state: { floor } }: Flown) => (floor.at === 'item' ? floor.item : undefined)

function answer({ state }: Flown, verdict: 'correct' | 'incomplete'): EventBody {
  const id = state.floor.at === 'item' ? state.floor.item : ''
  const { item } = findItem(pack, id)
  const parts = verdict === 'incomplete' ? ([{ name: 'one', kind: 'word', state: 'ok' }] as const) : []
  const expected = restedOn(item, state)
  const judgement = { verdict, parts }
  return { type: 'answered', item: id, evidence: TYPED, judgement, expected, challengeRevision: 1, revision: 1 }
}

/** What takes a run that is not at an item on to the next place. */
function onward({ state }: Flown): EventBody {
  const { floor } = state
  const activity = 'activity' in floor ? pack.phases[floor.phase]?.activities[floor.activity] : undefined
  const id = activity?.id ?? ''
  if (floor.at === 'flow') return { type: 'flowClosed', flow: id, evidence: TYPED }
  if (floor.at === 'call') return { type: 'listCalled', list: id, evidence: TYPED }
  if (floor.at === 'line') return { type: 'cleared', clearance: 'push', evidence: TYPED }
  const watch = watchAt(pack, floor)
  if (!watch) throw new Error(`nothing leads on from ${floor.at}`)
  const call = nextCall(watch, watchState(state, watch.id))?.call
  if (watchState(state, watch.id).status !== 'running' || !call) {
    return { type: 'watchBegan', watch: watch.id, at: state.t, evidence: TYPED }
  }
  const value = call.value ? { value: call.value.min ?? call.value.max ?? 0, inRange: true } : {}
  return { type: 'watchCalled', watch: watch.id, call: call.id, at: state.t, evidence: TYPED, ...value }
}

/** As long as the demo's interlocks hold an item or an engine, and no break. */
const UNHURRIED_MS = 30_000

function flyOn(from: Flown, isThere: (flown: Flown) => boolean): Flown {
  let flown = from
  for (let count = 0; !isThere(flown); count++) {
    if (count > 300) throw new Error(`the run does not end: ${said(flown)}`)
    flown = happen(flown, itemAt(flown) ? answer(flown, 'correct') : onward(flown), UNHURRIED_MS)
  }
  return flown
}

beforeAll(async () => {
  const read = await readPackDir('checklists/marram')
  if (!read.pack) throw new Error(JSON.stringify(read.problems))
  pack = read.pack
  const { id, version, sha256, name } = pack
  const started: EventBody = {
    type: 'runStarted',
    pack: { id, version, sha256, name, texts: {} },
    situation: Object.fromEntries(pack.situations.map((one) => [one.name, one.initial])),
    settings: { phraseology: 'plain', coachAfter: 0 },
    startedAt: 0,
  }
  let flown = happen({ state: emptyRun('run'), events: [], effects: [] }, started)
  flown = happen(flown, revisedBy(pack, revision(pack, 'final'), undefined))
  const found: Flown[] = []
  while (flown.state.floor.at !== 'end') {
    flown = flyOn(flown, (one) => itemAt(one) !== undefined || one.state.floor.at === 'end')
    if (itemAt(flown) === undefined) break
    found.push(flown)
    flown = happen(flown, answer(flown, 'correct'), UNHURRIED_MS)
  }
  places = found
})

/** Each way of breaking off and coming back; a long silence ends with the answer itself. */
const WAYS: Readonly<Record<Interruption['what'], (flown: Flown) => Flown>> = {
  standBy: (flown) => happen(happen(flown, command('standBy')), command('continue'), LONG_MS),
  left: (flown) => happen(flown, { type: 'resumed' }, LONG_MS),
  break: (flown) => happen(flown, itemAt(flown) ? answer(flown, 'correct') : onward(flown), LONG_MS),
}
const MOMENTS: Readonly<Record<string, (flown: Flown) => Flown>> = {
  before: (flown) => flown,
  during: (flown) => happen(flown, answer(flown, 'incomplete')),
  after: (flown) => happen(flown, answer(flown, 'correct'), UNHURRIED_MS),
}
const CASES = Object.keys(MOMENTS).flatMap((moment) =>
  (Object.keys(WAYS) as Interruption['what'][]).map((way) => [moment, way] as const),
)

/** How often each item was closed by an answer. */
function closings({ events }: Flown): Map<string, number> {
  const counts = new Map<string, number>()
  for (const event of events) {
    if (event.type !== 'answered' || event.judgement.verdict !== 'correct') continue
    counts.set(event.item, (counts.get(event.item) ?? 0) + 1)
  }
  return counts
}

describe('the demo', () => {
  it('has an item for every place that is interrupted here', () => {
    const items = listsOf(pack).flatMap((list) => itemsOf(list, places[0]?.state ?? { situation: {}, values: {} }))
    expect(places.map((place) => itemAt(place))).toEqual(items.map(({ id }) => id))
    expect(places).toHaveLength(34)
  })

  it.each(CASES)(
    'interrupted %s the answer to each item by %s goes on at the right place, offered and logged',
    (moment, way) => {
      for (const place of places) {
        const broken = MOMENTS[moment]?.(place) ?? place
        // Behind the last answer nothing is left to go on with.
        if (way === 'break' && broken.state.floor.at === 'end') continue
        const at = itemAt(broken)
        const back = WAYS[way](broken)
        const isBreak = way !== 'break' || at !== undefined
        expect(back.state.interruptions.map(({ what }) => what)).toEqual(isBreak ? [way] : [])
        if (isBreak) expect(back.state.interruptions[0]).toMatchObject({ lengthMs: LONG_MS })
        // Stand by and a reload keep the place; the answer that ends a silence leads on from it.
        if (way !== 'break') expect(back.state.floor).toEqual(broken.state.floor)
        const now = itemAt(back)
        const isOffered = isBreak && now !== undefined
        expect(said(back).includes(OFFER)).toBe(isOffered)
        expect(back.state.isBack).toBe(isOffered)
        if (now !== undefined) {
          expect(back.state.items[now]?.partsSoFar).toEqual([])
          expect(said(back).toLowerCase()).toContain(findItem(pack, now).item.challenge.toLowerCase())
        }
        const end = flyOn(back, ({ state }) => state.floor.at === 'end')
        expect([...closings(end).values()].every((count) => count === 1)).toBe(true)
        expect(closings(end).size).toBe(places.length)
        expect(fold(pack, 'run', end.events)).toEqual(end.state)
      }
    },
  )

  it('takes up the offer: one item back, or the list from its top, and asks again only what that opens', () => {
    for (const place of places) {
      const back = WAYS.left(place)
      const id = itemAt(place) ?? ''
      const { list } = findItem(pack, id)
      const items = itemsOf(list, place.state).map((item) => item.id)
      const before = items[items.indexOf(id) - 1]
      const one = happen(back, command('goBack'))
      expect(itemAt(one)).toBe(before ?? id)
      const top = happen(back, command('fromTop'))
      expect(itemAt(top)).toBe(items[0])
      for (const [taken, again] of [
        [one, before === undefined ? [] : [before]],
        [top, items.slice(0, items.indexOf(id))],
      ] as const) {
        const end = flyOn(taken, ({ state }) => state.floor.at === 'end')
        const twice = [...closings(end)].filter(([, count]) => count > 1).map(([item]) => item)
        expect(twice.sort()).toEqual([...again].sort())
        expect(closings(end).size).toBe(places.length)
      }
    }
  })
})

describe('what is no interruption', () => {
  it.each(['flow', 'call', 'line', 'watch'])('a long wait at a %s', (at) => {
    const start = places[0]
    if (!start) throw new Error('no place')
    const there = flyOn(start, ({ state }) => state.floor.at === at)
    const later = happen(there, onward(there), LONG_MS)
    expect(later.state.interruptions).toEqual([])
    expect(said(later)).not.toContain(OFFER)
  })

  it('a short stand by: where the run is, is said, and nothing is offered', () => {
    const [place] = places
    if (!place) throw new Error('no place')
    const back = happen(happen(place, command('standBy')), command('continue'), 20_000)
    expect(said(back)).toBe('Resuming load figures list. Zero fuel weight?')
    expect(back.state.interruptions).toMatchObject([{ what: 'standBy', offered: false, lengthMs: 20_000 }])
  })

  it('new figures that end a wait: what has changed is said alone, and the break is noted', () => {
    const [place] = places
    if (!place?.state.inputs) throw new Error('no place')
    const final = revisedBy(pack, revision(pack, 'amended'), {
      revision: 1,
      set: compute(pack.figures, place.state.inputs),
    })
    const later = happen(place, final, LONG_MS)
    expect(later.state.interruptions).toMatchObject([{ what: 'break', lengthMs: LONG_MS }])
    expect(said(later)).not.toContain(OFFER)
    expect(said(later)).toMatch(/^Amended figures are in\./)
  })
})
