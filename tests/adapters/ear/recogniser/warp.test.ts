/** Which warp of the filters suits a voice: found by path scores alone. */

import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import createModule from 'soundswallower'
import { describe, expect, it } from 'vitest'
import { readWav } from '../../../../src/adapters/ear/audio/wav.ts'
import { MODEL_DIR, nodeFiles } from '../../../../src/adapters/ear/nodeEar.ts'
import { DecodePass } from '../../../../src/adapters/ear/recogniser/decodePass.ts'
import { parseDictionary } from '../../../../src/adapters/ear/recogniser/dictionary.ts'
import { SECOND_PASS } from '../../../../src/adapters/ear/recogniser/frontEnds.ts'
import { WarpStatistics } from '../../../../src/adapters/ear/recogniser/warp.ts'
import { WarpEstimator } from '../../../../src/adapters/ear/recogniser/warpEstimator.ts'
import { vocabularyOfItems } from '../../../../src/kernel/hearing/vocabulary.ts'
import { responseFrom } from '../../../../src/kernel/response/response.ts'

/** Scores of 100 frames that gain this much each at the warps above the model's own. */
const scores = (...gains: readonly number[]) => [-5_000, ...gains.map((gain) => -5_000 + gain * 100)]
const HIGH = scores(3, 5, 6)
const AVERAGE = scores(-1, -3, -6)

function learned(utterances: readonly (readonly number[])[]) {
  const statistics = new WarpStatistics()
  for (const each of utterances) statistics.learn(each, 100)
  return statistics
}
const times = <T>(count: number, value: T) => new Array<T>(count).fill(value)

describe('the warp', () => {
  it('is the model’s own where nothing or too little is known', () => {
    expect(new WarpStatistics().factor).toBe(1)
    expect(learned([scores(3, 4, 2)]).factor).toBe(1)
    expect(learned(times(6, scores(1, 1.5, 2))).factor).toBe(1)
  })

  it('of a higher voice is found after a few utterances: the likeliest', () => {
    expect(learned(times(2, HIGH)).factor).toBe(1.18)
    expect(learned(times(3, scores(3, 6, 2))).factor).toBe(1.12)
    expect(learned(times(4, AVERAGE)).factor).toBe(1)
  })

  it('does not follow one misheard utterance', () => {
    expect(learned([AVERAGE, AVERAGE, scores(0, 80, 0)]).factor).toBe(1)
  })

  it('changes with the pilot, either way, within a few utterances', () => {
    const forward = learned([...times(20, HIGH), ...times(4, AVERAGE)])
    expect(forward.factor).toBe(1)
    expect(learned([...times(20, AVERAGE), ...times(6, HIGH)]).factor).toBe(1.18)
  })

  it('goes on from earlier evidence', () => {
    expect(new WarpStatistics(learned(times(4, HIGH)).evidence).factor).toBe(1.18)
  })

  it('wants the first utterances, then one in three, and each of a voice that is new', () => {
    const statistics = new WarpStatistics()
    const asked = (count: number) =>
      Array.from({ length: count }, () => {
        const isWanted = statistics.wants(false)
        if (isWanted) statistics.learn(AVERAGE, 100)
        return isWanted
      })
    expect(asked(4)).toEqual(times(4, true))
    expect(asked(6)).toEqual([false, false, true, false, false, true])
    expect(statistics.wants(true)).toBe(true)
    expect(asked(2)).toEqual([false, false])
  })
})

describe('a pass whose speaker is studied', async () => {
  const audio = fileURLToPath(new URL('../../../../audio/tuning/', import.meta.url))
  const dictionary = parseDictionary(await readFile(join(MODEL_DIR, 'dict.txt'), 'utf8'))
  const vocabulary = vocabularyOfItems(
    [
      { challenge: 'trim', responses: [{ response: responseFrom('<trim> [set]') }] },
      {
        challenge: 'pumps',
        responses: [
          { response: responseFrom('both on') },
          { response: responseFrom('armed') },
          { response: responseFrom('closed and locked') },
        ],
      },
      { challenge: 'flaps', responses: [{ response: responseFrom('flap five') }] },
    ],
    [],
  )
  const trim = { shapes: [{ kind: 'trim' as const, decimals: 1 }], yesNo: false }
  const words = { shapes: [], yesNo: false }
  const digits = { shapes: [{ kind: 'digits' as const, length: 4 }], yesNo: false }

  async function passAndEstimator() {
    const module = await createModule({ print: () => {}, printErr: () => {} })
    const pass = await DecodePass.create(module, nodeFiles(), SECOND_PASS)
    pass.learn(vocabulary, dictionary)
    return { pass, estimator: new WarpEstimator(pass) }
  }
  async function pcmOf(name: string) {
    const wav = readWav(await readFile(join(audio, `${name}.wav`)))
    if ('problem' in wav) throw new Error(wav.problem)
    return wav.pcm
  }
  type Said = readonly [typeof words | typeof trim | typeof digits, string]
  async function meet({ pass, estimator }: Awaited<ReturnType<typeof passAndEstimator>>, said: readonly Said[]) {
    for (const [hearable, name] of said) {
      pass.expect(pass.taskFor(hearable))
      pass.decode(await pcmOf(name))
      estimator.begin()
      while (estimator.step());
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

  it('warps its filters for a woman, and not for a man', async () => {
    const one = await passAndEstimator()
    await meet(one, WOMAN)
    expect(one.estimator.factor).toBeGreaterThan(1)
    const other = { pass: one.pass, estimator: new WarpEstimator(one.pass) }
    one.pass.forget()
    expect(one.pass.profile).toBeUndefined()
    await meet(other, MAN)
    expect(other.estimator.factor).toBe(1)
    one.pass.free()
  })

  it('hears with them from the next utterance on, and knows the mean that goes with them', async () => {
    const one = await passAndEstimator()
    const { pass } = one
    const pcm = await pcmOf('four-point-eight-up-set')
    pass.expect(pass.taskFor(trim))
    const average = pass.decode(pcm)
    const mean = pass.profile?.mean
    await meet(one, WOMAN)
    pass.expect(pass.taskFor(trim))
    pass.begin(pcm)
    expect(pass.end()?.text).toBe('four point eight up set')
    const moved = pass.decode(pcm)
    expect(moved.score).toBeGreaterThan(average.score)
    expect(pass.profile?.mean).not.toEqual(mean)
    pass.free()
  })

  it('is not disturbed by it: what is said meanwhile is heard as before, and ends it', async () => {
    const one = await passAndEstimator()
    const { pass, estimator } = one
    await meet(one, WOMAN)
    const pcm = await pcmOf('four-point-eight-up-set')
    pass.expect(pass.taskFor(trim))
    const before = pass.decode(pcm)
    estimator.begin()
    expect(estimator.step()).toBe(true)
    // The next item, and its answer before the study is done.
    pass.expect(pass.taskFor(words))
    expect(estimator.step()).toBe(true)
    expect(pass.decode(await pcmOf('both-on')).text).toBe('both on')
    expect(estimator.step()).toBe(false)
    pass.expect(pass.taskFor(trim))
    expect(pass.decode(pcm)).toEqual(before)
    pass.free()
  })

  it('goes on from earlier evidence', async () => {
    const one = await passAndEstimator()
    await meet(one, WOMAN)
    const { pass } = await passAndEstimator()
    expect(new WarpEstimator(pass, one.estimator.evidence).factor).toBe(one.estimator.factor)
    pass.free()
    one.pass.free()
  })
})
