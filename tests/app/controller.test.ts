/** The one run of a page: begun, left and gone on with, taken over, ended. */

import { describe, expect, it } from 'vitest'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { createRunController } from '../../src/app/run/controller.ts'
import { findUnfinished } from '../../src/app/run/unfinished.ts'
import { DEFAULT_SETTINGS, type Settings } from '../../src/app/settings.ts'
import { createAppStore, EMPTY_DRAFT } from '../../src/app/store.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { readPack } from '../../src/packs/read.ts'
import { createFakeEar } from '../fakes/ear.ts'
import { createFakeLog } from '../fakes/log.ts'
import { createFakeVoice } from '../fakes/voice.ts'
import { demoInputs, demoPack } from './rig.ts'

interface Holder {
  readonly runId: string
  readonly steal: boolean
  readonly lost: () => void
}

/** A page of its own on a log; `isFree` says whether the lock is to be had. */
async function page(log = createFakeLog(), settings: Partial<Settings> = {}, isFree = true) {
  const pack = await demoPack()
  const store = createAppStore({ pack, settings: { ...DEFAULT_SETTINGS, stations: false, ...settings } })
  const clock = createVirtualClock()
  const [ear, voice] = [createFakeEar(clock.now), createFakeVoice()]
  const held: Holder[] = []
  const open = { runId: undefined as string | undefined, releases: 0, free: isFree }
  /** What the pack's folder holds. */
  const files = { texts: pack.texts }
  let runs = 0
  const controller = createRunController({
    ...{ store, clock, log, ear, voice },
    packFiles: {
      list: async () => [],
      load: async () => ({ texts: files.texts, sha256: pack.sha256 }),
      examples: async (id) => ({ [`${id}.yaml`]: 'status: final' }),
      demonstrations: async () => ({}),
    },
    lock: {
      async hold(runId, { steal, lost }) {
        held.push({ runId, steal, lost })
        return open.free || steal
      },
      isHeld: async () => false,
      release: () => void open.releases++,
    },
    newRunId: () => `run-${++runs}`,
    newSeed: () => 7,
    openHere: {
      get: () => open.runId,
      set(runId) {
        open.runId = runId
      },
    },
  })
  const begin = async () => controller.begin(pack, await demoInputs(pack, 'preliminary'))
  return { pack, store, clock, ear, voice, log, controller, files, held, open, begin, state: store.getState }
}

const started = (log: { readonly events: readonly object[] }) => log.events[0] as Record<string, unknown>

describe('a run that is begun', () => {
  it('is held, shown and listened for, with the settings that it keeps to its end', async () => {
    const { begin, state, held, open, ear, log, controller } = await page(undefined, { coachAfter: 2 })
    await begin()
    expect(held).toMatchObject([{ runId: 'run-1', steal: false }])
    expect(open.runId).toBe('run-1')
    expect(state()).toMatchObject({ writer: 'here', run: { runId: 'run-1', status: 'running' } })
    expect(ear.vocabularies).toHaveLength(1)
    expect(started(log)).toMatchObject({ type: 'runStarted', settings: { coachAfter: 2 } })
    expect(Object.keys(started(log))).not.toContain('dealt')
    expect(Object.keys(started(log))).not.toContain('script')
    expect(controller.session()?.state().runId).toBe('run-1')
  })

  it('has stations where they are wanted, and the number of a departure that was drawn', async () => {
    const { begin, log, store } = await page(undefined, { stations: true })
    store.setState({ dealt: 42 })
    await begin()
    expect(started(log)).toMatchObject({ dealt: 42, script: { values: expect.any(Object) } })
    expect(started(log).script).not.toHaveProperty('slip')
  })

  it('has a controller who errs where that is wanted', async () => {
    const { begin, log } = await page(undefined, { stations: true, wrongHearBacks: true })
    await begin()
    expect(started(log)).toHaveProperty('script.slip')
  })

  it('has a colleague on the radio where that is wanted, and none in a drill', async () => {
    const settings = { stations: true, readBacks: 'colleague', partnerErrs: true } as const
    const whole = await page(undefined, settings)
    await whole.begin()
    expect(started(whole.log)).toHaveProperty('settings.readBacks', 'colleague')
    const drilled = await page(undefined, settings)
    const inputs = await demoInputs(drilled.pack, 'preliminary')
    await drilled.controller.begin(drilled.pack, inputs, { items: {}, settings: {} })
    expect(started(drilled.log)).toHaveProperty('settings.readBacks', 'pilot')
  })

  it.each([true, false])('asks for numbers in single digits where the pilot wants that (%s)', async (digitsFirst) => {
    const { begin, log } = await page(undefined, { digitsFirst })
    await begin()
    const { settings } = started(log) as { settings: object }
    expect('digitsFirst' in settings).toBe(digitsFirst)
    expect(settings).toMatchObject({ ...(digitsFirst && { digitsFirst }), radio: 'icao', timesAloud: false })
  })

  it('opens no ear where only typing is wanted', async () => {
    const { begin, ear } = await page(undefined, { ear: 'typing' })
    await begin()
    expect(ear.vocabularies).toEqual([])
  })

  it('is not begun where another tab holds it', async () => {
    const { begin, state, log, controller, open } = await page(undefined, {}, false)
    await begin()
    expect([state().writer, log.events.length, controller.session(), open.runId]).toEqual([
      'elsewhere',
      0,
      undefined,
      undefined,
    ])
  })

  it('is closed when another tab takes it over', async () => {
    const { begin, held, state, controller, ear } = await page()
    await begin()
    held[0]?.lost()
    expect([controller.session(), state().writer]).toEqual([undefined, 'elsewhere'])
    expect(ear.listening()).toBeUndefined()
  })
})

describe('a run that was left', () => {
  const left = async () => {
    const first = await page()
    await first.begin()
    return { first, runId: 'run-1' }
  }

  it('is gone on with from its log, as it was', async () => {
    const { first, runId } = await left()
    const second = await page(first.log)
    second.store.setState({ unfinished: { runId, pack: 'x', startedAt: 0, ended: false } })
    await second.controller.goOn(runId, false)
    expect(second.held).toMatchObject([{ runId, steal: false }])
    expect(second.state()).toMatchObject({ screen: 'run', writer: 'here', run: { runId, revision: 1 } })
    expect([second.state().unfinished, second.state().blocked]).toEqual([undefined, undefined])
    expect(second.state().examples).toEqual({ [`${second.pack.id}.yaml`]: 'status: final' })
    expect(second.state().draft).toEqual(second.state().revisions.at(-1)?.inputs)
    expect(second.log.events.at(-1)).toMatchObject({ type: 'resumed' })
    expect(second.ear.vocabularies).toHaveLength(1)
  })

  it('before its figures had come in is gone on with, with nothing entered and nothing to undo', async () => {
    const { first, runId } = await left()
    const log = createFakeLog()
    await log.append(first.log.events[0] as RunEvent)
    const second = await page(log)
    second.store.setState({
      past: [{ draft: EMPTY_DRAFT, changed: 'values.blockFuel' }],
      revisions: first.state().revisions,
    })
    await second.controller.goOn(runId, false)
    expect(second.state()).toMatchObject({ writer: 'here', draft: EMPTY_DRAFT, past: [], revisions: [] })
    expect(second.log.events.at(-1)).toMatchObject({ type: 'resumed' })
  })

  it('takes the place of another that is on in this page, to which nothing more happens', async () => {
    const { begin, controller, state, ear, log } = await page()
    await begin()
    await begin()
    expect(controller.session()?.state().runId).toBe('run-2')
    await controller.goOn('run-1', false)
    expect([controller.session()?.state().runId, state().run?.runId]).toEqual(['run-1', 'run-1'])
    const before = await log.read('run-2')
    ear.hear('load figures list')
    await controller.session()?.settled()
    expect(await log.read('run-2')).toEqual(before)
    expect(log.events.at(-1)).toMatchObject({ type: 'listCalled', runId: 'run-1' })
  })

  it('is only looked at where another tab holds it, and taken over on request', async () => {
    const { first, runId } = await left()
    const second = await page(first.log, {}, false)
    const before = first.log.events.length
    await second.controller.goOn(runId, false)
    expect([second.state().writer, second.controller.session(), first.log.events.length]).toEqual([
      'elsewhere',
      undefined,
      before,
    ])
    await second.controller.goOn(runId, true)
    expect(second.state().writer).toBe('here')
    expect(second.log.events.at(-1)).toMatchObject({ type: 'resumed' })
  })

  it('that is on in this page is just shown and put once more', async () => {
    const { first, runId } = await left()
    first.store.setState({ screen: 'start' })
    await first.controller.goOn(runId, false)
    expect(first.held).toHaveLength(1)
    expect(first.state()).toMatchObject({ screen: 'run', writer: 'here' })
    expect(first.log.events.at(-1)).toMatchObject({ type: 'resumed' })
  })

  it('that has ended, or cannot be read, is not gone on with, and the start screen says why', async () => {
    const { first, runId } = await left()
    expect(await first.controller.end(runId)).toBe(true)
    const second = await page(first.log)
    await second.controller.goOn(runId, false)
    expect(second.state()).toMatchObject({ screen: 'start', blocked: { runId, because: 'ended', message: '' } })
    await second.controller.goOn('nobody', false)
    expect(second.state().blocked).toMatchObject({
      runId: 'nobody',
      because: 'unreadable',
      message: expect.stringMatching(/./),
    })
    expect(second.held).toEqual([])
  })
})

describe('a run that is ended', () => {
  it('is let go of, and nothing of it is on any more', async () => {
    const { begin, controller, log, open, ear, held } = await page()
    await begin()
    expect(await controller.end('run-1')).toBe(true)
    expect(held).toHaveLength(1)
    expect(log.events.at(-1)).toMatchObject({ type: 'ended' })
    expect([controller.session(), open.runId, open.releases]).toEqual([undefined, undefined, 1])
    expect(ear.listening()).toBeUndefined()
  })

  it('may be a stored one that nobody holds, while another is on', async () => {
    const first = await page()
    await first.begin()
    const second = await page(first.log)
    expect(await second.controller.end('run-1')).toBe(true)
    expect(second.held).toMatchObject([{ runId: 'run-1', steal: false }])
    expect(first.log.events.at(-1)).toMatchObject({ type: 'ended' })
    const before = first.log.events.length
    expect(await second.controller.end('run-1')).toBe(true)
    expect(first.log.events).toHaveLength(before)
    expect(second.held).toHaveLength(1)
  })

  it('is not ended where another tab holds it, or where it cannot be read', async () => {
    const first = await page()
    await first.begin()
    const second = await page(first.log, {}, false)
    expect(await second.controller.end('run-1')).toBe(false)
    expect(second.state().blocked).toMatchObject({ runId: 'run-1', because: 'elsewhere' })
    expect(await second.controller.end('nobody')).toBe(false)
    expect(second.state().blocked).toMatchObject({ runId: 'nobody', because: 'unreadable' })
    expect(first.log.events.at(-1)).not.toMatchObject({ type: 'ended' })
  })
})

describe('a pack that is opened', () => {
  it('takes the place of the one before, with its examples and nothing entered', async () => {
    const { controller, state, pack } = await page()
    await controller.openPack(pack.id)
    expect(state()).toMatchObject({ pack: { id: pack.id }, problems: [], revisions: [], past: [] })
    expect(state().examples).toEqual({ [`${pack.id}.yaml`]: 'status: final' })
    expect(state().preview).toBeUndefined()
  })

  it('leaves nothing of what was entered for the one before', async () => {
    const { begin, controller, state, store, pack } = await page()
    await begin()
    store.setState({ past: [{ draft: EMPTY_DRAFT, changed: 'values.blockFuel' }] })
    expect(state().revisions).toHaveLength(1)
    await controller.openPack(pack.id)
    expect(state()).toMatchObject({ revisions: [], draft: EMPTY_DRAFT, past: [], preview: undefined })
  })

  it('that cannot be read is told with what is wrong', async () => {
    const { controller, state, pack, files } = await page()
    files.texts = { ...pack.texts, 'notes.yaml': '' }
    await controller.openPack(pack.id)
    expect(state().pack).toBeUndefined()
    expect(state().problems).toMatchObject([{ severity: 'error', place: { file: 'notes.yaml' } }])
  })

  it('that its maker would be advised about is opened without a word', async () => {
    const { controller, state, pack, files } = await page()
    const texts = pack.texts['procedures.yaml'] ?? ''
    files.texts = { ...pack.texts, 'procedures.yaml': texts.replace('"[runway] <runway>"', '"[runway <runway>]"') }
    expect(readPack(files.texts, '').problems).toMatchObject([{ severity: 'advice' }])
    await controller.openPack(pack.id)
    expect(state()).toMatchObject({ pack: { id: pack.id }, problems: [] })
  })
})

describe('what is unfinished', () => {
  it('is the newest run without an end; at a reload of its own tab any key goes on', async () => {
    const { begin, log, controller } = await page()
    expect(await findUnfinished(log, undefined)).toBeUndefined()
    await begin()
    expect(await findUnfinished(log, 'run-1')).toMatchObject({ unfinished: { runId: 'run-1' }, needsGesture: true })
    expect(await findUnfinished(log, 'run-0')).toMatchObject({ unfinished: { runId: 'run-1' }, needsGesture: false })
    await controller.end('run-1')
    expect(await findUnfinished(log, 'run-1')).toBeUndefined()
  })

  it('is another one once the newest has ended, as long as there is one', async () => {
    const { begin, log, controller, clock } = await page()
    await begin()
    clock.advance(1_000)
    await begin()
    expect(await findUnfinished(log, 'run-1')).toMatchObject({ unfinished: { runId: 'run-2' }, needsGesture: false })
    await controller.end('run-2')
    expect(await findUnfinished(log, 'run-1')).toMatchObject({ unfinished: { runId: 'run-1' }, needsGesture: true })
    await controller.end('run-1')
    expect(await findUnfinished(log, 'run-1')).toBeUndefined()
  })
})
