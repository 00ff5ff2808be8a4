/** The sound of what is said: under which event it lies, what is left out, and that the log knows nothing of it. */

import { describe, expect, it, vi } from 'vitest'
import { createKeptSounds } from '../../src/app/runs/keptSounds.ts'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { createAppStore } from '../../src/app/store.ts'
import { keyPress } from '../../src/kernel/interpret/keyPress.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { firstOfBreath } from '../../src/kernel/run/debrief/breaths.ts'
import { createFakeSoundShelf } from '../fakes/soundShelf.ts'
import { rig } from './rig.ts'

/** A run whose every utterance has a sound of its own: as many samples as the number of the utterance. */
async function sounding(events?: readonly RunEvent[]) {
  const kept: [type: string, seq: number, samples: number][] = []
  const flight = await rig({
    ...(events && { events }),
    keepSound: ({ type, seq }, samples) => void kept.push([type, seq, samples.length]),
  })
  let utterances = 0
  const say = async (text: string, more: Parameters<typeof flight.hear>[1] = {}) => {
    flight.clock.advance(5_000)
    flight.ear.sounds(new Int16Array(++utterances))
    await flight.hear(text, more)
  }
  const last = () => flight.log.events.at(-1)
  return { ...flight, kept, say, last }
}

describe('the sound of an utterance', () => {
  it('lies under the event that it became', async () => {
    const { say, kept, log } = await sounding()
    await say('load figures list')
    await say('two four three six zero')
    await say('four point eight up')
    const spoken = log.events.filter((event) => 'evidence' in event && event.evidence.by === 'voice')
    expect(kept).toEqual(spoken.map(({ type, seq }, at) => [type, seq, at + 1]))
    expect(kept.map(([type]) => type)).toEqual(['listCalled', 'answered', 'answered'])
  })

  it('that became several events lies under the first', async () => {
    const { say, kept, log } = await sounding()
    await say('load figures list')
    await say('two four three six zero')
    const before = log.events.length
    await say('correction two four three six zero')
    const became = log.events.slice(before)
    expect(became.map(({ type }) => type)).toEqual(['commanded', 'answered'])
    expect(kept.at(-1)).toEqual(['commanded', became[0]?.seq, 3])
    expect(kept).toHaveLength(3)
  })

  it('that waits for a room to be asked lies under what froze the run, and belongs to its answer as well', async () => {
    const { say, run, kept, log } = await sounding()
    await say('load figures list')
    await run.happen({ type: 'demonstrated', isOn: true, stops: 'answers', asksRoom: true })
    await say('two four three six zero')
    const frozen = log.events.at(-1)
    expect(frozen?.type).toBe('frozen')
    expect(kept.at(-1)).toEqual(['frozen', frozen?.seq, 2])
    await run.happen((state) => keyPress(run.pack, state, { type: 'freeze' }, 0))
    const answered = log.events.find(({ type }) => type === 'answered')
    expect(firstOfBreath(log.events).get(answered?.seq ?? -1)).toBe(frozen?.seq)
  })

  it('is not kept of talk that was meant for nobody', async () => {
    const { say, kept, last } = await sounding()
    await say('load figures list')
    await say('', { doubt: 'otherSpeech' })
    expect(last()).toMatchObject({ type: 'overheard' })
    expect(kept).toHaveLength(1)
  })

  it('is kept of words that were meant for the run and not understood', async () => {
    const { say, kept, last } = await sounding()
    await say('a word or two about nothing at all')
    expect(last()).toMatchObject({ type: 'overheard', meant: true })
    expect(kept).toEqual([['overheard', last()?.seq, 1]])
  })

  it('is not taken for that of other words', async () => {
    const { say, hear, ear, clock, kept } = await sounding()
    await say('load figures list')
    const listenId = ear.listening()?.listenId ?? 0
    ear.emit({ type: 'sound', listenId, beganAt: clock.now() - 1, samples: new Int16Array(9) })
    await hear('two four three six zero')
    ear.emit({ type: 'sound', listenId: listenId - 1, beganAt: clock.now(), samples: new Int16Array(9) })
    await hear('four point three up')
    expect(kept).toHaveLength(1)
  })

  it('is dropped with the words while an instructor has the ear hear nothing', async () => {
    const { say, run, kept } = await sounding()
    await say('load figures list')
    const what = { kind: 'deaf', seconds: 20 } as const
    await run.happen({ type: 'injected', order: 'one', by: 'Ada', given: '2026-01-01T09:00:00Z', what })
    await run.settled()
    expect(run.state().isDeafened).toBe(true)
    await say('two four three six zero')
    expect(kept).toHaveLength(1)
  })
})

describe('the setting', () => {
  it('off asks the ear for no sound, and turned off in the middle of an answer keeps none', async () => {
    const { say, store, ear, kept } = await sounding()
    await say('load figures list')
    expect(ear.requests.at(-1)).toMatchObject({ keepsSound: true })
    store.setState({ settings: DEFAULT_SETTINGS })
    await say('two four three six zero')
    expect(kept).toHaveLength(1)
    expect(ear.requests.at(-1)).not.toHaveProperty('keepsSound')
  })

  it('changes nothing of the log', async () => {
    const [silent, sounded] = [await rig(), await sounding()]
    for (const text of ['load figures list', 'two four three six zero', 'four point eight up']) {
      silent.clock.advance(5_000)
      await silent.hear(text)
      await sounded.say(text)
    }
    expect(JSON.stringify(sounded.log.events)).toBe(JSON.stringify(silent.log.events))
  })
})

describe('a shelf that takes no sound', () => {
  it('is told in one line, as often as that is another one, until it takes sound again', async () => {
    const shelf = createFakeSoundShelf()
    const store = createAppStore()
    const { keep } = createKeptSounds(store, shelf)
    const told = vi.fn()
    store.subscribe(({ sounds }) => told(sounds.notKept))
    const event = (seq: number) => ({ runId: 'run', seq }) as RunEvent
    shelf.refuse('The disk is full.')
    await keep(event(1), new Int16Array(1))
    await keep(event(2), new Int16Array(2))
    expect(told.mock.calls).toEqual([['The sound of what you say is not kept: The disk is full.']])
    shelf.refuse('')
    await keep(event(3), new Int16Array(3))
    expect(told).toHaveBeenLastCalledWith('')
    expect([...(shelf.kept.get('run')?.keys() ?? [])]).toEqual([3])
  })
})
