/** A run begun in the middle: what comes before counts as done, with the figures and values that it would have had. */

import { describe, expect, it } from 'vitest'
import { eventsBegunAt } from '../../src/app/run/beginAnywhere.ts'
import { placesToBegin } from '../../src/app/view/placesToBegin.ts'
import { viewOf } from '../../src/app/view/view.ts'
import { activityById } from '../../src/kernel/pack/place.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { activityAt } from '../../src/kernel/run/core/moving.ts'
import { readEvents } from '../../src/kernel/run/core/readLog.ts'
import { fold } from '../../src/kernel/run/core/step.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { cuesOf } from '../../src/kernel/run/debrief/replay.ts'
import { factsOf } from '../../src/kernel/training/factsOf.ts'
import { demoInputs, demoPack, rig } from './rig.ts'

const NOW = Date.parse('2001-06-01T10:00:00.000Z')
const pack = await demoPack()
const inputs = await demoInputs(pack, 'preliminary')
const settings = { phraseology: 'plain', coachAfter: 0, ownValues: true } as const

const begunAt = (activity: string, hasStations = true): RunEvent[] =>
  eventsBegunAt(
    pack,
    { inputs, settings, ...(hasStations && { stations: { seed: 7 } }) },
    { activity, runId: 'run', now: NOW },
  )

/** The same, gone on with. */
async function gone(activity: string, hasStations = true) {
  const on = await rig({ events: begunAt(activity, hasStations) })
  await on.run.resume()
  await on.settled()
  return on
}

const places = placesToBegin(pack, inputs, true).flatMap(({ activities }) => activities)

describe('a run begun in the middle', () => {
  it.each(places.map(({ id, name }) => [name, id]))('has at %s all before it done, and puts that', (_, id) => {
    const events = begunAt(id)
    const state = fold(pack, 'run', events)
    const first = activityById(pack, id)
    const at = activityAt(pack, state.floor)
    // What the line of a list waits for comes first, wherever the pack has it.
    const isGivenFirst = at?.type === 'exchange' && first?.type === 'list'
    expect(isGivenFirst || at?.id === id).toBe(true)
    expect(readEvents(events)).toMatchObject({ isCut: false })
    const debrief = debriefOf(pack, [...events, ended(events.length)])
    expect(debrief.totals).toMatchObject({ misses: 0, radioMisses: 0, startDeviations: 0, topicsLeftOut: 0 })
    const earlier = places
      .slice(
        0,
        places.findIndex((place) => place.id === id),
      )
      .map(({ name }) => name)
    expect(debrief.deviations.filter(({ where }) => earlier.includes(where))).toEqual([])
    expect(debrief.lists.filter(({ name }) => earlier.includes(name))).toEqual([])
    expect(debrief.exchanges.filter(({ name }) => earlier.includes(name))).toEqual([])
  })

  it('takes in what stations would have given before, and nothing that comes later', () => {
    const given = (activity: string) => {
      const { inputs: now, fromStations } = fold(pack, 'run', begunAt(activity))
      return { values: now?.values ?? {}, names: Object.keys(fromStations) }
    }
    const [first, last] = [places[0]?.id ?? '', places.at(-1)?.id ?? '']
    expect(given(first).names).toEqual([])
    expect(given(last).names.length).toBeGreaterThan(3)
    const { script } = fold(pack, 'run', begunAt(last))
    expect(given(last).values).toMatchObject({ transponder: script?.values.transponder })
  })

  it('has what stations gave before on the scratch pad, as the pilot would have copied it down', () => {
    const state = fold(pack, 'run', begunAt('departureBriefing'))
    const { values = {} } = state.inputs ?? {}
    const lines = state.pad.text.split('\n')
    expect(lines.map((line) => line.split(':')[0])).toEqual([
      'Departure information',
      'Departure clearance',
      'Contact ground',
    ])
    expect(lines[1]).toContain(`squawk ${values.transponder}`)
    expect(lines[1]).toContain(`departure ${values.departureRoute}`)
    expect(viewOf(pack, state).begunAt).toMatch(/; what stations gave before is on the scratch pad$/)
    const last = fold(pack, 'run', begunAt(places.at(-1)?.id ?? ''))
    expect(last.pad.text).toMatch(/^Taxi clearance: .*holding point .*hold short /m)
    const first = fold(pack, 'run', begunAt(places[0]?.id ?? ''))
    expect(first.pad.text).toBe('')
    expect(viewOf(pack, first).begunAt).not.toContain('pad')
  })

  it('asks for the pilot’s own value only where it is still to be said', () => {
    expect(fold(pack, 'run', begunAt(places[0]?.id ?? '')).ownToAsk).not.toEqual([])
    expect(fold(pack, 'run', begunAt(places.at(-1)?.id ?? '')).ownToAsk).toEqual([])
  })

  it('waits for no time that was to pass before', () => {
    const state = fold(pack, 'run', begunAt('leftStart'))
    expect(viewOf(pack, state).clocks).toEqual([])
    expect(state.timesAnnounced).toHaveLength(1)
  })

  it('says on the screen where it was begun', () => {
    expect(viewOf(pack, fold(pack, 'run', begunAt('beforeStart'))).begunAt).toMatch(/before start/i)
  })

  it('knows no activity that the pack does not have', () => {
    expect(() => begunAt('nowhere')).toThrow('pack marram has no activity nowhere')
  })
})

describe('gone on with', () => {
  it('puts the list, and is no interruption', async () => {
    const on = await gone('beforeStart', false)
    expect(on.said()).toMatch(/before start/i)
    expect(on.run.state().interruptions).toEqual([])
  })

  it('opens again what rests on a figure that changes, though nobody has said it', async () => {
    const on = await gone('beforeStart', false)
    await on.revise('final')
    expect(on.voice.said.map(({ text }) => text).join(' ')).toMatch(
      /Recheck .*takeoff trim.* Load figures list incomplete/,
    )
  })

  it('counts in its debrief what is said from there alone', async () => {
    const on = await gone('beforeStart', false)
    await on.hear('before start list')
    await on.hear('brake released')
    const debrief = debriefOf(pack, on.run.events())
    expect(debrief.begunAt).toEqual({ activity: 'beforeStart', name: expect.stringMatching(/before start/i) })
    expect(debrief.lists.map(({ id }) => id)).not.toContain('load')
    expect(debrief.lists.map(({ id }) => id)).toContain('beforeStart')
    expect(debrief.revisions).toHaveLength(1)
    expect(debrief.lists[0]?.items[0]?.tries).toHaveLength(1)
    expect(cuesOf(pack, on.run.events())[0]?.seq).toBeGreaterThan(2)
    expect(factsOf(pack, on.run.events()).trials.every(({ card }) => card.startsWith('beforeStart'))).toBe(true)
  })

  it('finds no fault in what its partner never said', async () => {
    const events = eventsBegunAt(
      pack,
      { inputs, settings: { ...settings, partner: { seed: 1, rate: 1 } } },
      { activity: 'beforeStart', runId: 'run', now: NOW },
    )
    expect(fold(pack, 'run', events).partner?.chances ?? []).toEqual([])
  })
})

const ended = (seq: number): RunEvent => ({
  v: 1,
  seq,
  runId: 'run',
  t: 0,
  wall: new Date(NOW).toISOString(),
  type: 'ended',
})
