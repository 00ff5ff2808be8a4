/** A pilot who thinks aloud, a radio and another person, while an item waits for its answer: nothing of it is taken for one. */

import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, it } from 'vitest'
import { rms, speechRms } from '../../../src/adapters/ear/audio/level.ts'
import { readWav } from '../../../src/adapters/ear/audio/wav.ts'
import { babble } from '../../bench/noise.ts'
import { counted, reactionsTo } from '../../bench/reactions.ts'
import { noises, type Sound, session } from '../../bench/room.ts'
import { createEars, type Ears, takeSeat } from '../../bench/seat.ts'

const AUDIO = fileURLToPath(new URL('../../../audio/check/', import.meta.url))

function recording(file: string): Float32Array {
  const wav = readWav(readFileSync(`${AUDIO}${file}`))
  if ('problem' in wav) throw new Error(`${file}: ${wav.problem}`)
  return wav.pcm
}
const SPOKEN: readonly Sound[] = JSON.parse(readFileSync(`${AUDIO}narration/manifest.json`, 'utf8')).map(
  ({ file, words }: { file: string; words: string }) => ({ what: words, pcm: recording(`narration/${file}`) }),
)
const QUIET: Sound = { what: 'quiet', pcm: new Float32Array(16_000) }
const ANSWER = [QUIET, { what: 'an answer', pcm: recording('departure/trim-final.wav') }, QUIET]

/** Its sound is not waited for, but a busy machine takes its time to hear it. */
const timeout = 900_000

let ears: Ears
beforeAll(async () => {
  ears = await createEars()
})

describe('half a minute of talk that is meant for nobody', () => {
  it('draws no verdict and at most one "say again" at an item with a value, which then is answered as ever', {
    timeout,
  }, async () => {
    const seat = await takeSeat(ears)
    await seat.openItem('loadFigures', 'trim')
    const reactions = await reactionsTo(seat, session(SPOKEN, 0.5, 4))
    expect(reactions.filter(({ kind }) => kind === 'verdicts')).toEqual([])
    expect(counted(reactions, 'overheard')).toBeGreaterThan(2)
    expect(counted(reactions, 'sayAgains')).toBeLessThanOrEqual(1)
    await reactionsTo(seat, ANSWER)
    expect(seat.events().at(-1)).toMatchObject({
      type: 'answered',
      item: 'loadFigures.trim',
      judgement: { verdict: 'correct' },
    })
  })

  it('draws nothing at all at an item with a state', { timeout }, async () => {
    const seat = await takeSeat(ears)
    await seat.openItem('beforeStart', 'brake')
    const reactions = await reactionsTo(seat, session(SPOKEN, 0.5, 5))
    expect(reactions.filter(({ kind }) => kind === 'verdicts' || kind === 'sayAgains')).toEqual([])
    expect(counted(reactions, 'overheard')).toBeGreaterThan(2)
  })
})

describe('others who talk all the time, twenty decibels fainter than the pilot', () => {
  it('draw no verdict, and an answer through their talk is understood', { timeout }, async () => {
    const answer = recording('departure/trim-final.wav')
    const talkers = [0, 1, 2].map((first) => SPOKEN[first]?.pcm ?? QUIET.pcm)
    const talk = (samples: number, seed: number) => {
      const all = babble(talkers, samples, seed)
      const gain = speechRms(answer) / 10 / rms(all)
      return all.map((sample) => sample * gain)
    }
    const seat = await takeSeat(ears)
    await seat.openItem('loadFigures', 'trim')
    await seat.play(talk(10 * 16_000, 1))
    const verdicts = () =>
      seat.events().flatMap((event) => (event.type === 'answered' ? [event.judgement.verdict] : []))
    expect(verdicts()).toEqual([])
    for (let sayings = 1; sayings <= 5 && verdicts().at(-1) !== 'correct'; sayings++) {
      const heard = talk(answer.length + 4 * 16_000, 1 + sayings)
      await seat.play(heard.map((sample, at) => sample + (answer[at - 2 * 16_000] ?? 0)))
    }
    expect(verdicts().at(-1)).toBe('correct')
    expect(verdicts()).not.toContain('negative')
  })
})

describe('coughs, breath, clicks and silence', () => {
  it.each([
    ['loadFigures', 'zeroFuelWeight'],
    ['beforeStart', 'brake'],
  ] as const)('draw no verdict and no "say again" (%s, %s)', { timeout }, async (list, item) => {
    const seat = await takeSeat(ears)
    await seat.openItem(list, item)
    const reactions = await reactionsTo(seat, session(noises(12), 0.5, 6))
    expect(reactions.filter(({ kind }) => kind === 'verdicts' || kind === 'sayAgains')).toEqual([])
  })
})
