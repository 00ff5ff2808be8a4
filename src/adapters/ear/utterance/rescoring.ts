/**
 * The second model's opinion: a model of another kind, trained on other speech, rescores what the passes heard, and in
 * doubt decodes the sound itself by the same grammar. It can
 * - veto: what both passes heard does not stand if it fits the sound badly, or another text fits far better;
 * - confirm one of two passes that disagree;
 * - hear a number that no pass heard as a whole, where it is sure and a pass heard part of it.
 * It never adds words alone, for a word that no pass heard may be "not". Which value is right is not known here (law 2).
 */

import type { Grammar } from '../../../kernel/grammarRules.ts'
import { hasNumber, sameWords, shareInCommon } from './agreement.ts'
import { type Hypothesis, normalisedScore, wordCount } from './hypothesis.ts'
import type { PhoneFrames } from './phoneBeam.ts'
import type { Decoded } from './recogniser.ts'
import { isOtherSpeech, type Recognition } from './recognition.ts'

/** The second model on one sound. Each answer is undefined once the model is lost. */
export interface SoundRescorer {
  /** These texts, in their order; without priors. */
  rescore(texts: readonly string[]): Promise<readonly Hypothesis[] | undefined>
  /** The likeliest texts of the grammar, and these beside them; all with priors. */
  decodeConstrained(alongside: readonly string[]): Promise<readonly Hypothesis[] | undefined>
  /** The likeliest text where anything may be said. */
  decodeFree(): Promise<readonly Hypothesis[] | undefined>
  /** How likely each phone is in each frame. */
  phones(): Promise<PhoneFrames | undefined>
}

/**
 * Takes in a sound at once, to be heard by this grammar; undefined where there is no second model now. `silence`: samples of
 * it on each side, where the usual is not enough.
 */
export type TakeIn = (pcm: Float32Array, grammar: Grammar, silence?: number) => SoundRescorer | undefined

/** Limits of a text's log probability, in nats: one amount, and more for each word. All were chosen on the tuning set. */
const atLeast = (once: number, aWord: number) => (words: number) => -once - aWord * words
/** Below this a text was not said. */
const FITS = atLeast(10, 1.5)
/** Below this no part of it was said: it was other speech. */
const FITS_IN_PART = atLeast(15, 2.5)
/** Above this the model need not decode for itself. */
const FITS_CLEARLY = atLeast(3, 1.2)
/** What no pass heard as a whole has to fit better. */
const FITS_BY_ITSELF = atLeast(8, 1)

/** Leads are differences of normalised scores, in nats. What one pass heard leads what the other heard by this. */
const LEAD_OVER_PASSES = 3
/** What both passes heard may be behind what the model hears by this. */
const MOST_BEHIND = 3
/** What no pass heard as a whole leads all else by this. */
const LEAD_BY_ITSELF = 2
/** And shares this much of its words with what a pass heard. */
const LEAST_SHARED = 1 / 3
/** Above this the model is sure of what it hears where anything may be said. */
export const SURE_OF_FREE = -1.5

/** What the passes found in the light of the second model; undefined once that is lost. */
export async function rescored(
  found: Recognition,
  passes: readonly Decoded[],
  rescorer: SoundRescorer,
  signal: AbortSignal,
): Promise<Recognition | undefined> {
  if (!isRescorable(found)) return found
  const texts = textsOf(passes)
  const ofPasses = await rescorer.rescore(texts)
  if (!ofPasses) return undefined
  const needsOwn = !isClear(found, ofPasses) && !signal.aborted
  const all = (needsOwn && (await rescorer.decodeConstrained(texts))) || ofPasses
  const chosen = choose(found, passes, all)
  if (!fitsBadly(all, chosen) || signal.aborted) return chosen
  // "Stop" is no word of a checklist, and both passes may hear "open".
  const [free] = (await rescorer.decodeFree()) ?? []
  return free && free.logProb >= SURE_OF_FREE ? { ...chosen, doubt: 'unsure' } : chosen
}

/** A sound that is bad by itself, or in which no pass found words, is left alone. */
const isRescorable = ({ doubt }: Recognition) => doubt === undefined || doubt === 'unsure'

/** Each text that a pass heard, once. */
const textsOf = (passes: readonly Decoded[]) => [
  ...new Set(passes.filter((decoded) => !isOtherSpeech(decoded)).map(({ text }) => text)),
]

const isClear = ({ doubt }: Recognition, hypotheses: readonly Hypothesis[]): boolean =>
  !doubt && hypotheses.every(({ text, logProb }) => logProb >= FITS_CLEARLY(wordCount(text)))

/** It was accepted, though it does not fit well. */
function fitsBadly(hypotheses: readonly Hypothesis[], { text, doubt }: Recognition): boolean {
  const logProb = hypotheses.find((one) => one.text === text)?.logProb ?? 0
  return !doubt && logProb < FITS(wordCount(text))
}

/** The text that is accepted, or the likeliest of the passes' with a doubt. */
function choose(found: Recognition, passes: readonly Decoded[], hypotheses: readonly Hypothesis[]): Recognition {
  const texts = textsOf(passes)
  const all = [...hypotheses].sort((one, other) => normalisedScore(other) - normalisedScore(one))
  const ofPasses = all.filter(({ text }) => texts.includes(text))
  const [likeliest, best] = [ofPasses[0], all[0]]
  if (!likeliest || !best) return found
  const accepted = isConfirmed(found, likeliest, ofPasses, all)
    ? likeliest
    : isSureByItself(best, ofPasses, all)
      ? best
      : undefined
  const { text } = accepted ?? likeliest
  const words = passes.find((decoded) => decoded.text === text)?.words ?? []
  const chosen = { text, words, confidence: found.confidence }
  if (accepted) return chosen
  if (likeliest.logProb < FITS_IN_PART(wordCount(text))) return { ...found, doubt: 'otherSpeech' }
  const other = all.find((other) => !sameWords(other.text, text))
  return { ...chosen, doubt: 'unsure', ...(other && { alternatives: [{ text: other.text }] }) }
}

/** What a pass heard: it fits, leads what the other pass heard, and the model hears nothing much likelier. */
function isConfirmed(
  { doubt }: Recognition,
  hypothesis: Hypothesis,
  ofPasses: readonly Hypothesis[],
  all: readonly Hypothesis[],
): boolean {
  const { text, logProb } = hypothesis
  const words = wordCount(text)
  // The words of a checklist are strange to the model, however clearly they are said; numbers are not.
  const fits = logProb >= FITS(words) || (!doubt && !hasNumber(text) && logProb >= FITS_IN_PART(words))
  return fits && lead(hypothesis, ofPasses) >= LEAD_OVER_PASSES && lead(hypothesis, all) >= (doubt ? 0 : -MOST_BEHIND)
}

/** A number that the model decoded itself and a pass heard in part. */
function isSureByItself(hypothesis: Hypothesis, ofPasses: readonly Hypothesis[], all: readonly Hypothesis[]): boolean {
  const { text, logProb } = hypothesis
  return (
    hasNumber(text) &&
    logProb >= FITS_BY_ITSELF(wordCount(text)) &&
    lead(hypothesis, all) >= LEAD_BY_ITSELF &&
    ofPasses.some((other) => shareInCommon(text, other.text) >= LEAST_SHARED)
  )
}

/** By how much it leads the best of those that say something else, in nats; negative where it is behind. */
function lead(hypothesis: Hypothesis, among: readonly Hypothesis[]): number {
  const rival = among.find(({ text }) => !sameWords(text, hypothesis.text))
  return rival ? normalisedScore(hypothesis) - normalisedScore(rival) : Number.POSITIVE_INFINITY
}
