import { screen, waitFor, within } from '@testing-library/preact'
import axe from 'axe-core'
import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { createFakeCache } from '../fakes/cache.ts'
import { createFakeLog } from '../fakes/log.ts'
import { madeUpRuns } from '../kernel/training/madeUp.ts'
import { flying, stage } from './stage.tsx'

const DAY_MS = 86_400_000

/** A browser that has the facts of these runs. */
async function withRuns(runs: number) {
  const workedOut = createFakeCache()
  const facts = madeUpRuns({ runs, trials: 40 })
  await workedOut.put(new Map(facts.map((one) => [`run ${one.runId}`, JSON.stringify(one)])))
  const log = {
    ...createFakeLog(),
    runs: async () => facts.map(({ runId, startedAt }) => ({ runId, startedAt, pack: 'Marram', ended: true })),
  }
  const on = stage({ screen: 'progress' }, { workedOut, log })
  await screen.findByRole('heading', { name: 'Right the first time' }).catch(() => undefined)
  return on
}

describe('progress', () => {
  it('has each picture as a table as well, by class of trial', async () => {
    const { user } = await withRuns(30)
    const table = screen.getByRole('table', { name: 'Right the first time' })
    expect(within(table).getAllByRole('row')).toHaveLength(9)
    const before = table.textContent
    await user.selectOptions(screen.getByRole('combobox', { name: 'Look at' }), 'Read-backs')
    expect(screen.getByRole('table', { name: 'Right the first time' }).textContent).not.toBe(before)
    for (const name of [
      'Time to answer',
      'Misses by cause',
      'Read-backs by length',
      'Planted traps and slips caught',
    ]) {
      expect(screen.getByRole('table', { name })).toBeTruthy()
    }
  })

  it('says of few runs that they are too few to tell', async () => {
    await withRuns(3)
    expect(screen.getByText(/^3 runs: too few to tell/)).toBeTruthy()
  })

  it('says what it will be made of where there is no run yet', async () => {
    stage({ screen: 'progress' })
    expect(await screen.findByText(/^No run yet/)).toBeTruthy()
    expect(screen.getByText(/^Nothing is due/)).toBeTruthy()
    expect(screen.queryByRole('button', { name: 'Begin the drill' })).toBeNull()
  })

  it('ends the run that is on, once asked, and stays here', async () => {
    const { user, log } = await flying()
    await user.click(screen.getByRole('button', { name: 'Progress' }))
    await user.click(await screen.findByRole('button', { name: 'End the run' }))
    await user.click(screen.getByRole('button', { name: 'End it now' }))
    await waitFor(() => expect(screen.queryByText(/A run is under way/)).toBeNull())
    expect(log.events.at(-1)?.type).toBe('ended')
    expect(screen.getByRole('heading', { level: 1, name: 'Progress' })).toBeTruthy()
  })

  it('is accessible', async () => {
    await withRuns(30)
    for (const details of document.querySelectorAll('details')) details.open = true
    const { violations } = await axe.run(document.body, {
      rules: { 'color-contrast': { enabled: false }, region: { enabled: false } },
    })
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' ')}`)).toEqual([])
  })
})

describe('five minutes today', () => {
  /** A run with a wrong trim, ended, two days ago. */
  async function dueAfterRun(settings: Partial<typeof DEFAULT_SETTINGS> = {}) {
    const on = await flying({
      settings: { ...DEFAULT_SETTINGS, welcomed: true, stations: false, ownValues: false, ...settings },
    })
    await on.answer('load figures list')
    await on.answer('two four three six zero')
    await on.answer('four point eight up')
    await on.actions.endRun()
    on.clock.advance(2 * DAY_MS)
    on.actions.show('progress')
    await on.user.click(await screen.findByRole('button', { name: 'Begin the drill' }))
    await screen.findByRole('heading', { level: 1, name: 'takeoff trim' })
    return on
  }

  it('asks what is due, the least sure first, as a run does, and tells at its end how it went', async () => {
    const on = await dueAfterRun()
    const [started] = on.log.events.filter(({ type }) => type === 'runStarted').slice(-1)
    expect(started).toMatchObject({
      drill: { 'drill.i1': 'loadFigures.trim', 'drill.i2': 'loadFigures.zeroFuelWeight' },
    })
    const { values } = on.store.getState().run ?? {}
    expect(values?.takeoffTrim).toBeDefined()
    await on.answer('checked')
    await on.answer(`${values?.takeoffTrim} up`)
    await screen.findByRole('heading', { level: 1, name: 'zero fuel weight' })
    await on.answer(`${values?.zeroFuelWeight}`)
    expect(
      await screen.findByText(/^That was all of it: 1 of 2 right the first time. Once more tomorrow: takeoff trim/),
    ).toBeTruthy()
    expect(on.log.events.at(-1)?.type).toBe('ended')
    expect(on.store.getState()).toMatchObject({ run: undefined, pack: { sha256: on.pack.sha256 } })
    await waitFor(() => expect(on.store.getState().training?.progress).toMatchObject({ runs: 1, drills: 1 }))
  })

  it('ends when five minutes are up, once what was open is answered', async () => {
    const on = await dueAfterRun()
    on.clock.advance(5 * 60_000)
    expect(screen.getByRole('heading', { level: 1, name: 'takeoff trim' })).toBeTruthy()
    await on.answer(`${on.store.getState().run?.values.takeoffTrim} up`)
    expect(await screen.findByText(/^Five minutes are up: 1 of 1/)).toBeTruthy()
  })

  it('can be ended before', async () => {
    const on = await dueAfterRun()
    on.actions.show('progress')
    await on.user.click(await screen.findByRole('button', { name: 'End the drill' }))
    expect(await screen.findByText(/^You ended the drill. Nothing was answered/)).toBeTruthy()
  })
})

describe('read-backs at the edge', () => {
  it('are put as chosen, and tell the edge when the block is over', async () => {
    const on = stage({ screen: 'progress' })
    expect(await screen.findByText(/^With this pace, noise and traffic you have read back nothing yet/)).toBeTruthy()
    await on.user.click(screen.getByText('Pace, noise and traffic'))
    await on.user.click(screen.getByRole('radio', { name: '120 a busy frequency' }))
    await on.user.click(screen.getByRole('checkbox', { name: /^Others with a call sign like yours/ }))
    await on.user.selectOptions(screen.getByRole('combobox', { name: 'Elements' }), '1')
    await on.user.click(screen.getByRole('button', { name: 'Begin six read-backs' }))
    await screen.findByRole('heading', { level: 1, name: 'transmission' })
    const { run } = on.store.getState()
    expect(run?.dial).toMatchObject({ wordsAMinute: 120, likeCallSigns: true })
    // Nothing names what is to be read back before it was tried.
    expect(screen.queryByRole('list', { name: 'To be read back' })).toBeNull()
    on.ear.hear('roger', { by: 'typed' })
    expect(await screen.findByRole('list', { name: 'To be read back' })).toBeTruthy()
    on.actions.show('progress')
    await on.user.click(await screen.findByRole('button', { name: 'End the read-backs' }))
    expect(await screen.findByText(/^You ended the block: 0 of 1 right the first time/)).toBeTruthy()
    const table = await screen.findByRole('table', { name: /^Your edge by day/ })
    expect(within(table).getAllByRole('row')).toHaveLength(2)
    // What is made up never comes again, and is no part of how the pilot flies.
    expect(on.store.getState().training).toMatchObject({ due: [], progress: { runs: 0 } })
  })
})
