import { describe, expect, it, vi } from 'vitest'
import { createWatch } from '../../../../src/adapters/ear/device/watch.ts'
import { createVirtualClock } from '../../../../src/app/rehearsal/virtualClock.ts'

function watching() {
  const clock = createVirtualClock()
  const sound = { isRunning: true }
  const died = { soundStopped: vi.fn(), threadsSilent: vi.fn() }
  const watch = createWatch(clock, () => sound.isRunning, died)
  watch.start()
  const seconds = (count: number, each: () => void = () => {}) => {
    for (let second = 0; second < count; second++) {
      each()
      clock.advance(1_000)
    }
  }
  return { watch, sound, died, clock, seconds }
}

describe('a watch over the ear', () => {
  it('is content as long as levels come', () => {
    const { watch, died, seconds } = watching()
    seconds(60, watch.alive)
    expect(died.threadsSilent).not.toHaveBeenCalled()
  })

  it('reports threads that say nothing for twelve seconds', () => {
    const { died, seconds } = watching()
    seconds(11)
    expect(died.threadsSilent).not.toHaveBeenCalled()
    seconds(1)
    expect(died.threadsSilent).toHaveBeenCalledTimes(1)
    expect(died.soundStopped).not.toHaveBeenCalled()
  })

  it('gives a busy recogniser forty seconds, until it says something else', () => {
    const { watch, died, seconds } = watching()
    watch.busy()
    seconds(40)
    expect(died.threadsSilent).not.toHaveBeenCalled()
    seconds(1)
    expect(died.threadsSilent).toHaveBeenCalledTimes(1)
    const other = watching()
    other.watch.busy()
    other.watch.alive()
    other.seconds(13)
    expect(other.died.threadsSilent).toHaveBeenCalledTimes(1)
  })

  it('reports a sound that stands still, busy or not', () => {
    const { watch, sound, died, seconds } = watching()
    sound.isRunning = false
    watch.busy()
    seconds(6)
    expect(died.soundStopped).toHaveBeenCalledTimes(1)
    expect(died.threadsSilent).not.toHaveBeenCalled()
  })

  it('blames nobody where the page itself was held up', () => {
    const { died, clock } = watching()
    for (let stall = 0; stall < 10; stall++) {
      clock.skip(3_000)
      clock.advance(0)
    }
    expect(died.threadsSilent).not.toHaveBeenCalled()
  })

  it('says nothing once it is stopped', () => {
    const { watch, died, seconds } = watching()
    watch.stop()
    seconds(20)
    expect(died.threadsSilent).not.toHaveBeenCalled()
  })
})
