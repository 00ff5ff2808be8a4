/** A run read from its log: gone on with on the pack that the log holds, or one line says why not. */

import { describe, expect, it } from 'vitest'
import { newRun, readStoredRun, replayed } from '../../src/app/run/storedRun.ts'
import { findItem } from '../../src/kernel/pack/place.ts'
import { rig } from './rig.ts'

const flown = await rig()
await flown.hear('load figures list')
await flown.hear('two four three six zero')
const EVENTS = flown.log.events

const readBack = (events: readonly unknown[]) => readStoredRun({ read: async () => [...events] }, 'run')
/** The same log with one event changed. */
const withEvent = (at: number, change: object) =>
  EVENTS.map((event, index) => (index === at ? { ...event, ...change } : event))
/** The same log with a pack of other texts in it. */
const withTexts = (texts: Readonly<Record<string, string>>) => withEvent(0, { pack: { ...flown.pack, texts } })

describe('a run in the log', () => {
  it('is read with its state, its events, its figures and its own pack', async () => {
    const run = await readBack(EVENTS)
    if ('why' in run) throw new Error(run.why)
    expect(run.state).toEqual(flown.state())
    expect(run.events).toEqual(EVENTS)
    expect(run.revisions).toEqual(flown.run.revisions())
    expect(run.pack).toMatchObject({ id: flown.pack.id, sha256: flown.pack.sha256, texts: flown.pack.texts })
  })

  it('is read on the texts that it holds, whatever the pack says by now', async () => {
    const texts = { ...flown.pack.texts }
    const old = texts['procedures.yaml'] ?? ''
    texts['procedures.yaml'] = old.replaceAll('challenge: takeoff trim', 'challenge: pitch trim')
    const run = await readBack(withTexts(texts))
    if ('why' in run) throw new Error(run.why)
    expect(findItem(run.pack, 'loadFigures.trim').item.challenge).toBe('pitch trim')
  })

  it.each([
    ['nothing is in the log', [], 'its log is empty'],
    ['a later edition wrote it', withEvent(1, { v: 99 }), 'event 1: it has version 99'],
    [
      'an event is missing',
      EVENTS.filter((_, index) => index !== 2),
      'event 2: its number is 3; 2 would be right here',
    ],
    ['it holds no texts', withTexts({}), 'its pack cannot be read: pack.yaml:1:1: the pack has no pack.yaml'],
    [
      'the texts are no pack',
      withTexts({ ...flown.pack.texts, 'pack.yaml': 'id: [' }),
      'its pack cannot be read: pack.yaml:1:',
    ],
    [
      'it names a list that its pack does not have',
      [...EVENTS, { ...EVENTS.at(-1), seq: EVENTS.length, type: 'listCalled', list: 'nope' }],
      `event ${EVENTS.length} (listCalled) cannot be replayed: `,
    ],
  ])('is not gone on with where %s, and the reason is told', async (_, events, why) => {
    expect(await readBack(events)).toEqual({ why: expect.stringContaining(why) })
  })
})

describe('a run that is new', () => {
  it('has its name, and nothing in it yet', () => {
    expect(newRun(flown.pack, 'a')).toMatchObject({
      pack: flown.pack,
      state: { runId: 'a' },
      events: [],
      revisions: [],
    })
  })
})

describe('a log that breaks off at an event of another pack', () => {
  it('is replayed up to there, and says so', () => {
    const stray = { ...EVENTS.at(-1), seq: EVENTS.length, type: 'listCalled', list: 'nope' } as (typeof EVENTS)[number]
    const run = replayed(flown.pack, [...EVENTS, stray])
    expect(run).toMatchObject({ state: flown.state(), events: EVENTS, revisions: flown.run.revisions() })
    expect(run.problem?.line).toBe(EVENTS.length + 1)
  })
})
