/**
 * The opinion of the second model's phones on an answer of words. Short words say too little for a recogniser and for a
 * model of texts: "off" is two phones, and most of them are lost on the way. So the phones alone may
 * - hear what no pass heard, where it fits clearly and nothing else that may be said comes near;
 * - confirm what one pass heard;
 * - doubt what was accepted, where they hear something else as clearly.
 * They never overrule two passes that agree on another text. Which answer is right is not known here (law 2).
 */

import type { Hearable } from '../../../kernel/hearing/hearable.ts'
import { sameWords } from './agreement.ts'
import type { SoundedText } from './phoneBeam.ts'
import type { Decoded } from './recogniser.ts'
import { isOtherSpeech, type Recognition } from './recognition.ts'

/**
 * What a text needs: its log probability, in nats a phone, and by how much it leads all others, in nats. Chosen on twenty
 * people of the tuning set whom the head was not trained on, in quiet and in noise 10 dB below the voice: of 137 answers each
 * none is taken for its opposite, and of 310 and 155 words that answer nothing there one and two are taken for a state. With
 * a fit of -0.5 four and three are.
 */
interface Limit {
  readonly fit: number
  readonly lead: number
}
export const LIMITS = {
  /** What no pass heard. */
  byItself: { fit: -0.2, lead: 4 },
  /** What a pass heard as well. */
  withAPass: { fit: -1, lead: 3 },
  /** To doubt what was accepted. */
  against: { fit: -0.2, lead: 5 },
} as const satisfies Readonly<Record<string, Limit>>

/** What is longer is no short answer. 3 s at 16 kHz, with the sound that is kept before and behind it. */
const LONGEST = 48_000

/** Only words are sounded out: of a number the phones lose a digit more readily than they take it for another. */
export const isForSounding = ({ doubt }: Recognition, { shapes, talk }: Hearable, samples: number): boolean =>
  shapes.length === 0 &&
  !talk &&
  samples <= LONGEST &&
  (doubt === undefined || doubt === 'unsure' || doubt === 'otherSpeech')

/** Words that answer nothing by themselves, and that short answers are readily taken for. */
const NO_ANSWER: ReadonlySet<string> = new Set(['both', 'all', 'and', 'the', 'a'])

/** `texts` are what may be said, likeliest first. */
export function sounded(said: Recognition, passes: readonly Decoded[], texts: readonly SoundedText[]): Recognition {
  const [best] = texts
  if (!best) return said
  const rival = texts.find(({ text }) => !sameWords(text, best.text))
  const fit = best.logProb / (best.phoneCount + 1)
  const lead = rival ? best.logProb - rival.logProb : Number.POSITIVE_INFINITY
  const meets = (limit: Limit) => fit >= limit.fit && lead >= limit.lead
  if (!said.doubt) {
    const isOther = !sameWords(said.text, best.text) && meets(LIMITS.against)
    return isOther ? { ...said, doubt: 'unsure', alternatives: [{ text: best.text }] } : said
  }
  const heard = passes.filter((decoded) => !isOtherSpeech(decoded))
  const same = heard.find(({ text }) => sameWords(text, best.text))
  if (!same && isAgreed(heard, passes)) return said
  if (!meets(same ? LIMITS.withAPass : LIMITS.byItself)) return said
  return { text: best.text, words: same?.words ?? [], confidence: said.confidence }
}

/** All passes heard one text, and more in it than words that answer nothing. */
function isAgreed(heard: readonly Decoded[], passes: readonly Decoded[]): boolean {
  const [first] = heard
  if (!first || heard.length < passes.length) return false
  return (
    heard.every(({ text }) => sameWords(text, first.text)) &&
    !first.text.split(' ').every((word) => NO_ANSWER.has(word))
  )
}
