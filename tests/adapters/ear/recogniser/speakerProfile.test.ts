/** What is known of a speaker, and that an utterance decoded while it comes is heard as one decoded as a whole. */

import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import createModule from 'soundswallower'
import { describe, expect, it } from 'vitest'
import { prepared } from '../../../../src/adapters/ear/audio/level.ts'
import { readWav } from '../../../../src/adapters/ear/audio/wav.ts'
import { createNodeRecogniser, MODEL_DIR, nodeFiles } from '../../../../src/adapters/ear/nodeEar.ts'
import { meanCepstrum } from '../../../../src/adapters/ear/recogniser/cepstrum.ts'
import { DecodePass } from '../../../../src/adapters/ear/recogniser/decodePass.ts'
import { EarDecoder } from '../../../../src/adapters/ear/recogniser/decoder.ts'
import { type Dictionary, parseDictionary, pronounce } from '../../../../src/adapters/ear/recogniser/dictionary.ts'
import type { FrontEnd } from '../../../../src/adapters/ear/recogniser/frontEnds.ts'
import { FIRST_PASS } from '../../../../src/adapters/ear/recogniser/frontEnds.ts'
import { SpeakerProfile, type VoiceSample } from '../../../../src/adapters/ear/recogniser/speakerProfile.ts'
import { alternatives, anyPhrase, NOTHING, rule, sequence } from '../../../../src/kernel/grammarRules.ts'
import { automatonOf } from '../../../../src/kernel/hearing/automaton.ts'
import { vocabularyOfItems } from '../../../../src/kernel/hearing/vocabulary.ts'
import { responseFrom } from '../../../../src/kernel/response/response.ts'

const mean = (first: number, rest = 0) => [first, ...new Array<number>(12).fill(rest)]

describe('a speaker', () => {
  it('is nobody before the first utterance', () => {
    expect(new SpeakerProfile().sample).toBeUndefined()
    expect(new SpeakerProfile().fits({ level: 0.1, mean: mean(40) })).toBe(false)
  })

  it('is known by level and mean; utterances of the same are averaged', () => {
    const speaker = new SpeakerProfile()
    speaker.learn({ level: 0.1, mean: mean(40) })
    speaker.learn({ level: 0.12, mean: mean(42) })
    expect(speaker.sample).toMatchObject({ level: 0.11, mean: mean(41) })
    expect(speaker.fits({ level: 0.1, mean: mean(43) })).toBe(true)
  })

  it.each([
    ['another voice', { level: 0.1, mean: mean(40, 6) }],
    ['the same ten decibels fainter', { level: 0.03, mean: mean(40) }],
  ])('%s does not fit, and takes the place of what was known', (_, other) => {
    const speaker = new SpeakerProfile()
    speaker.learn({ level: 0.1, mean: mean(40) })
    expect(speaker.fits(other)).toBe(false)
    speaker.learn(other)
    expect(speaker.sample).toMatchObject(other)
  })
})

describe('the mean cepstrum', () => {
  it('of a flat spectrum is all in the first coefficient', () => {
    const flat = meanCepstrum({ data: new Float32Array(40).fill(8), nfr: 2, nfeat: 20 })
    expect(flat[0]).toBeCloseTo(8 * Math.sqrt(20), 5)
    for (const other of flat.slice(1)) expect(other).toBeCloseTo(0, 5)
  })
})

const FOUR_WORDS = automatonOf({
  start: 'heard',
  rules: [
    {
      name: 'heard',
      expansion: sequence(anyPhrase(['four', 'two', 'seven', 'one']), alternatives(NOTHING, rule('heard'))),
    },
  ],
})

describe('an utterance that is decoded while it comes', () => {
  const audio = fileURLToPath(new URL('../../../../audio/check/', import.meta.url))
  const pcmOf = async (name: string) => {
    const wav = readWav(await readFile(join(audio, `${name}.wav`)))
    if ('problem' in wav) throw new Error(wav.problem)
    return wav.pcm
  }

  // The library takes the mean of a whole utterance itself; ours must be the same.
  it.each<FrontEnd>(['plain', 'cleaned'])(
    'with its own mean has the very score of a whole one (%s)',
    async (frontEnd) => {
      const module = await createModule({ print: () => {}, printErr: () => {} })
      const decoder = await EarDecoder.create(module, nodeFiles(), frontEnd)
      const dictionary: Dictionary = parseDictionary(await readFile(join(MODEL_DIR, 'dict.txt'), 'utf8'))
      decoder.add(pronounce(['four', 'two', 'seven', 'one'], dictionary).entries)
      decoder.setGrammar(FOUR_WORDS)
      // With the floor under it, for frames of digital silence are left out of a whole utterance's mean.
      const pcm = prepared(1, -70)(await pcmOf('four-two-seven-one'))
      const whole = decoder.decode(pcm)
      expect(whole.text).toBe('four two seven one')
      decoder.begin(decoder.meanOf(pcm))
      for (let at = 0; at < pcm.length; at += 480) decoder.push(pcm.slice(at, at + 480))
      const followed = decoder.end()
      expect(followed.text).toBe(whole.text)
      expect(Math.abs(followed.score - whole.score)).toBeLessThan(Math.abs(whole.score) * 1e-3)
      // And the next whole one has its own mean again.
      expect(decoder.decode(pcm).score).toBe(whole.score)
      decoder.free()
    },
  )

  it('is heard as before after a pass by another front end, which hears it in its own way', async () => {
    const module = await createModule({ print: () => {}, printErr: () => {} })
    const decoder = await EarDecoder.create(module, nodeFiles(), 'cleaned')
    const dictionary = parseDictionary(await readFile(join(MODEL_DIR, 'dict.txt'), 'utf8'))
    decoder.add(pronounce(['four', 'two', 'seven', 'one'], dictionary).entries)
    decoder.setGrammar(FOUR_WORDS)
    const pcm = prepared(1, -70)(await pcmOf('four-two-seven-one'))
    const { score } = decoder.decode(pcm)
    const others = (['plain', 'shifted'] as const).map((frontEnd) => decoder.decodeBy(frontEnd, pcm))
    expect(others.map(({ text }) => text)).toEqual(['four two seven one', 'four two seven one'])
    expect(new Set([score, ...others.map((other) => other.score)]).size).toBe(3)
    expect(decoder.decode(pcm).score).toBe(score)
    decoder.free()
  })

  it('is decoded so from the first one on where an earlier pass knew the speaker', async () => {
    const module = await createModule({ print: () => {}, printErr: () => {} })
    const dictionary = parseDictionary(await readFile(join(MODEL_DIR, 'dict.txt'), 'utf8'))
    const pcm = await pcmOf('four-two-seven-one')
    const first = async (profile?: VoiceSample) => {
      const pass = await DecodePass.create(module, nodeFiles(), FIRST_PASS, profile)
      pass.learn(
        vocabularyOfItems([{ challenge: 'transponder', responses: [{ response: responseFrom('<code>') }] }], []),
        dictionary,
      )
      pass.expect(pass.taskFor({ shapes: [{ kind: 'digits', length: 4 }], yesNo: false }))
      pass.begin(pcm)
      const followed = pass.end()?.text
      pass.decode(pcm)
      const { profile: learned } = pass
      pass.free()
      return { followed, learned }
    }
    const stranger = await first()
    expect(stranger.followed).toBeUndefined()
    expect(await first(stranger.learned)).toMatchObject({ followed: 'four two seven one' })
  })

  it('is understood, at once and once the speaker is known, louder or much fainter', async () => {
    const item = { challenge: 'transponder', responses: [{ response: responseFrom('<code> [set]') }] }
    const recogniser = await createNodeRecogniser(vocabularyOfItems([item], []))
    const hearable = { shapes: [{ kind: 'digits' as const, length: 4 }], yesNo: false }
    const pcm = await pcmOf('four-two-seven-one')
    const quieter = pcm.map((sample) => sample * 0.8)
    for (const sound of [pcm, pcm, quieter, pcm.map((sample) => sample * 0.1), pcm]) {
      expect(await recogniser.follow(sound, hearable)).toMatchObject({ text: 'four two seven one' })
    }
  })
})
