/**
 * Where there is no second model, two further passes over a sound with some of its noise left may lift the second pass's
 * doubt: the words of the first stand if all of them heard those.
 */

import { nearlySameWords, sameWords } from './agreement.ts'
import type { Opinion } from './opinion.ts'
import type { Decoded, Passes } from './recogniser.ts'
import { isOtherSpeech, type Recognition } from './recognition.ts'

/** Asked last: it has nothing to say where the passes agree or are far apart, as they are about other speech. */
export const furtherPasses =
  ({ first, second }: Passes): Opinion =>
  ({ partlyDenoised }) =>
  async (found, [firstHeard], signal) => {
    if (!firstHeard || !mayBeLifted(found) || signal.aborted) return undefined
    const secondHeard = second.decodeOtherwise(partlyDenoised)
    const further = [first.decodeOtherwise(partlyDenoised), await secondHeard]
    return lifted(found, [firstHeard, ...further])
  }

const mayBeLifted = ({ doubt, text, alternatives, confidence }: Recognition) =>
  doubt === 'unsure' && confidence > 0 && alternatives?.some((other) => nearlySameWords(text, other.text)) === true

function lifted(found: Recognition, heard: readonly Decoded[]): Recognition {
  const isSame = (decoded: Decoded) => !isOtherSpeech(decoded) && sameWords(found.text, decoded.text)
  if (!heard.every(isSame)) return found
  const { text, words, confidence } = found
  return { text, words, confidence }
}
