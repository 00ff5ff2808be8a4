/**
 * What looks at one utterance amount to. It is looked at twice, by two front ends of one decoder; the second look may only
 * veto (law 2). What they heard is then weighed by a model of another kind (`weighing.ts`). While there is none, two further
 * looks are taken where the two are near one another, at sound with some of its noise left, and a veto that they do not
 * share is dropped.
 */

import type { Heard, HeardWord } from '../../../kernel/hearing/heard.ts'
import { dBFS, speechRms } from '../audio/level.ts'
import type { Decoded, FrontEnd } from '../recogniser/decoder.ts'
import { nearSaying, sameSaying, shareInCommon } from './agreement.ts'

export interface Recognition {
  /** Lower case words; empty where nothing of the vocabulary was said. */
  readonly text: string
  readonly words: readonly HeardWord[]
  /** Share of the words that both looks have in common, 0 to 1. */
  readonly confidence: number
  readonly doubt?: NonNullable<Heard['doubt']>
  /** What the second look heard, where that is something else. */
  readonly alternatives?: NonNullable<Heard['alternatives']>
}

/** Front ends of the two further looks, which are at sound with some of its noise left. */
export const FURTHER = ['plain', 'shifted'] as const satisfies readonly FrontEnd[]

/** More than this share of one look on the path for other speech makes the utterance other speech. */
const OTHER_SPEECH = 0.5
const FAINT_DBFS = -55
const CLIPPED_SHARE = 0.005

/** Whether a look found nothing, or mostly sounds that are none of the words. */
export const isOther = ({ text, otherSpeech }: Decoded) => text === '' || otherSpeech > OTHER_SPEECH

/** What two looks at one recording amount to. Words are the first one's; the second can only add doubt. */
export function recognition(pcm: Float32Array, first: Decoded, second: Decoded): Recognition {
  const { text, words } = first
  const others = [first, second].filter(isOther).length
  const confidence = others > 0 ? 0 : shareInCommon(text, second.text)
  const base = { text, words, confidence }
  if (others === 2) return { ...base, doubt: 'otherSpeech' }
  if (clippedShare(pcm) > CLIPPED_SHARE) return { ...base, doubt: 'clipped' }
  if (dBFS(speechRms(pcm)) < FAINT_DBFS) return { ...base, doubt: 'faint' }
  if (others === 0 && sameSaying(text, second.text)) return base
  const alternatives = second.text === '' ? [] : [{ text: second.text }]
  return { ...base, doubt: 'unsure', ...(alternatives.length > 0 && { alternatives }) }
}

/** Whether further looks may settle it: only where the two are near each other, which they are not of other speech. */
export const mayBeUpheld = ({ doubt, text, alternatives, confidence }: Recognition) =>
  doubt === 'unsure' && confidence > 0 && alternatives?.some((other) => nearSaying(text, other.text)) === true

/** What comes of a recognition in which the second look was not sure, after further looks: sure where all hear the first's words. */
export function upheld(unsure: Recognition, first: Decoded, further: readonly Decoded[]): Recognition {
  const isHeard = (look: Decoded) => !isOther(look) && sameSaying(first.text, look.text)
  if (![first, ...further].every(isHeard)) return unsure
  const { text, words, confidence } = unsure
  return { text, words, confidence }
}

/**
 * What two looks at something that was followed while it came amount to; undefined where the whole has to be looked at,
 * with its own mean: where a look could not be taken, the two disagree, or nothing was found. A mean that was learned
 * from a bad sound would otherwise make other speech of all that comes, and stay.
 */
export function settled(pcm: Float32Array, first?: Decoded, second?: Decoded): Recognition | undefined {
  if (!first || !second) return undefined
  const followed = recognition(pcm, first, second)
  return followed.doubt === 'unsure' || followed.doubt === 'otherSpeech' ? undefined : followed
}

function clippedShare(pcm: Float32Array): number {
  let clipped = 0
  for (const sample of pcm) if (Math.abs(sample) >= 0.999) clipped++
  return pcm.length > 0 ? clipped / pcm.length : 0
}
