/** What the second model has to say: first by its text decoder, then, at an item of words, by the phones it hears. */

import type { Grammar } from '../../../kernel/grammarRules.ts'
import { startOf } from '../../../kernel/hearing/grammarWalk.ts'
import { SOUND } from '../../../kernel/hearing/phones.ts'
import type { Opinion } from './opinion.ts'
import { likeliestBySound, type PhoneFrames, type PronunciationsOf, type SoundedText } from './phoneBeam.ts'
import { rescored, type TakeIn } from './rescoring.ts'
import { isForSounding, sounded } from './sounding.ts'

/** It is given the sound with some of its noise left: a suppressor takes weak sounds with the noise. */
export const secondModel =
  (takeIn: TakeIn, pronunciationsOf: PronunciationsOf): Opinion =>
  ({ partlyDenoised }, { grammar, hearable }) => {
    const model = takeIn(partlyDenoised, grammar)
    if (!model) return undefined
    return async (found, passes, signal) => {
      const said = await rescored(found, passes, model, signal)
      if (!said || signal.aborted || !isForSounding(said, hearable, partlyDenoised.length)) return said
      const phones = await model.phones()
      return phones ? sounded(said, passes, textsBySound(phones, grammar, pronunciationsOf)) : said
    }
  }

const textsBySound = (phones: PhoneFrames, grammar: Grammar, ofWord: PronunciationsOf): readonly SoundedText[] =>
  likeliestBySound(phones, startOf(grammar, new Set([SOUND])), ofWord)
