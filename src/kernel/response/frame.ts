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
import { HARMLESS, isNegation, isStateWord, opposites, otherForms } from './lexicon.ts'
import { type FigureSlot, type Path, type Phrase, phraseOf, type WordSlot } from './path.ts'
import { phraseStatesOf } from './phraseStates.ts'
import { ALL } from './remarkWords.ts'
import { ALSO_NAMED, ALSO_ON, SYNONYMS } from './synonyms.ts'
import { type NearWords, nearWordsOf } from './wording.ts'

export interface KnownPhrase {
  /** `partial`: one word of a longer wording, nothing by itself unless "not" stands before it. */
  readonly type: 'label' | 'own' | 'state' | 'unit' | 'partial'
  /** Place in the path; -1 for a state of the item that no word slot has. */
  readonly slot: number
  readonly phrase: Phrase
  /** The response's own words, not another way to say the same state. */
  readonly literal: boolean
}

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
  /** All of several things are asked for: "both on", "doors". */
  readonly ofSeveral: boolean
  /** Places of the figures in the path. */
  readonly figureSlots: readonly number[]
  readonly figureCount: number
}

const isWordSlot = (slot: Path[number]): slot is WordSlot => slot.type === 'word'
const isFigureSlot = (slot: Path[number]): slot is FigureSlot => slot.type === 'figure'

/** Other names that pilots have for the speeds of a list. */
const ALSO_CALLED: ReadonlyMap<string, readonly string[]> = new Map([
  ['rotate', ['v r', 'v rotate', 'rotation']],
  ['v one', ['vee one', 'decision']],
  ['v two', ['vee two']],
  ['v r', ['rotate', 'vee r']],
])

/** With several figures, the name of one and of its kind say which is meant: "heading", "takeoff trim". */
function impliedLabels(path: Path, specs: readonly (KindSpec | undefined)[], index: number): string[] {
  const slot = path[index]
  const own = specs[index]
  if (slot?.type !== 'figure' || own === undefined || path.filter(isFigureSlot).length < 2) return []
  const only = specs.filter((spec) => spec?.kind === own.kind).length === 1
  const nouns = only ? kindOf(own).nouns : []
  const name = nameWords(slot.figure).join(' ')
  const words = path.flatMap((each) => (each.type === 'figure' ? each.labels : each.wordings))
  // A figure called "crossing" must not hide that crossing is the contrary of holding short.
  const contraries = words.flatMap(({ words }) => phraseStatesOf(words).against.map((other) => other.join(' ')))
  const taken = new Set([...words.map(({ text }) => text), ...contraries])
  return [...nouns, name].filter(
    (text) => text.length > 1 && !taken.has(text) && !isStateWord(text) && !isNumberWord(text) && !HARMLESS.has(text),
  )
}

function ownPhrases(path: Path, specs: readonly (KindSpec | undefined)[]): KnownPhrase[] {
  const known: KnownPhrase[] = []
  path.forEach((slot, index) => {
    if (slot.type === 'word') {
      for (const phrase of slot.wordings) known.push({ type: 'own', slot: index, phrase, literal: true })
      return
    }
    for (const phrase of slot.labels) {
      known.push({ type: 'label', slot: index, phrase, literal: true })
      for (const text of ALSO_CALLED.get(phrase.text) ?? []) {
        known.push({ type: 'label', slot: index, phrase: phraseOf(text), literal: false })
      }
    }
    for (const text of impliedLabels(path, specs, index)) {
      known.push({ type: 'label', slot: index, phrase: phraseOf(text), literal: false })
    }
    for (const phrase of slot.units) known.push({ type: 'unit', slot: index, phrase, literal: true })
  })
  return known
}

/** "gear up" for `gear down`: each wording with one of its states turned into another. */
function turned(phrase: Phrase): Phrase[] {
  return phrase.words.flatMap((word, at) =>
    [...opposites(word)].map((other) => phraseOf(phrase.words.map((each, i) => (i === at ? other : each)).join(' '))),
  )
}

function statePhrases(path: Path, states: readonly (readonly string[])[], own: readonly KnownPhrase[]): KnownPhrase[] {
  const taken = new Set(own.map(({ phrase }) => phrase.canon))
  const ownWords = new Set(path.filter(isWordSlot).flatMap((slot) => slot.wordings.flatMap(({ words }) => words)))
  const known: KnownPhrase[] = []
  const add = (type: 'state' | 'own' | 'partial', slot: number, phrase: Phrase) => {
    if (phrase.canon === '' || taken.has(phrase.canon)) return
    taken.add(phrase.canon)
    known.push({ type, slot, phrase, literal: false })
  }
  const firstWord = path.findIndex(isWordSlot)
  const ownStates = new Set(
    states
      .filter((state) =>
        path.some((each) => isWordSlot(each) && each.wordings.some((one) => saysSame(one, state.map(phraseOf)))),
      )
      .flat(),
  )
  // "Gone" is "away", whatever else it may be called.
  const isOwnState = (text: string) =>
    SYNONYMS.some((line) => line.includes(text) && line.some((one) => ownStates.has(one) || ownWords.has(one)))
  for (const state of states) {
    const phrases = state.map(phraseOf)
    const slot = path.findIndex((each) => isWordSlot(each) && each.wordings.some((own) => saysSame(own, phrases)))
    for (const phrase of phrases) add(slot >= 0 ? 'own' : 'state', slot >= 0 ? slot : firstWord, phrase)
    const alike = slot >= 0 ? [] : SYNONYMS.filter((line) => line.some((one) => state.includes(one))).flat()
    for (const text of alike) if (!ownWords.has(text) && !isOwnState(text)) add('state', firstWord, phraseOf(text))
  }
  path.forEach((slot, index) => {
    if (slot.type !== 'word') return
    // What is another part's, or another state of the item, is no synonym.
    const others = new Set([
      ...path.filter((each) => each !== slot && isWordSlot(each)).flatMap((each) => wordsOf(each)),
      ...states.filter((state) => !slot.wordings.some((own) => saysSame(own, state.map(phraseOf)))).flat(),
    ])
    const isOther = (word: string) =>
      others.has(word) || wordsOf(slot).some((own) => opposites(own).has(word) && own !== word)
    for (const phrase of synonymsOf(slot.wordings, states, isOther)) add('own', index, phrase)
    for (const wording of slot.wordings) {
      const { same, against } = phraseStatesOf(wording.words)
      for (const words of same) add('own', index, phraseOf(words.join(' ')))
      for (const words of against) add('state', index, phraseOf(words.join(' ')))
      for (const phrase of inOtherForms(wording)) add('own', index, phrase)
      if (wording.words.length > 1) for (const phrase of turned(wording)) add('state', index, phrase)
      for (const word of wording.words) {
        for (const other of opposites(word)) if (!ownWords.has(other)) add('state', index, phraseOf(other))
        if (wording.words.length > 1 && isStateWord(word)) add('partial', index, phraseOf(word))
      }
    }
  })
  return known
}

/** A part's wordings and states as people also say them. */
function synonymsOf(
  wordings: readonly Phrase[],
  states: readonly (readonly string[])[],
  isOther: (text: string) => boolean,
): Phrase[] {
  const own = states.filter((state) => wordings.some((wording) => saysSame(wording, state.map(phraseOf)))).flat()
  const bare = [...own, ...wordings.filter(({ words }) => words.length === 1).map(({ text }) => text)]
  const found = new Set<string>()
  for (const { text, words } of wordings) {
    for (const line of SYNONYMS) {
      for (const said of line) {
        const at = indexOfWords(words, said.split(' '))
        if (at < 0) continue
        for (const other of line) {
          if (other === said || other.split(' ').every((word) => isOther(word))) continue
          found.add([...words.slice(0, at), other, ...words.slice(at + said.split(' ').length)].join(' '))
          if (bare.includes(said) || said === text) found.add(other)
        }
      }
    }
    for (const word of words) if (ALSO_ON.has(word) && !isOther('on') && bare.includes(word)) found.add('on')
  }
  return [...found].map(phraseOf)
}

function indexOfWords(words: readonly string[], wanted: readonly string[]): number {
  return words.findIndex((_, at) => wanted.every((word, index) => words[at + index] === word))
}

const LITTLE_WORDS = new Set(['and', 'the', 'is', 'are', 'a'])

/** A wording without its little words ("closed locked"), or with one word in another form ("arm" for `armed`). */
function inOtherForms(phrase: Phrase): Phrase[] {
  const content = phrase.words.filter((word) => !LITTLE_WORDS.has(word))
  const bare = content.length > 0 && content.length < phrase.words.length ? [phraseOf(content.join(' '))] : []
  return [...bare, ...otherFormsOf(phrase)]
}

function otherFormsOf(phrase: Phrase): Phrase[] {
  return phrase.words.flatMap((word, at) =>
    otherForms(word).map((other) => phraseOf(phrase.words.map((each, i) => (i === at ? other : each)).join(' '))),
  )
}

const wordsOf = (slot: Path[number]): readonly string[] =>
  slot.type === 'word' ? slot.wordings.flatMap(({ words }) => words) : []

function saysSame(own: Phrase, state: readonly Phrase[]): boolean {
  return state.some(({ canon, words }) => canon === own.canon || words.every((word) => own.words.includes(word)))
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

/** "takeoffTrim" -> takeoff, trim. */
function nameWords(name: string): string[] {
  return name
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter((word) => word.length > 1)
}

export function makeFrame(
  path: Path,
  all: Specs,
  states: readonly (readonly string[])[],
  challenge: readonly Token[],
): Frame {
  const specs = path.map((slot) => (slot.type === 'figure' ? ownOf(all, slot.figure) : undefined))
  const own = ownPhrases(path, specs)
  const known = [...own, ...statePhrases(path, states, own)]
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
    ofSeveral: isOfSeveral(path, challenge),
    nearWords: nearWordsOf([...new Set(words(own))].filter((word) => !/\d/.test(word))),
    figureSlots: path.flatMap((slot, index) => (isFigureSlot(slot) ? [index] : [])),
    figureCount: path.filter(isFigureSlot).length,
  }
}

function namesOf(challenge: readonly Token[]): readonly (readonly string[])[] {
  const asked = challenge.map(({ text }) => text)
  return ALSO_NAMED.flatMap(([name, others]) => {
    const stem = name.split(' ')
    const at = asked.findIndex((_, from) =>
      stem.every((word, i) => asked[from + i] === word || asked[from + i] === `${word}s`),
    )
    return at < 0 ? [] : others.map((other) => other.split(' '))
  })
}

const LOOSE_WORDS = new Set([...LITTLE_WORDS, 'in', 'of', 'to', 'at', 'my', 'his'])

function bagsOf(path: Path): Map<number, string[][]> {
  const telling = path.map((slot) =>
    (slot.type === 'word' ? slot.wordings : []).map(({ words }) => words.filter((word) => !LOOSE_WORDS.has(word))),
  )
  return new Map(
    telling.map((bags, index) => {
      const others = new Set(telling.flatMap((each, other) => (other === index ? [] : each.flat())))
      return [
        index,
        bags.filter(
          (bag) =>
            bag.length > 0 && bag.every((word) => !others.has(word)) && (bag.length > 1 || ALL.has(bag[0] ?? '')),
        ),
      ]
    }),
  )
}

function isOfSeveral(path: Path, challenge: readonly Token[]): boolean {
  const words = path.filter(isWordSlot).flatMap(({ wordings }) => wordings.flatMap(({ words }) => words))
  const last = challenge.at(-1)?.text ?? ''
  return words.some((word) => ALL.has(word)) || (last.endsWith('s') && !last.endsWith('ss'))
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
