import { expect, test } from 'vitest'
import { createSound } from '../../../src/adapters/voice/sound.ts'
import { createVirtualClock } from '../../../src/app/rehearsal/virtualClock.ts'

/** An output that a browser lets run only after a gesture. */
class Output {
  state: AudioContextState = 'suspended'
  private waiting: (() => void)[] = []
  resume(): Promise<void> {
    return new Promise((running) => this.waiting.push(running))
  }
  gesture(): void {
    this.state = 'running'
    for (const running of this.waiting) running()
  }
}

function soundOf(output: Output) {
  const clock = createVirtualClock()
  let made = 0
  const sound = createSound(clock, () => {
    made += 1
    return output as unknown as AudioContext
  })
  return { clock, sound, made: () => made }
}

test('before a gesture there is no output, and nobody waits for one for ever', async () => {
  const { clock, sound } = soundOf(new Output())
  const running = sound.running()
  clock.advance(1_000)
  expect(await running).toBeUndefined()
})

test('after a gesture there is one, and always the same', async () => {
  const output = new Output()
  const { sound, made } = soundOf(output)
  const running = sound.running()
  output.gesture()
  expect(await running).toBe(output)
  expect(await sound.running()).toBe(output)
  expect(made()).toBe(1)
})

test('a browser without audio has no output', async () => {
  const sound = createSound(createVirtualClock(), () => {
    throw new Error('no audio here')
  })
  expect(await sound.running()).toBeUndefined()
})
