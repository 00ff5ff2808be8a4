/**
 * What comes of the looks once a model of another kind has had its say (`weigher.ts`). It weighs what the looks heard. Where
 * that leaves a doubt it also hears for itself, within the same grammar: so it may veto what both looks heard, and a number
 * that it hears clearly, and a look heard in part, is taken for said. Which value is right is not known here (law 2).
 */

import type { Decoded } from '../recogniser/decoder.ts'
import { proportion, type Weighed, wordsIn } from '../rescorer/hypothesis.ts'
import { hasNumber, sameSaying, shareInCommon } from './agreement.ts'
import { isOther, type Recognition } from './recognition.ts'

/** The weigher's sayings about one sound; undefined where it is lost. */
export interface Weighing {
  /** Each of the texts with its weight, in their order. */
  weigh(texts: readonly string[]): Promise<readonly Weighed[] | undefined>
  /** What it hears itself, and these texts beside it, all with their habits. */
  hear(beside: readonly string[]): Promise<readonly Weighed[] | undefined>
  /** The one that it hears where anything may be said. */
  hearAnything(): Promise<readonly Weighed[] | undefined>
}

/** All limits are in nats, and were chosen on the tuning set; so many for a text, and so many more for each word. */
const least = (once: number, aWord: number) => (words: number) => -once - aWord * words
/** Lighter, and it was not said. */
const fitting = least(10, 1.5)
/** Lighter, and no part of it was. */
const strange = least(15, 2.5)
/** Not lighter, and the weigher need not be asked what it hears itself. */
const clear = least(3, 1.2)
/** What no look heard as a whole has to fit better. */
const wellFitting = least(8, 1)
/** So much more than any other saying of the looks. */
const OUTWEIGHING = 3
/** What both looks heard may be so much lighter than what the weigher hears. */
const AGREED = 3
/** So much more than any other saying, where no look heard it as a whole. */
const OWN_OUTWEIGHING = 2
/** And of a look's words it has to have so many. */
const IN_PART = 1 / 3
/** Not lighter, and the weigher is sure of what it hears where anything may be said. */
export const SURE = -1.5

/** Sound that is bad by itself, and what no look found words in, is not weighed. */
const mayBeWeighed = ({ doubt }: Recognition) => doubt === undefined || doubt === 'unsure'

/** Each saying that a look heard. */
const sayings = (looks: readonly Decoded[]) => [
  ...new Set(looks.filter((look) => !isOther(look)).map(({ text }) => text)),
]

/** The recognition in the light of the weigher; undefined where there is none. `isWanted`: whether anyone still asks. */
export async function inWeight(
  found: Recognition,
  looks: readonly Decoded[],
  weighing: Weighing | undefined,
  isWanted = () => true,
): Promise<Recognition | undefined> {
  if (!mayBeWeighed(found)) return found
  const texts = sayings(looks)
  const heard = await weighing?.weigh(texts)
  if (!heard) return undefined
  const all = (isClear(found, heard) || !isWanted() ? undefined : await weighing?.hear(texts)) ?? heard
  const inAll = weighed(found, looks, all)
  if (!isUnfitting(all, inAll) || !isWanted()) return inAll
  // "Stop" is no word of a list, and to both looks it may be "open".
  const [anything] = (await weighing?.hearAnything()) ?? []
  return anything && anything.weight >= SURE ? { ...inAll, doubt: 'unsure' } : inAll
}

/** It is taken for said, though it does not fit. */
function isUnfitting(all: readonly Weighed[], { text, doubt }: Recognition): boolean {
  const weight = all.find((one) => one.text === text)?.weight ?? 0
  return !doubt && weight < fitting(wordsIn(text))
}

function isClear({ doubt }: Recognition, heard: readonly Weighed[]): boolean {
  return !doubt && heard.every(({ text, weight }) => weight >= clear(wordsIn(text)))
}

/** By the sayings of the looks, and what the weigher heard itself. It is sure, or says what the looks most likely heard. */
function weighed(found: Recognition, looks: readonly Decoded[], sayingsOfAll: readonly Weighed[]): Recognition {
  const texts = sayings(looks)
  const all = [...sayingsOfAll].sort((one, other) => proportion(other) - proportion(one))
  const ofLooks = all.filter(({ text }) => texts.includes(text))
  const [likeliest, best] = [ofLooks[0], all[0]]
  if (!likeliest || !best) return found
  const taken = isBorneOut(found, likeliest, ofLooks, all) ? likeliest : isOwn(best, ofLooks, all) ? best : undefined
  const { text } = taken ?? likeliest
  const look = looks.find((look) => look.text === text)
  const saying = { text, words: look?.words ?? [], confidence: found.confidence }
  if (taken) return saying
  if (likeliest.weight < strange(wordsIn(text))) return { ...found, doubt: 'otherSpeech' }
  const other = all.find((other) => !sameSaying(other.text, text))
  return { ...saying, doubt: 'unsure', ...(other && { alternatives: [{ text: other.text }] }) }
}

/** What the looks heard: it fits, outweighs what else they heard, and the weigher hears nothing else by far. */
function isBorneOut(
  { doubt }: Recognition,
  saying: Weighed,
  ofLooks: readonly Weighed[],
  all: readonly Weighed[],
): boolean {
  const { text, weight } = saying
  const words = wordsIn(text)
  // The words of a list are strange to the weigher, however clearly they are said; numbers are not.
  const fits = weight >= fitting(words) || (!doubt && !hasNumber(text) && weight >= strange(words))
  return fits && lead(saying, ofLooks) >= OUTWEIGHING && lead(saying, all) >= (doubt ? 0 : -AGREED)
}

/** What the weigher heard itself, and a look in part. Not words alone: one that no look heard may be "not". */
function isOwn(saying: Weighed, ofLooks: readonly Weighed[], all: readonly Weighed[]): boolean {
  const { text, weight } = saying
  return (
    hasNumber(text) &&
    weight >= wellFitting(wordsIn(text)) &&
    lead(saying, all) >= OWN_OUTWEIGHING &&
    ofLooks.some((other) => shareInCommon(text, other.text) >= IN_PART)
  )
}

/** By how much it outweighs the heaviest of those that say something else; less than 0 where it does not. */
function lead(saying: Weighed, among: readonly Weighed[]): number {
  const rival = among.find(({ text }) => !sameSaying(text, saying.text))
  return rival ? proportion(saying) - proportion(rival) : Number.POSITIVE_INFINITY
}
