/** The second model in its thread: answers find who asked, and a model that is silent is done without. */

import { expose } from 'comlink'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { EncodedSound, Rescorer } from '../../../../src/adapters/ear/rescorer/rescorer.ts'
import { rescorerCalls } from '../../../../src/adapters/ear/rescorer/rescorerCalls.ts'
import { rescorerClient } from '../../../../src/adapters/ear/rescorer/rescorerClient.ts'
import type { Hypothesis } from '../../../../src/adapters/ear/utterance/hypothesis.ts'
import type { Grammar } from '../../../../src/kernel/grammarRules.ts'

type Model = Pick<Rescorer, 'encode' | 'rescore' | 'decodeConstrained' | 'decodeFree' | 'phonesOf'>

const GRAMMAR: Grammar = { start: 'heard', rules: [{ name: 'heard', expansion: 'set' }] }
const soundOf = (level: number) => new Float32Array(480).fill(level)
const hypothesis = (text: string): Hypothesis => ({ text, logProb: -3, priorLogProb: 0 })

const ports: MessagePort[] = []
afterEach(() => {
  for (const port of ports.splice(0)) port.close()
})

/** A model that says which sound it was asked about, at both ends of a real channel. */
function clientOf(changes: Partial<Model> = {}) {
  const encoded: number[] = []
  const levels = new WeakMap<EncodedSound, number>()
  const named = (sound: EncodedSound, what: string) => hypothesis(`${what} of ${levels.get(sound)}`)
  const model: Model = {
    async encode(pcm) {
      const level = pcm[0] ?? 0
      encoded.push(level)
      const sound = { logProbs: new Map() } as unknown as EncodedSound
      levels.set(sound, level)
      return sound
    },
    rescore: async (sound, texts) => texts.map((text) => named(sound, text)),
    decodeConstrained: async (sound, grammar, alongside) => [
      named(sound, `${grammar.rules[0]?.expansion} beside ${alongside}`),
    ],
    decodeFree: async (sound) => [named(sound, 'anything')],
    phonesOf: async (sound) => ({ logProbs: new Float32Array([-(levels.get(sound) ?? 0)]), count: 1 }),
    ...changes,
  }
  const { port1, port2 } = new MessageChannel()
  ports.push(port1, port2)
  expose(rescorerCalls(model), port1)
  const lost = vi.fn()
  return { takeIn: rescorerClient(port2, lost), encoded, lost }
}

describe('the second model', () => {
  it('encodes a sound at once, and is asked about it later, whichever sound came last', async () => {
    const { takeIn, encoded } = clientOf()
    const [one, other] = [takeIn(soundOf(1), GRAMMAR), takeIn(soundOf(2), GRAMMAR)]
    await vi.waitFor(() => expect(encoded).toEqual([1, 2]))
    expect(await other?.rescore(['brake on'])).toEqual([hypothesis('brake on of 2')])
    expect(await one?.rescore(['brake set', 'set'])).toEqual([hypothesis('brake set of 1'), hypothesis('set of 1')])
  })

  it('decodes by the grammar of the item, and without', async () => {
    const sound = clientOf().takeIn(soundOf(1), GRAMMAR)
    expect(await sound?.decodeConstrained(['brake set'])).toEqual([hypothesis('set beside brake set of 1')])
    expect(await sound?.decodeFree()).toEqual([hypothesis('anything of 1')])
  })

  it.each<[string, Partial<Model>]>([
    ['cannot encode the sound', { encode: () => Promise.reject(new Error('out of memory')) }],
    ['fails', { rescore: () => Promise.reject(new Error('out of memory')) }],
  ])('has no answer where it %s, and is asked again about the next sound', async (_, changes) => {
    const { takeIn, lost } = clientOf(changes)
    expect(await takeIn(soundOf(1), GRAMMAR)?.rescore(['brake set'])).toBeUndefined()
    expect(lost).not.toHaveBeenCalled()
    expect(takeIn(soundOf(2), GRAMMAR)).toBeDefined()
  })

  it('has no answer about a sound that eight others came after', async () => {
    const { takeIn } = clientOf()
    const [first, ...later] = [1, 2, 3, 4, 5, 6, 7, 8, 9].map((level) => takeIn(soundOf(level), GRAMMAR))
    expect(await first?.decodeFree()).toBeUndefined()
    expect(await later[0]?.decodeFree()).toEqual([hypothesis('anything of 2')])
  })
})

describe('a second model that does not answer', () => {
  beforeEach(() => void vi.useFakeTimers())
  afterEach(() => void vi.useRealTimers())

  it('is given up after three seconds, for all who wait and for good', async () => {
    const { takeIn, lost } = clientOf({ rescore: () => new Promise(() => {}) })
    const waiting = [
      takeIn(soundOf(1), GRAMMAR)?.rescore(['brake set']),
      takeIn(soundOf(2), GRAMMAR)?.rescore(['brake on']),
    ]
    const late = takeIn(soundOf(3), GRAMMAR)
    await vi.advanceTimersByTimeAsync(2_999)
    expect(lost).not.toHaveBeenCalled()
    await vi.advanceTimersByTimeAsync(1)
    expect(await Promise.all(waiting)).toEqual([undefined, undefined])
    expect(lost).toHaveBeenCalledTimes(1)
    expect(takeIn(soundOf(4), GRAMMAR)).toBeUndefined()
    expect(await late?.rescore(['brake set'])).toBeUndefined()
  })
})
