/** A run that was left in the middle and can be neither gone on with nor ended here: it says why, and what can be done. */

import { cleanup, screen, waitFor, within } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { createFakeLog } from '../fakes/log.ts'
import { atTrim, stage } from './stage.tsx'

const flown = await atTrim()
const EVENTS: readonly RunEvent[] = [...flown.log.events]
cleanup()

const UNFINISHED = { runId: 'run', pack: 'Marram departure', startedAt: Date.UTC(2000, 0, 1), ended: false }
const [START, ...REST] = EVENTS
const at = EVENTS.findIndex(({ type }) => type === 'answered')
const changed = (change: object): unknown[] =>
  EVENTS.map((event, index) => (index === at ? { ...event, ...change } : event))
const onPack = (texts: Readonly<Record<string, string>>): unknown[] =>
  START?.type === 'runStarted' ? [{ ...START, pack: { ...START.pack, texts } }, ...REST] : []

/** Whose log holds this; runs are put away and appended to as in a real one. */
function stageWith(stored: readonly unknown[], own: Parameters<typeof stage>[1] = {}) {
  const away: string[] = []
  const log = {
    ...createFakeLog(),
    read: async () => [...stored],
    unfinished: async () => (away.includes('run') ? undefined : 'run'),
    runs: async () => [UNFINISHED],
    putAway: async (runId: string) => void away.push(runId),
  }
  return { ...stage({ unfinished: UNFINISHED }, { ...own, log }), log, away }
}

const card = () => screen.findByRole('region', { name: 'This run cannot be resumed' })

const UNREADABLE: readonly (readonly [what: string, stored: readonly unknown[], why: RegExp])[] = [
  [
    'an event type of a newer edition',
    changed({ type: 'teleported' }),
    /event \d+: "teleported" is not a type of event that this edition knows/,
  ],
  ['an event without its fields', changed({ judgement: undefined }), /event \d+: answered\.judgement is missing/],
  ['a gap', EVENTS.toSpliced(at - 1, 1), /its number is \d+; \d+ would be right here/],
  ['a later version', changed({ v: 99 }), /version 99, and this edition reads version 1: a later edition wrote it/],
  ['nothing', [], /its log is empty/],
  ['a pack that is none', onPack({ 'pack.yaml': 'name: [' }), /its pack cannot be read: /],
  [
    'an item that its pack does not have',
    changed({ type: 'voided', item: 'loadFigures.nope', because: 'onsetCut' }),
    /cannot be replayed: .*nope/,
  ],
]

describe.each(UNREADABLE)('a stored run with %s', (_, stored, why) => {
  it.each(['Resume the run', 'End the run'])('says why at "%s", and can be saved and put away', async (button) => {
    const { user, away, store, actions } = stageWith(stored)
    await user.click(screen.getByRole('button', { name: button }))
    if (button === 'End the run') await user.click(screen.getByRole('button', { name: 'End it now' }))
    expect(within(await card()).getByRole('alert').textContent).toMatch(why)
    const saved = await actions.exportLog('run')
    expect(saved).toBe(stored.map((event) => `${JSON.stringify(event)}\n`).join(''))
    expect(within(await card()).getByRole('button', { name: 'Save the log as a file' })).toBeTruthy()
    expect(away).toEqual([])
    await user.click(screen.getByRole('button', { name: 'Put it away' }))
    expect(away).toEqual(['run'])
    expect(screen.queryByRole('region', { name: /run/i })).toBeNull()
    await actions.recall()
    expect(store.getState().unfinished).toBeUndefined()
    // Another departure can be begun.
    expect(screen.getByRole('button', { name: 'Enter the figures' })).toBeTruthy()
  })
})

it('at any key after a reload says why as well', async () => {
  const { store, actions } = stageWith(changed({ v: 99 }))
  store.setState({ needsGesture: true })
  actions.gesture()
  expect(within(await card()).getByRole('alert').textContent).toMatch(/version 99/)
})

describe('a run that another tab has on', () => {
  const elsewhere = () => {
    const holders = { isThere: true }
    const lock = {
      hold: async (_: string, { steal }: { readonly steal: boolean }) => steal || !holders.isThere,
      isHeld: async () => false,
      release() {},
    }
    return { holders, ...stageWith(EVENTS, { lock }) }
  }

  it('is not ended in a further tab, which says so', async () => {
    const { user, log, store, holders } = elsewhere()
    await user.click(screen.getByRole('button', { name: 'End the run' }))
    await user.click(screen.getByRole('button', { name: 'End it now' }))
    const held = await screen.findByRole('region', { name: 'This run is open in another tab' })
    expect(within(held).getByRole('alert').textContent).toMatch(/not ended: another tab is using it/)
    expect(log.events).toEqual([])
    expect(store.getState().unfinished).toBeDefined()
    // Figures for another departure may be entered meanwhile.
    expect(store.getState().writer).toBe('here')
    holders.isThere = false
    await user.click(within(held).getByRole('button', { name: 'Start over' }))
    expect(screen.queryByRole('region', { name: 'This run is open in another tab' })).toBeNull()
    expect(store.getState().unfinished).toBeUndefined()
  })

  it('can be taken over from there', async () => {
    const { user } = elsewhere()
    await user.click(screen.getByRole('button', { name: 'End the run' }))
    await user.click(screen.getByRole('button', { name: 'End it now' }))
    await user.click(await screen.findByRole('button', { name: 'Take over here' }))
    expect(await screen.findByRole('heading', { level: 1, name: 'takeoff trim' })).toBeTruthy()
  })

  it('and has ended since is not begun again behind its end', async () => {
    const last = EVENTS.at(-1)
    const { user, log } = stageWith([...EVENTS, { ...last, seq: EVENTS.length, type: 'ended' }])
    await user.click(screen.getByRole('button', { name: 'Resume the run' }))
    expect(await screen.findByRole('region', { name: 'This run has ended' })).toBeTruthy()
    expect(log.events).toEqual([])
    await user.click(screen.getByRole('button', { name: 'Start over' }))
    expect(screen.queryByRole('region', { name: 'This run has ended' })).toBeNull()
  })
})

describe('a run that another tab takes over', () => {
  it('stops here: nothing is heard, said or written any more, and the screen says where it is', async () => {
    let lost = () => {}
    const lock = {
      async hold(_: string, options: { readonly lost: () => void }) {
        lost = options.lost
        return true
      },
      isHeld: async () => false,
      release() {},
    }
    const { actions, ear, voice, log, clock, store } = stage({ unfinished: UNFINISHED }, { lock })
    for (const event of EVENTS) await log.append(event)
    await actions.resumeRun('run')
    await screen.findByRole('heading', { level: 1, name: 'takeoff trim' })
    lost()
    expect(await screen.findByRole('heading', { level: 1, name: 'This run is open in another tab' })).toBeTruthy()
    const before = { said: voice.said.length, stored: log.events.length }
    expect(ear.listening()).toBeUndefined()
    ear.hear('four point three up', { listenId: store.getState().run?.listenId ?? 0 })
    clock.advance(600_000)
    actions.type('four point three up', 0, 0)
    await actions.recall()
    expect({ said: voice.said.length, stored: log.events.length }).toEqual(before)
  })
})

describe('a run that a bug has stopped', () => {
  const stopped = async () => {
    const flight = await atTrim()
    // A key whose list the pack does not have.
    flight.actions.press({ type: 'call', list: 'nope' })
    await screen.findByRole('heading', { level: 1, name: 'Stopped' })
    return flight
  }

  it('is offered on the start screen, with the reason, and goes on at the same item', async () => {
    const { user } = await stopped()
    await user.click(screen.getByRole('button', { name: 'Start' }))
    const region = screen.getByRole('region', { name: 'The run has stopped' })
    expect(region.textContent).toMatch(/nope/)
    await user.click(within(region).getByRole('button', { name: 'Resume the run' }))
    expect(await screen.findByRole('heading', { level: 1, name: 'takeoff trim' })).toBeTruthy()
  })

  it('goes on where figures are entered', async () => {
    const { user, actions, store } = await stopped()
    await user.click(screen.getByRole('button', { name: 'Figures' }))
    await actions.enterRevision()
    expect(store.getState()).toMatchObject({ screen: 'run', run: { status: 'running', revision: 2 } })
  })

  it('can be left for another one', async () => {
    const { user, log } = await stopped()
    await user.click(screen.getByRole('button', { name: 'Start' }))
    await user.click(screen.getByRole('button', { name: 'End the run' }))
    await user.click(screen.getByRole('button', { name: 'End it now' }))
    await waitFor(() => expect(screen.queryByRole('region', { name: 'The run has stopped' })).toBeNull())
    expect(log.events.at(-1)?.type).toBe('ended')
  })
})
