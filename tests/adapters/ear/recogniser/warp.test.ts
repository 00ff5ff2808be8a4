/** What scale of the filters suits a voice: told by path scores alone. */

import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import createModule from 'soundswallower'
import { describe, expect, it } from 'vitest'
import { readWav } from '../../../../src/adapters/ear/audio/wav.ts'
import { MODEL_DIR, nodeFiles } from '../../../../src/adapters/ear/nodeEar.ts'
import { Look } from '../../../../src/adapters/ear/recogniser/decodePass.ts'
import { parseDictionary } from '../../../../src/adapters/ear/recogniser/dictionary.ts'
import { VocalTract } from '../../../../src/adapters/ear/recogniser/warp.ts'
import { VoiceStudy } from '../../../../src/adapters/ear/recogniser/warpEstimator.ts'
import { vocabularyOfItems } from '../../../../src/kernel/hearing/vocabulary.ts'

/** Scores of 100 frames that gain so much each at the scales above the model's own. */
const scores = (...gains: readonly number[]) => [-5_000, ...gains.map((gain) => -5_000 + gain * 100)]
const HIGH = scores(3, 5, 6)
const AVERAGE = scores(-1, -3, -6)

function tractBehind(utterances: readonly (readonly number[])[]) {
  const tract = new VocalTract()
  for (const each of utterances) tract.learn(each, 100)
  return tract
}
const times = <T>(count: number, value: T) => new Array<T>(count).fill(value)

describe('the vocal tract', () => {
  it('is the average one where nothing or too little is known', () => {
    expect(new VocalTract().scale).toBe(1)
    expect(tractBehind([scores(3, 4, 2)]).scale).toBe(1)
    expect(tractBehind(times(6, scores(1, 1.5, 2))).scale).toBe(1)
  })

  it('of a higher voice is told after a few utterances, by the likeliest scale', () => {
    expect(tractBehind(times(2, HIGH)).scale).toBe(1.18)
    expect(tractBehind(times(3, scores(3, 6, 2))).scale).toBe(1.12)
    expect(tractBehind(times(4, AVERAGE)).scale).toBe(1)
  })

  it('is not told by one bent utterance', () => {
    expect(tractBehind([AVERAGE, AVERAGE, scores(0, 80, 0)]).scale).toBe(1)
  })

  it('changes with the pilot, either way, within a few utterances', () => {
    const forward = tractBehind([...times(20, HIGH), ...times(4, AVERAGE)])
    expect(forward.scale).toBe(1)
    expect(tractBehind([...times(20, AVERAGE), ...times(6, HIGH)]).scale).toBe(1.18)
  })

  it('goes on from what an earlier one knew', () => {
    expect(new VocalTract(tractBehind(times(4, HIGH)).evidence).scale).toBe(1.18)
  })

  it('wants the first utterances, then one in three, and each of a voice that is new', () => {
    const tract = new VocalTract()
    const asked = (count: number) =>
      Array.from({ length: count }, () => {
        const isWanted = tract.wants(false)
        if (isWanted) tract.learn(AVERAGE, 100)
        return isWanted
      })
    expect(asked(4)).toEqual(times(4, true))
    expect(asked(6)).toEqual([false, false, true, false, false, true])
    expect(tract.wants(true)).toBe(true)
    expect(asked(2)).toEqual([false, false])
  })
})

describe('a look that is studied', async () => {
  const audio = fileURLToPath(new URL('../../../../audio/tuning/', import.meta.url))
  const dictionary = parseDictionary(await readFile(join(MODEL_DIR, 'dict.txt'), 'utf8'))
  const vocabulary = vocabularyOfItems(
    [
      { challenge: 'trim', responses: [{ text: '<trim> [set]' }] },
      { challenge: 'pumps', responses: [{ text: 'both on' }, { text: 'armed' }, { text: 'closed and locked' }] },
      { challenge: 'flaps', responses: [{ text: 'flap five' }] },
    ],
    [],
  )
  const trim = { shapes: [{ kind: 'trim' as const, decimals: 1 }], yesNo: false }
  const words = { shapes: [], yesNo: false }
  const digits = { shapes: [{ kind: 'digits' as const, length: 4 }], yesNo: false }

  async function studied() {
    const module = await createModule({ print: () => {}, printErr: () => {} })
    const look = await Look.create(module, nodeFiles(), 'cleaned')
    look.learn(vocabulary, dictionary)
    return { look, study: new VoiceStudy(look) }
  }
  async function pcmOf(name: string) {
    const wav = readWav(await readFile(join(audio, `${name}.wav`)))
    if ('problem' in wav) throw new Error(wav.problem)
    return wav.pcm
  }
  type Said = readonly [typeof words | typeof trim | typeof digits, string]
  async function meet({ look, study }: Awaited<ReturnType<typeof studied>>, said: readonly Said[]) {
    for (const [hearable, name] of said) {
      look.expect(hearable)
      look.at(await pcmOf(name))
      study.begin()
      while (study.step());
    }
  }
  const WOMAN: readonly Said[] = [
    [trim, 'four-point-eight-up-set'],
    [words, 'both-on'],
  ]
  const MAN: readonly Said[] = [
    [digits, 'three-one-zero-six'],
    [words, 'closed-and-locked'],
    [words, 'armed'],
  ]

  it('moves its filters for a woman, and not for a man', async () => {
    const one = await studied()
    await meet(one, WOMAN)
    expect(one.study.scale).toBeGreaterThan(1)
    const other = { look: one.look, study: new VoiceStudy(one.look) }
    one.look.forget()
    expect(one.look.known).toBeUndefined()
    await meet(other, MAN)
    expect(other.study.scale).toBe(1)
    one.look.free()
  })

  it('hears with them from the next utterance on, and knows the mean that goes with them', async () => {
    const one = await studied()
    const { look } = one
    const pcm = await pcmOf('four-point-eight-up-set')
    look.expect(trim)
    const average = look.at(pcm)
    const mean = look.known?.mean
    await meet(one, WOMAN)
    look.expect(trim)
    look.begin(pcm)
    expect(look.end()?.text).toBe('four point eight up set')
    const moved = look.at(pcm)
    expect(moved.score).toBeGreaterThan(average.score)
    expect(look.known?.mean).not.toEqual(mean)
    look.free()
  })

  it('is hindered by no study: what is said meanwhile is heard as before, and puts an end to it', async () => {
    const one = await studied()
    const { look, study } = one
    await meet(one, WOMAN)
    const pcm = await pcmOf('four-point-eight-up-set')
    look.expect(trim)
    const before = look.at(pcm)
    study.begin()
    expect(study.step()).toBe(true)
    // The next item, and its answer before the study is done.
    look.expect(words)
    expect(study.step()).toBe(true)
    expect(look.at(await pcmOf('both-on')).text).toBe('both on')
    expect(study.step()).toBe(false)
    look.expect(trim)
    expect(look.at(pcm)).toEqual(before)
    look.free()
  })

  it('goes on with what an earlier one knew', async () => {
    const one = await studied()
    await meet(one, WOMAN)
    const { look } = await studied()
    expect(new VoiceStudy(look, one.study.evidence).scale).toBe(one.study.scale)
    look.free()
    one.look.free()
  })
})
