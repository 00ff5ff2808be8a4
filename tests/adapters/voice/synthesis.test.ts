import { expect, test } from 'vitest'
import { createSynthesis } from '../../../src/adapters/voice/synthesis.ts'

/** Threads that fail as often as they are told to, at the start or at a sentence. */
function threads({ starts = 0, sentences = 0 } = {}) {
  const done: string[] = []
  let failures = { starts, sentences }
  const synthesis = createSynthesis(async () => {
    done.push('started')
    if (failures.starts > 0) {
      failures = { ...failures, starts: failures.starts - 1 }
      throw new Error('no network')
    }
    return {
      async say(sentence) {
        done.push(sentence)
        if (failures.sentences > 0) {
          failures = { ...failures, sentences: failures.sentences - 1 }
          throw new Error('out of memory')
        }
        return Float32Array.of(sentence.length)
      },
      end: () => void done.push('ended'),
    }
  })
  return { synthesis, done }
}

test('a synthesiser is started by its first sentence, and says the next ones too', async () => {
  const { synthesis, done } = threads()
  expect(done).toEqual([])
  const both = await Promise.all([synthesis.say('canopy'), synthesis.say('jettison')])
  expect(both).toEqual([Float32Array.of(6), Float32Array.of(8)])
  expect(done).toEqual(['started', 'canopy', 'jettison'])
})

test('one that is expected to be needed is started ahead', async () => {
  const { synthesis, done } = threads()
  synthesis.prepare()
  synthesis.prepare()
  expect(done).toEqual(['started'])
  await synthesis.say('canopy')
  expect(done).toEqual(['started', 'canopy'])
})

test('one that could not be started is started again when it is next needed', async () => {
  const { synthesis, done } = threads({ starts: 1 })
  await expect(synthesis.say('canopy')).rejects.toThrow('no network')
  await synthesis.say('canopy')
  expect(done).toEqual(['started', 'started', 'canopy'])
})

test('one that has failed is ended, and the next sentence has a new one', async () => {
  const { synthesis, done } = threads({ sentences: 1 })
  await expect(synthesis.say('canopy')).rejects.toThrow('out of memory')
  await synthesis.say('jettison')
  expect(done).toEqual(['started', 'canopy', 'ended', 'started', 'jettison'])
})
