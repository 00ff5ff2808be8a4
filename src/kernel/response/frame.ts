/**
 * A frame: one path of a response as slots to fill, with all that must be known to hear what fills them. That is the kinds
 * of its figures, the phrases that are its own, labels or other states, and the words that change nothing. It holds no
 * value, so it serves judging and the question whether everything has been said alike.
 */

import { type KindSpec, kindOf, type Specs } from '../kinds/kind.ts'
import type { Affix } from '../kinds/reading.ts'
import { affixesOf, isValueWord } from '../kinds/table.ts'
import type { Token } from '../numbers/tokens.ts'
import { isNumberWord } from '../numbers/words.ts'
import { ownOf } from '../own.ts'
import { type KnownPhrase, ownPhrases, statePhrases, withParts } from './framePhrases.ts'
import { isNegation, isStateWord } from './lexicon.ts'
import type { PartStates } from './model.ts'
import type { Path } from './path.ts'
import { bagsOf, isFigureSlot, isOfSeveral, namesOf, nameWords, severalOf } from './slotWords.ts'
import { type NearWords, nearWordsOf } from './wording.ts'

export interface Frame {
  readonly path: Path
  /** For each slot the kind of its figure; undefined for words, and for a figure that was not handed in. */
  readonly specs: readonly (KindSpec | undefined)[]
  /** By the first character of the phrase, longest first. */
  readonly phrases: ReadonlyMap<string, readonly KnownPhrase[]>
  /** Words of states that speak against the item. */
  readonly contraries: ReadonlySet<string>
  /** Words that the phrases are made of. */
  readonly vocabulary: ReadonlySet<string>
  /** Besides the words that are harmless everywhere. */
  readonly harmless: ReadonlySet<string>
  readonly nearWords: NearWords
  /** For each part that is words, the telling words of each of its wordings, where no other part has them. */
  readonly bags: ReadonlyMap<number, readonly (readonly string[])[]>
  /** Other names of what the challenge asks for. */
  readonly names: readonly (readonly string[])[]
  /** Letters that the challenge's words begin with, where it has several: "a p u". */
  readonly initials: ReadonlySet<string>
  /** A call, and no answer to a challenge. */
  readonly isUnasked: boolean
  /** All of several things are asked for: "both on", "doors". */
  readonly ofSeveral: boolean
  /** Words of its parts that are words, as the response has them. */
  readonly own: ReadonlySet<string>
  /** Words of the challenge. */
  readonly asked: ReadonlySet<string>
  /** What there are several of, and one of them. */
  readonly several: ReadonlySet<string>
  /** Places of the figures in the path. */
  readonly figureSlots: readonly number[]
  readonly figureCount: number
}

function harmlessWords(path: Path, specs: readonly (KindSpec | undefined)[], challenge: readonly Token[]): Set<string> {
  const words = new Set<string>()
  const add = (word: string) => {
    if (isStateWord(word) || isNegation(word)) return
    words.add(word)
    // One door of the doors.
    const other = word.endsWith('s') ? word.slice(0, -1) : `${word}s`
    if (other.length > 2 && !isStateWord(other) && !isNumberWord(other)) words.add(other)
  }
  for (const token of challenge) if (!token.number) add(token.text)
  for (const spec of specs) {
    if (!spec) continue
    for (const noun of kindOf(spec).nouns) add(noun)
    for (const [word, { role }] of affixesOf(spec)) if (role === 'joint') add(word)
  }
  for (const slot of path) {
    const phrases = slot.type === 'word' ? slot.wordings : [...slot.labels, ...slot.units]
    for (const phrase of phrases) for (const word of phrase.words) add(word)
    if (slot.type === 'figure') for (const word of nameWords(slot.figure)) add(word)
  }
  return words
}

/** `written`: the words on the card, where the author has synonyms for some. */
export function makeFrame(
  path: Path,
  all: Specs,
  states: readonly (readonly string[])[],
  challenge: readonly Token[],
  written?: ReadonlySet<string>,
  partStates: PartStates = {},
): Frame {
  const specs = path.map((slot) => (slot.type === 'figure' ? ownOf(all, slot.figure) : undefined))
  const own = ownPhrases(path, specs, written)
  const known = withParts([...own, ...statePhrases(path, states, own, partStates)], path, partStates)
  const phrases = new Map<string, KnownPhrase[]>()
  for (const each of known) {
    const key = each.phrase.canon[0] ?? ''
    const list = phrases.get(key) ?? []
    list.push(each)
    phrases.set(key, list)
  }
  for (const list of phrases.values()) list.sort((a, b) => b.phrase.canon.length - a.phrase.canon.length)
  const words = (list: readonly KnownPhrase[]) => list.flatMap(({ phrase }) => phrase.words)
  return {
    path,
    specs,
    phrases,
    contraries: new Set(words(known.filter(({ type }) => type === 'state'))),
    vocabulary: new Set(words(known)),
    harmless: harmlessWords(path, specs, challenge),
    bags: bagsOf(path),
    names: namesOf(challenge),
    initials: new Set(challenge.length > 1 ? challenge.map(({ text }) => text.charAt(0)) : []),
    isUnasked: challenge.length === 0,
    ofSeveral: isOfSeveral(path, challenge),
    own: new Set(path.flatMap((slot) => (slot.type === 'word' ? slot.wordings.flatMap(({ words }) => words) : []))),
    asked: new Set(challenge.map(({ text }) => text)),
    several: severalOf(challenge),
    nearWords: nearWordsOf([...new Set(words(own))].filter((word) => !/\d/.test(word))),
    figureSlots: path.flatMap((slot, index) => (isFigureSlot(slot) ? [index] : [])),
    figureCount: path.filter(isFigureSlot).length,
  }
}

/** What a token may do beside the digits of the frame's values. */
export function rolesOf(frame: Frame, token: Token): readonly Affix[] {
  return frame.specs.flatMap((spec) => (spec && affixesOf(spec).get(token.text)) ?? [])
}

export function hasRole(frame: Frame, token: Token, role: Affix['role']): boolean {
  return frame.specs.some((spec) => spec !== undefined && affixesOf(spec).get(token.text)?.role === role)
}

/** True where a token is or may be part of one of the frame's values. */
export function isValueToken(frame: Frame, token: Token): boolean {
  return frame.specs.some((spec) => spec !== undefined && isValueWord(token, spec))
}
