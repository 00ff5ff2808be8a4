/** What the second model has to say: first by its text decoder, then, at an item of words, by the phones it hears. */

import type { Grammar } from '../../../kernel/grammarRules.ts'
import { startOf } from '../../../kernel/hearing/grammarWalk.ts'
import { SOUND } from '../../../kernel/hearing/phones.ts'
import type { Opinion } from './opinion.ts'
import { likeliestBySound, type PhoneFrames, type PronunciationsOf, type SoundedText } from './phoneBeam.ts'
import { rescored, type SoundRescorer, type TakeIn } from './rescoring.ts'
import { AROUND, isForSounding, isOfShortWords, soundedTwice } from './sounding.ts'

/**
 * Its texts are of the sound with some of the noise left. The phones are of the sound as it came: a suppressor takes weak
 * ones with the noise. Both are taken in at once, while the passes decode.
 */
export const secondModel =
  (takeIn: TakeIn, pronunciationsOf: PronunciationsOf): Opinion =>
  ({ raw, partlyDenoised }, { grammar, hearable }) => {
    const model = takeIn(partlyDenoised, grammar)
    if (!model) return undefined
    const sound = isOfShortWords(hearable, raw.length) ? takeIn(raw, grammar, AROUND) : undefined
    return async (found, passes, signal) => {
      const said = await rescored(found, passes, model, signal)
      if (!said || !sound || signal.aborted || !isForSounding(said)) return said
      const textsOf = async (model: SoundRescorer) => textsBySound(await model.phones(), grammar, pronunciationsOf)
      return soundedTwice(said, passes, await textsOf(sound), () => textsOf(model))
    }
  }

/** None where the model is lost. */
const textsBySound = (
  phones: PhoneFrames | undefined,
  grammar: Grammar,
  ofWord: PronunciationsOf,
): readonly SoundedText[] => (phones ? likeliestBySound(phones, startOf(grammar, new Set([SOUND])), ofWord) : [])
