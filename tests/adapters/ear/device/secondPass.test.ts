/** The second pass in its thread, by both ends of a real channel. */

import { expose } from 'comlink'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { profileKeeper } from '../../../../src/adapters/ear/device/profileKeeper.ts'
import { secondPassCalls } from '../../../../src/adapters/ear/device/secondPassCalls.ts'
import { secondPassClient } from '../../../../src/adapters/ear/device/secondPassClient.ts'
import type { Decoded, Recogniser, Task } from '../../../../src/adapters/ear/utterance/recogniser.ts'

const TASK: Task = {
  hearable: { shapes: [{ kind: 'digits', length: 4 }], yesNo: false },
  grammar: { start: 'heard', rules: [{ name: 'heard', expansion: 'set' }] },
}
const heard = (text: string): Decoded => ({ text, words: [], otherSpeech: 0 })
const pcm = (level: number) => new Float32Array(480).fill(level)

const ports: MessagePort[] = []
afterEach(() => {
  for (const port of ports.splice(0)) port.close()
})

function threads(changes: Partial<Recogniser> = {}, steps = 2) {
  const done: unknown[] = []
  const pass = {
    learn: () => void done.push('learn'),
    expect: (task: Task) => void done.push(task),
    begin: (sound: Float32Array) => void done.push(['begin', sound[0]]),
    push: (sound: Float32Array) => void done.push(['push', sound[0]]),
    end: () => heard('followed'),
    decode: () => heard('whole'),
    decodeOtherwise: () => heard('otherwise'),
    ...changes,
  }
  let step = 0
  const estimator = {
    factor: 1.06 as const,
    begin: () => void done.push('estimate'),
    step: () => ++step < steps,
  }
  const learned = vi.fn()
  const broken = vi.fn()
  const { port1, port2 } = new MessageChannel()
  ports.push(port1, port2)
  const client = secondPassClient(port2, broken)
  /** As the page does it, the second thread may come up later than it is first asked. */
  const comeUp = () => expose(secondPassCalls(pass, estimator, learned), port1)
  return { client, comeUp, done, learned, broken, steps: () => step }
}

describe('the second pass', () => {
  it('answers what it was asked before it came up, in the order in which it was asked', async () => {
    const { client, comeUp, done } = threads()
    const { recogniser } = client
    client.learn({ phrases: [] } as never, 'set S EH T\n')
    void recogniser.expect(TASK)
    void recogniser.begin(pcm(0.1))
    void recogniser.push(pcm(0.2))
    const ended = recogniser.end()
    comeUp()
    expect(await ended).toEqual(heard('followed'))
    expect(done).toEqual(['learn', TASK, ['begin', pcm(0.1)[0]], ['push', pcm(0.2)[0]]])
    expect(await Promise.all([recogniser.decode(pcm(0)), recogniser.decodeOtherwise(pcm(0))])).toEqual([
      heard('whole'),
      heard('otherwise'),
    ])
  })

  it('says after each decoding what may have been learned of the speaker', async () => {
    const { client, comeUp, learned } = threads()
    comeUp()
    await client.recogniser.end()
    await client.recogniser.decode(pcm(0))
    expect(learned).toHaveBeenCalledTimes(2)
  })

  it('estimates the warp in steps, until there is no more to do, and says it', async () => {
    const { client, comeUp, done, steps } = threads({}, 3)
    comeUp()
    expect(await client.warp()).toBe(1.06)
    expect(await client.estimateWarp()).toBe(1.06)
    expect(done).toEqual(['estimate'])
    expect(steps()).toBe(3)
  })

  it('that throws breaks the ear, with the error, and answers no more', async () => {
    const { client, comeUp, broken } = threads({
      decode: () => {
        throw new Error('memory access out of bounds')
      },
    })
    comeUp()
    const answered = vi.fn()
    void Promise.resolve(client.recogniser.decode(pcm(0))).then(answered, answered)
    await vi.waitFor(() => expect(broken).toHaveBeenCalledTimes(1))
    expect(broken.mock.calls[0]?.[0]).toMatchObject({ message: 'memory access out of bounds' })
    expect(answered).not.toHaveBeenCalled()
  })
})

describe('a second pass that died without a word', () => {
  beforeEach(() => void vi.useFakeTimers())
  afterEach(() => void vi.useRealTimers())

  it('breaks the ear after half a minute', async () => {
    const { client, broken } = threads()
    void client.recogniser.end()
    await vi.advanceTimersByTimeAsync(29_999)
    expect(broken).not.toHaveBeenCalled()
    await vi.advanceTimersByTimeAsync(1)
    expect(broken).toHaveBeenCalledTimes(1)
  })
})

describe('a profile', () => {
  it('is handed to the page where the speaker or the warp became better known, and only then', () => {
    const mean = [1, 2]
    let profile: Parameters<Parameters<typeof profileKeeper>[1]>[0] | undefined
    const store = vi.fn()
    const keep = profileKeeper(() => profile, store)
    keep()
    expect(store).not.toHaveBeenCalled()
    profile = { level: 0.1, mean }
    keep()
    profile = { level: 0.1, mean }
    keep()
    expect(store).toHaveBeenCalledTimes(1)
    profile = { level: 0.1, mean, warp: { utterances: 1, gains: [0, 1, 2, 3] } }
    keep()
    expect(store).toHaveBeenLastCalledWith(profile)
    expect(store).toHaveBeenCalledTimes(2)
  })
})
