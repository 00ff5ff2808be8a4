/**
 * The likeliest texts of a grammar by how they sound: a prefix beam search over the log probabilities of phones, frame by
 * frame (Graves and others, connectionist temporal classification, 2006, from memory). A text's probability is that of all
 * its pronunciations and of all ways to spread them over the frames. Pure: the model's output is handed in.
 */

import type { GrammarState } from '../../../kernel/hearing/grammarWalk.ts'
import { PHONES } from '../../../kernel/hearing/phones.ts'

/** Natural logarithms, frame after frame: first of no phone, then of each of `PHONES` in its order. */
export interface PhoneFrames {
  readonly logProbs: Float32Array
  readonly count: number
}

/** A text with the natural logarithm of its probability, and how many phones its likeliest pronunciation has. */
export interface SoundedText {
  readonly text: string
  readonly logProb: number
  readonly phoneCount: number
}

/** ARPAbet without stress, with spaces between; none for a word whose sound is not known. */
export type PronunciationsOf = (word: string) => readonly string[]

/** Of the phones and of none. */
const WIDTH = PHONES.length + 1
const NONE = 0
const NUMBER_OF: ReadonlyMap<string, number> = new Map(PHONES.map((phone, index) => [phone, index + 1]))

/** Beginnings of texts that are followed at once, and how far behind the likeliest they may be, in nats. */
const MOST_FOLLOWED = 60
const FAR = 16
/** In place of the number of a word's end. */
const WITHIN = -1

/** Words of one place in the grammar, phone by phone. */
interface Sounds {
  readonly phone: number
  readonly next: Map<number, Sounds>
  readonly ends: (readonly [word: string, to: () => GrammarState])[]
}

/** A beginning of texts: whole words, and the phones of the one under way. */
interface Beginning {
  readonly at: Sounds
  readonly words: string
  readonly phoneCount: number
  /** After frames so far, where the last frame was of no phone, and where it was of the last phone. */
  none: number
  last: number
  noneNext: number
  lastNext: number
  isNext: boolean
  /** By the end of a word that they go on behind, or `WITHIN` one. */
  readonly longer: Map<number, Map<Sounds, Beginning>>
}

/** Likeliest first; none where nothing that may be said was found. */
export function likeliestBySound(
  { logProbs, count }: PhoneFrames,
  start: GrammarState,
  pronunciationsOf: PronunciationsOf,
): readonly SoundedText[] {
  const sounds = soundsFinder(pronunciationsOf)
  const first = beginning(sounds(start), '', 0)
  first.none = 0
  let followed: Beginning[] = [first]
  for (let frame = 0; frame < count; frame++) {
    followed = stepped(followed, logProbs.subarray(frame * WIDTH, (frame + 1) * WIDTH), sounds)
  }
  return textsOf(followed)
}

/** One frame further: each beginning stays as it is, or goes on with one more phone. */
function stepped(followed: readonly Beginning[], logProbOf: Float32Array, sounds: SoundsOf): Beginning[] {
  const next: Beginning[] = []
  const keep = (one: Beginning) => {
    if (one.isNext) return
    one.isNext = true
    next.push(one)
  }
  const least = Math.max(...followed.map(total)) - FAR
  for (const one of followed) {
    const all = total(one)
    keep(one)
    one.noneNext = sum(one.noneNext, all + (logProbOf[NONE] as number))
    one.lastNext = sum(one.lastNext, one.last + (logProbOf[one.at.phone] as number))
    const goOn = (places: Sounds['next'], end: number) => {
      for (const place of places.values()) {
        // The same phone again is another one only after a frame of none.
        const logProb = (place.phone === one.at.phone ? one.none : all) + (logProbOf[place.phone] as number)
        if (logProb < least) continue
        const longer = longerBy(one, place, end)
        keep(longer)
        longer.lastNext = sum(longer.lastNext, logProb)
      }
    }
    goOn(one.at.next, WITHIN)
    for (const [end, [, to]] of one.at.ends.entries()) goOn(sounds(to()).next, end)
  }
  for (const one of next) {
    one.none = one.noneNext
    one.last = one.lastNext
    one.noneNext = one.lastNext = Number.NEGATIVE_INFINITY
    one.isNext = false
  }
  return next.sort((one, other) => total(other) - total(one)).slice(0, MOST_FOLLOWED)
}

/** By one phone, within a word or behind its end of this number. */
function longerBy({ at, words, phoneCount, longer }: Beginning, place: Sounds, end: number): Beginning {
  const byPlace = longer.get(end) ?? new Map<Sounds, Beginning>()
  longer.set(end, byPlace)
  const word = at.ends[end]?.[0]
  const made = byPlace.get(place) ?? beginning(place, word === undefined ? words : joined(words, word), phoneCount + 1)
  byPlace.set(place, made)
  return made
}

type SoundsOf = (at: GrammarState) => Sounds

/** Each place in the grammar is spelled out once. */
function soundsFinder(pronunciationsOf: PronunciationsOf): SoundsOf {
  const known = new Map<GrammarState, Sounds>()
  return (at) => {
    const made = known.get(at) ?? soundsAt(at, pronunciationsOf)
    known.set(at, made)
    return made
  }
}

const noSounds = (phone: number): Sounds => ({ phone, next: new Map(), ends: [] })

function soundsAt(at: GrammarState, pronunciationsOf: PronunciationsOf): Sounds {
  const all = noSounds(NONE)
  for (const [word, to] of at.next) {
    for (const pronunciation of pronunciationsOf(word)) {
      let place = all
      for (const name of pronunciation.split(' ')) {
        const phone = NUMBER_OF.get(name) ?? NONE
        const next = place.next.get(phone) ?? noSounds(phone)
        place.next.set(phone, next)
        place = next
      }
      place.ends.push([word, to])
    }
  }
  return all
}

const beginning = (at: Sounds, words: string, phoneCount: number): Beginning => ({
  ...{ at, words, phoneCount, isNext: false, longer: new Map() },
  ...{ none: Number.NEGATIVE_INFINITY, last: Number.NEGATIVE_INFINITY },
  ...{ noneNext: Number.NEGATIVE_INFINITY, lastNext: Number.NEGATIVE_INFINITY },
})

function textsOf(followed: readonly Beginning[]): readonly SoundedText[] {
  const byText = new Map<string, SoundedText>()
  for (const one of followed) {
    for (const [word, to] of one.at.ends) {
      if (!to().isFinal) continue
      const text = joined(one.words, word)
      const known = byText.get(text)
      // The likeliest pronunciation comes first.
      byText.set(text, { phoneCount: one.phoneCount, ...known, text, logProb: sum(known?.logProb, total(one)) })
    }
  }
  return [...byText.values()].sort((one, other) => other.logProb - one.logProb)
}

const joined = (words: string, word: string) => (words === '' ? word : `${words} ${word}`)
const total = ({ none, last }: Beginning) => sum(none, last)

/** Of two probabilities, as logarithms. */
function sum(one = Number.NEGATIVE_INFINITY, other: number): number {
  const [more, less] = one > other ? [one, other] : [other, one]
  return less === Number.NEGATIVE_INFINITY ? more : more + Math.log1p(Math.exp(less - more))
}
