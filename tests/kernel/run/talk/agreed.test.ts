/** What was agreed with a station, and briefed, when figures change behind it. */

import { describe, expect, it } from 'vitest'
import type { Activity, Item, Pack } from '../../../../src/kernel/pack/checklist.ts'
import { responseFrom } from '../../../../src/kernel/response/response.ts'
import type { Script } from '../../../../src/kernel/run/core/events.ts'
import type { RunState } from '../../../../src/kernel/run/core/state.ts'
import { fold } from '../../../../src/kernel/run/core/step.ts'
import { SAID, TALK, type TalkRun, talkRun } from '../talkFixture.ts'

const { sid: _, point: __, ...fixed } = SAID.values
/** Two runways, each with its own departure and holding point. */
const SCRIPT: Script = {
  values: fixed,
  by: {
    sid: { figure: 'runway', values: { '27L': 'tarn two alfa', '09R': 'loch one alfa' } },
    point: { figure: 'runway', values: { '27L': 'A3', '09R': 'B1' } },
  },
}
const CLEARANCE = 'cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven one'
const CLEARED = ['request clearance', CLEARANCE]
const BRIEFED = ['departing runway two seven left', 'level five thousand', 'rejected takeoff', 'briefing complete']
const PUSHED = [
  'before push',
  'four two seven one',
  'external power off',
  'beacon on',
  'brakes released',
  'ready to push',
]
const ASKED = [...CLEARED, ...BRIEFED, ...PUSHED, 'flap five', 'request taxi']
const TAXI = 'taxi to holding point alfa three, hold short of runway two seven left'

/** The pack with an item that says the departure that was given. */
const RESTING: Pack = {
  ...TALK,
  phases: TALK.phases.map((phase) => ({
    ...phase,
    activities: phase.activities.map((activity): Activity => {
      if (activity.type !== 'list') return activity
      const [code] = activity.entries.filter((entry) => entry.type === 'item')
      const route = {
        ...code,
        id: 'list.sid',
        challenge: 'departure route',
        responses: [{ response: responseFrom('<sid>') }],
      } as Item
      return { ...activity, entries: [...activity.entries, route] }
    }),
  })),
}

function flown(texts: readonly string[]): TalkRun {
  const run = talkRun(SCRIPT)
  for (const text of texts) run.hear(text)
  return run
}

/** Other papers: these values are other ones now, and all others stay. */
function revise(run: TalkRun, changed: RunState['values']): TalkRun {
  const before = run.state.values
  const values = { ...before, ...changed }
  return run.happen({
    type: 'figuresRevised',
    revision: run.state.revision + 1,
    status: 'final',
    label: 'final',
    inputs: { status: 'final', values, loads: {} },
    values,
    changes: Object.entries(changed).map(([figure, to]) => {
      return { figure, label: figure, from: before[figure], to, spoken: true }
    }),
    warnings: [],
  })
}

const status = (run: TalkRun, turn: string) => run.state.turns[turn]?.status

describe('another runway behind the clearances', () => {
  const changed = () => revise(flown([...ASKED, TAXI]), { runway: '09R' })

  it('opens again what was said for the old one, by name and without the new value', () => {
    const run = changed()
    expect([status(run, 'clearance.full'), status(run, 'taxi.route')]).toEqual(['ahead', 'ahead'])
    expect(run.state.briefingsClosed).toEqual([])
    expect(run.state.topics).toEqual({ 'briefing.level': 'ok', 'briefing.reject': 'ok' })
    const said = run.said().join(' ')
    expect(said).toContain('Runway changed. Recheck departure clearance, taxi and departure briefing.')
    expect(said).not.toMatch(/zero nine|two seven/)
  })

  it('leaves alone what has nothing to do with it', () => {
    const run = changed()
    expect([status(run, 'crew.push'), status(run, 'flap.order')]).toEqual(['done', 'done'])
    expect(run.state.items['list.code']?.status).toBe('done')
  })

  it('takes the clearance back until it is got anew, and all is asked for in its order', () => {
    const run = changed()
    expect(run.state.cleared).not.toContain('route')
    expect(run.state.floor).toMatchObject({ at: 'exchange', phase: 0 })
    expect(run.hear('request clearance').said()[0]).toMatch(/loch one alfa departure/)
    expect(run.hear(CLEARANCE).said()[0]).toBe('controller: Negative, loch one alfa departure.')
    run.hear('loch one alfa departure')
    expect(run.state.cleared).toContain('route')
    expect(run.hear('request taxi').said()[0]).toMatch(/holding point bravo one, hold short runway zero niner right/)
    run.hear('taxi to holding point bravo one, hold short of runway zero nine right')
    expect(run.state.floor.at).toBe('briefing')
    run.hear('departing runway zero nine right').hear('briefing complete')
    expect(run.state.floor.at).toBe('end')
    expect(run.state.values).toMatchObject({ sid: 'loch one alfa', point: 'B1' })
    expect(fold(TALK, 'talk', run.events)).toEqual(run.state)
  })

  it('comes while the read-back is awaited: the station says it anew, and nobody is corrected for the old one', () => {
    const run = revise(flown(ASKED), { runway: '09R' })
    expect(status(run, 'taxi.route')).toBe('ahead')
    expect(run.state.turns['taxi.route']?.misses).toBe(0)
  })

  it('holds back the item that rests on what is to be given anew', () => {
    const run = revise(flown([...CLEARED, ...BRIEFED, 'before push']), { runway: '09R' })
    expect(run.state.floor).toMatchObject({ at: 'exchange', phase: 0 })
    run.hear('request clearance').hear(CLEARANCE.replace('tarn two', 'loch one'))
    expect(run.state.floor).toMatchObject({ at: 'item', item: 'list.code' })
  })

  it('takes back the list whose item rests on what was given, though nothing new was given yet', () => {
    const run = talkRun(SCRIPT, RESTING)
    for (const text of [...CLEARED, ...BRIEFED, 'before push', 'four two seven one', 'tarn two alfa']) run.hear(text)
    expect(run.state.lists.list?.complete).toBe(true)
    revise(run, { runway: '09R' })
    expect(run.state.values.sid).toBe('tarn two alfa')
    expect(run.state.lists.list).toMatchObject({ complete: false, revoked: true })
    expect([run.state.items['list.code']?.status, run.state.items['list.sid']?.status]).toEqual(['done', 'reopened'])
    expect(run.said().join(' ')).toContain('Recheck departure route. Before push list incomplete.')
    expect(run.said().join(' ')).not.toMatch(/loch one/)
    expect(run.state.floor).toMatchObject({ at: 'exchange', phase: 0 })
    run.hear('request clearance').hear(CLEARANCE.replace('tarn two', 'loch one'))
    run.hear('departing runway zero nine right').hear('briefing complete')
    expect(run.state.floor).toMatchObject({ at: 'item', item: 'list.sid' })
    run.hear('loch one alfa')
    expect(run.state.lists.list?.complete).toBe(true)
    expect(fold(RESTING, 'talk', run.events)).toEqual(run.state)
  })

  it('ends the matter of a wrong read-back that was called correct', () => {
    const run = talkRun({ ...SCRIPT, slip: { turn: 'clearance.full', figure: 'code', kind: 'acceptsWrong', seed: 3 } })
    run.hear('request clearance').hear(CLEARANCE.replace('seven one', 'seven two'))
    expect(run.state.turns['clearance.full']?.slip).toBe('open')
    revise(run, { runway: '09R' })
    expect(run.state.turns['clearance.full']?.slip).toBe('unnoticed')
    expect(run.hear('request clearance').said()[0]).toMatch(/loch one alfa departure/)
  })
})

describe('papers that put another value in the place of one that a station gave', () => {
  it('open what gave it again, and the station says what it said', () => {
    const run = revise(flown(CLEARED), { level: 6000 })
    expect(run.said().join(' ')).toContain('First level changed. Recheck departure clearance.')
    run.hear('request clearance').hear(CLEARANCE)
    expect(run.state.values.level).toBe(5000)
  })
})

it('a change of what no station says opens no clearance', () => {
  const run = revise(flown([...ASKED, TAXI]), { flap: 'fifteen' })
  expect([status(run, 'clearance.full'), status(run, 'taxi.route')]).toEqual(['done', 'done'])
  expect(run.state.cleared).toContain('route')
})
