/** What two passes over one utterance amount to. The second can only add doubt (law 2). */

import type { Heard, HeardWord } from '../../../kernel/hearing/heard.ts'
import { dBFS, speechRms } from '../audio/level.ts'
import { sameWords, shareInCommon } from './agreement.ts'
import type { Decoded } from './recogniser.ts'

export interface Recognition {
  /** Lower case words; empty where nothing of the vocabulary was said. */
  readonly text: string
  readonly words: readonly HeardWord[]
  /** Share of the words that both passes have in common, 0 to 1. */
  readonly confidence: number
  readonly doubt?: NonNullable<Heard['doubt']>
  /** What else it may have been. */
  readonly alternatives?: NonNullable<Heard['alternatives']>
}

/** A pass with more than this share on the path for other speech heard other speech. */
const OTHER_SPEECH = 0.5
const FAINT_DBFS = -55
const CLIPPED_SHARE = 0.005

/** Whether a pass found no words, or mostly sounds that belong to none. */
export const isOtherSpeech = ({ text, otherSpeech }: Decoded) => text === '' || otherSpeech > OTHER_SPEECH

/** `pcm` is the sound as it came. The words are those of the first pass. */
export function combined(pcm: Float32Array, first: Decoded, second: Decoded): Recognition {
  const { text, words } = first
  const others = [first, second].filter(isOtherSpeech).length
  const confidence = others > 0 ? 0 : shareInCommon(text, second.text)
  const base = { text, words, confidence }
  if (others === 2) return { ...base, doubt: 'otherSpeech' }
  if (clippedShare(pcm) > CLIPPED_SHARE) return { ...base, doubt: 'clipped' }
  if (dBFS(speechRms(pcm)) < FAINT_DBFS) return { ...base, doubt: 'faint' }
  if (others === 0 && sameWords(text, second.text)) return base
  const alternatives = second.text === '' ? [] : [{ text: second.text }]
  return { ...base, doubt: 'unsure', ...(alternatives.length > 0 && { alternatives }) }
}

/**
 * The same for an utterance that was decoded while it came. Undefined where the whole must be decoded by its own cepstral
 * mean: a pass was not possible, the two disagree, or nothing was found. Otherwise a mean that was learned from a bad sound
 * would make other speech of all that follows, and stay.
 */
export function combinedWhileSpoken(pcm: Float32Array, first: Decoded, second?: Decoded): Recognition | undefined {
  if (!second) return undefined
  const found = combined(pcm, first, second)
  return found.doubt === 'unsure' || found.doubt === 'otherSpeech' ? undefined : found
}

function clippedShare(pcm: Float32Array): number {
  let clipped = 0
  for (const sample of pcm) if (Math.abs(sample) >= 0.999) clipped++
  return pcm.length > 0 ? clipped / pcm.length : 0
}
