/**
 * The opinion of the second model's phones on an answer of words. Short words say too little for a recogniser and for a
 * model of texts: "off" is two phones, and most of them are lost on the way. So the phones alone may
 * - hear what no pass heard, where it fits clearly and nothing else that may be said comes near;
 * - confirm what one pass heard;
 * - doubt what was accepted, where they hear something else as clearly.
 * They overrule two passes that agree on another text only where the second model's text decoder doubts that too, and hears
 * the same as they do or none of what the passes heard. Which answer is right is not known here (law 2).
 */

import type { Hearable } from '../../../kernel/hearing/hearable.ts'
import { sameWords } from './agreement.ts'
import type { SoundedText } from './phoneBeam.ts'
import type { Decoded } from './recogniser.ts'
import { isOtherSpeech, type Recognition } from './recognition.ts'

/**
 * What a text needs: its log probability, in nats a phone, and by how much it leads all others, in nats. Chosen on twenty
 * people of the tuning set whom the head was not trained on, in quiet and in noise 10 dB below the voice: of 137 answers each
 * none is taken for its opposite, and of 115 words that answer nothing there none is taken for a state. With a lead of 3 one
 * answer is taken for its opposite.
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
  /** What no pass heard, where they agree on another text that the text decoder doubts. */
  againstPasses: { fit: -0.1, lead: 6 },
  /** To doubt what was accepted. */
  against: { fit: -0.2, lead: 5 },
} as const satisfies Readonly<Record<string, Limit>>

/** What is longer is no short answer. 3 s at 16 kHz, with the sound that is kept before and behind it. */
const LONGEST = 48_000

/**
 * Silence on each side of the sound: with more around them short words are heard far better, and with 1.2 s no better.
 * 0.8 s at 16 kHz.
 */
export const AROUND = 12_800

/** Only words are sounded out: of a number the phones lose a digit more readily than they take it for another. */
export const isOfShortWords = ({ shapes, talk }: Hearable, samples: number): boolean =>
  shapes.length === 0 && !talk && samples <= LONGEST

/** What the microphone cut off is loud, and its phones are mostly clear; what is faint has none. */
export const isForSounding = ({ doubt }: Recognition): boolean => doubt !== 'faint'

/** Words that answer nothing by themselves, and that short answers are readily taken for. */
const NO_ANSWER: ReadonlySet<string> = new Set(['both', 'all', 'and', 'the', 'a'])

/** `texts` are what may be said, likeliest first. */
export function sounded(said: Recognition, passes: readonly Decoded[], texts: readonly SoundedText[]): Recognition {
  const [best] = texts
  if (!best) return said
  if (!said.doubt) {
    const isOther = !sameWords(said.text, best.text) && isWithin(LIMITS.against, texts)
    return isOther ? { ...said, doubt: 'unsure', alternatives: [{ text: best.text }] } : said
  }
  const same = heardIn(passes).find(({ text }) => sameWords(text, best.text))
  const limit = same && said.doubt !== 'clipped' ? LIMITS.withAPass : limitAgainst(said, best, passes)
  if (!limit || !isWithin(limit, texts)) return said
  return { text: best.text, words: same?.words ?? [], confidence: said.confidence }
}

/**
 * What is still in doubt by the phones of the sound as it came, by those of the sound with less noise: these may be clear
 * about what the first hear as likeliest and no less well than what a pass confirms.
 */
export async function soundedTwice(
  said: Recognition,
  passes: readonly Decoded[],
  first: readonly SoundedText[],
  second: () => Promise<readonly SoundedText[]>,
): Promise<Recognition> {
  const once = sounded(said, passes, first)
  if (!said.doubt || !once.doubt || !isWithin(LIMITS.withAPass, first)) return once
  const again = sounded(said, passes, await second())
  return !again.doubt && first[0] && sameWords(again.text, first[0].text) ? again : once
}

/** Whether the likeliest of these texts fits and leads as much. */
function isWithin({ fit, lead }: Limit, texts: readonly SoundedText[]): boolean {
  const [best] = texts
  if (!best) return false
  const rival = texts.find(({ text }) => !sameWords(text, best.text))
  return best.logProb / (best.phoneCount + 1) >= fit && (!rival || best.logProb - rival.logProb >= lead)
}

/** What a text needs that no pass is taken to have heard; undefined where it may not stand. */
function limitAgainst(
  { doubt, alternatives }: Recognition,
  best: SoundedText,
  passes: readonly Decoded[],
): Limit | undefined {
  const agreed = agreedOn(passes)
  if (agreed === undefined || sameWords(agreed, best.text)) return LIMITS.byItself
  // The text decoder's own likeliest is the first alternative to what the passes agree on.
  const [own] = alternatives ?? []
  const isDoubted = doubt === 'otherSpeech' || (own !== undefined && sameWords(own.text, best.text))
  return isDoubted ? LIMITS.againstPasses : undefined
}

const heardIn = (passes: readonly Decoded[]) => passes.filter((decoded) => !isOtherSpeech(decoded))

/** The text that all passes heard, with more in it than words that answer nothing. */
function agreedOn(passes: readonly Decoded[]): string | undefined {
  const heard = heardIn(passes)
  const [first] = heard
  if (!first || heard.length < passes.length) return undefined
  const isAnswer =
    heard.every(({ text }) => sameWords(text, first.text)) &&
    !first.text.split(' ').every((word) => NO_ANSWER.has(word))
  return isAnswer ? first.text : undefined
}
