/**
 * The phrases that a path of a response is heard by: its own, in other forms and words, and those of states that speak
 * against it.
 */

import { type KindSpec, kindOf } from '../kinds/kind.ts'
import { isNumberWord } from '../numbers/words.ts'
import { HARMLESS, isStateWord, opposites, otherForms } from './lexicon.ts'
import type { PartStates } from './model.ts'
import { type Path, type Phrase, phraseOf } from './path.ts'
import { phraseStatesOf } from './phraseStates.ts'
import { ALL } from './remarkWords.ts'
import { isFigureSlot, isWordSlot, LITTLE_WORDS, nameWords } from './slotWords.ts'
import { ALSO_ON, SYNONYMS } from './synonyms.ts'

export interface KnownPhrase {
  /** `partial`: one word of a longer wording, nothing by itself unless "not" stands before it. */
  readonly type: 'label' | 'own' | 'state' | 'unit' | 'partial'
  /** Place in the path; -1 for a state of the item that no word slot has. */
  readonly slot: number
  readonly phrase: Phrase
  /** The response's own words, not another way to say the same state. */
  readonly literal: boolean
  /** Other parts that speak against the answer with this, as the author has it. */
  readonly against?: readonly number[]
}

/** Other names that pilots have for the speeds of a list. */
const ALSO_CALLED: ReadonlyMap<string, readonly string[]> = new Map([
  ['rotate', ['v r', 'v rotate', 'rotation']],
  ['v one', ['vee one', 'decision']],
  ['v two', ['vee two']],
  ['v r', ['rotate', 'vee r']],
])

/** "Accelerate at" for `acceleration`, "targeting" for `target`. */
function asVerbs({ words: [word = '', ...more] }: Phrase): readonly string[] {
  if (more.length > 0 || word.length < MOST_BARE) return []
  const stem = VERBAL.find(([ending]) => word.endsWith(ending))
  if (!stem) return word.endsWith('t') ? [`${word}ing`] : []
  const base = word.slice(0, -stem[0].length) + stem[1]
  return [base, `${base}s`, `${base.slice(0, -1)}ing`]
}
const VERBAL = [
  ['ction', 'ce'],
  ['ation', 'ate'],
] as const
/** Shorter words have no verb of their own. */
const MOST_BARE = 5

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

export function ownPhrases(
  path: Path,
  specs: readonly (KindSpec | undefined)[],
  written?: ReadonlySet<string>,
): KnownPhrase[] {
  const known: KnownPhrase[] = []
  const isLiteral = ({ words }: Phrase) => !written || words.every((word) => written.has(word))
  path.forEach((slot, index) => {
    if (slot.type === 'word') {
      for (const phrase of slot.wordings) known.push({ type: 'own', slot: index, phrase, literal: isLiteral(phrase) })
      return
    }
    for (const phrase of slot.labels) {
      known.push({ type: 'label', slot: index, phrase, literal: isLiteral(phrase) })
      for (const text of [...(ALSO_CALLED.get(phrase.text) ?? []), ...asVerbs(phrase)]) {
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

/** The phrase with another word in one place. */
const withWord = ({ words }: Phrase, at: number, other: string): Phrase =>
  phraseOf(words.map((each, i) => (i === at ? other : each)).join(' '))

/** "gear up" for `gear down`: each wording with one of its states turned into another. */
function turned(phrase: Phrase): Phrase[] {
  return phrase.words.flatMap((word, at) => [...opposites(word)].map((other) => withWord(phrase, at, other)))
}

/** "Two green" for `three green`. */
function countedOtherwise(phrase: Phrase): Phrase[] {
  if (phrase.words.every(isNumberWord)) return []
  return phrase.words.flatMap((word, at) =>
    COUNTS.has(word) && phrase.words.length > 1
      ? [...COUNTS].filter((other) => other !== word).map((other) => withWord(phrase, at, other))
      : [],
  )
}
const COUNTS: ReadonlySet<string> = new Set(['one', 'two', 'three', 'four'])

export function statePhrases(
  path: Path,
  states: readonly (readonly string[])[],
  own: readonly KnownPhrase[],
  partStates: PartStates = {},
): KnownPhrase[] {
  const taken = new Set(own.map(({ phrase }) => phrase.canon))
  const ownWords = new Set(
    path.flatMap((slot) => (slot.type === 'word' ? slot.wordings : slot.labels)).flatMap(({ words }) => words),
  )
  const known: KnownPhrase[] = []
  const isSynonym = (phrase: Phrase) => own.some((one) => one.phrase === phrase && !one.literal)
  const add = (type: 'state' | 'own' | 'partial', slot: number, phrase: Phrase) => {
    if (phrase.canon === '' || taken.has(phrase.canon)) return
    taken.add(phrase.canon)
    known.push({ type, slot, phrase, literal: false })
  }
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
  const ofParts = statesByPart(path, partStates)
  const isOfPart = (state: readonly string[]) =>
    ofParts.some((one) => one.state.every((text, at) => text === state[at]))
  for (const { slot, isOwn, phrases } of ofParts)
    for (const phrase of phrases) add(isOwn ? 'own' : 'state', slot, phrase)
  for (const state of states) {
    if (isOfPart(state)) continue
    const phrases = state.map(phraseOf)
    const slot = slotOfState(path, phrases)
    for (const phrase of phrases) {
      if (slot >= 0) add(isAllOf(path[slot], phrases) ? 'own' : 'partial', slot, phrase)
      else add('state', contrarySlot(path, states, state), phrase)
    }
    const alike = slot >= 0 ? [] : SYNONYMS.filter((line) => line.some((one) => state.includes(one))).flat()
    for (const text of alike)
      if (!ownWords.has(text) && !isOwnState(text)) add('state', contrarySlot(path, states, state), phraseOf(text))
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
      // What "up" excludes is nothing to "buttoned up".
      if (wording.words.length > 1 && isSynonym(wording)) continue
      // "Via Juliett" or "on Juliett": a little word that may be left out is no state.
      if (!slot.required && slot.wordings.some(({ words }) => !words.some(isStateWord))) continue
      if (wording.words.length > 1) for (const phrase of turned(wording)) add('state', index, phrase)
      for (const phrase of countedOtherwise(wording)) add('state', index, phrase)
      for (const word of wording.words) {
        for (const other of opposites(word)) if (!ownWords.has(other)) add('state', index, phraseOf(other))
        if (wording.words.length > 1 && isStateWord(word)) add('partial', index, phraseOf(word))
      }
    }
  })
  return known
}

interface PartState {
  readonly slot: number
  readonly isOwn: boolean
  readonly state: readonly string[]
  readonly phrases: readonly Phrase[]
}

/** States that the author gives for each part by its tag. */
function statesByPart(path: Path, partStates: PartStates): PartState[] {
  return Object.entries(partStates).flatMap(([tag, states]) => {
    const index = path.findIndex((each) => isWordSlot(each) && each.name === tag)
    const slot = path[index]
    if (!slot || !isWordSlot(slot)) return []
    return states.map((state) => {
      const phrases = state.map(phraseOf)
      return { slot: index, isOwn: slot.wordings.some((own) => saysSame(own, phrases)), state, phrases }
    })
  })
}

/** Phrases with the other parts that could be meant by them. */
export function withParts(known: readonly KnownPhrase[], path: Path, partStates: PartStates): readonly KnownPhrase[] {
  const contrary = statesByPart(path, partStates).filter(({ isOwn }) => !isOwn)
  if (contrary.length === 0) return known
  return known.map((one) => {
    const against = contrary.flatMap(({ slot, phrases }) =>
      slot !== one.slot && phrases.some(({ canon }) => canon === one.phrase.canon) ? slot : [],
    )
    return against.length === 0 ? one : { ...one, against }
  })
}

const slotOfState = (path: Path, state: readonly Phrase[]) =>
  path.findIndex((each) => isWordSlot(each) && each.wordings.some((own) => saysSame(own, state)))

/** "Free" is not all of "full and free", nor "closed" of "pumped and closed". */
function isAllOf(slot: Path[number] | undefined, state: readonly Phrase[]): boolean {
  if (!slot || !isWordSlot(slot)) return false
  const isRest = (word: string) =>
    (isStateWord(word) || word.endsWith('ed')) && !ALL.has(word) && !state.some(({ words }) => words.includes(word))
  // "Off" is not all of "guard down, switch off".
  const isOther = (word: string) => isRest(word) && isStateWord(word) && !PLACES.has(word)
  return slot.wordings.some(
    (own) => saysSame(own, state) && !own.words.some(own.words.includes('and') ? isRest : isOther),
  )
}

/** States of which another one may be all: "left main on", "lock out", "set neutral". */
const PLACES: ReadonlySet<string> = new Set(
  'left right center centre first second third in out full forward aft back port starboard inboard outboard up lock set'.split(
    ' ',
  ),
)

/** The part that a state speaks against: one whose words it excludes, or else the one whose state is asked for. */
function contrarySlot(path: Path, states: readonly (readonly string[])[], state: readonly string[]): number {
  const excluded = new Set(state.flatMap((text) => text.split(' ').flatMap((word) => [...opposites(word)])))
  const isExcluded = (word: string) =>
    excluded.has(word) || SYNONYMS.some((line) => line.includes(word) && line.some((one) => excluded.has(one)))
  const opposed = path.findIndex((slot) => isWordSlot(slot) && wordsOf(slot).some(isExcluded))
  if (opposed >= 0) return opposed
  const asked = new Set(states.map((each) => slotOfState(path, each.map(phraseOf))).filter((slot) => slot >= 0))
  const [only] = asked
  return asked.size === 1 && only !== undefined ? only : path.findIndex(isWordSlot)
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

/** A wording without its little words ("closed locked"), or with one word in another form ("arm" for `armed`). */
function inOtherForms(phrase: Phrase): Phrase[] {
  const content = phrase.words.filter((word) => !LITTLE_WORDS.has(word))
  const bare = content.length > 0 && content.length < phrase.words.length ? [phraseOf(content.join(' '))] : []
  return [...bare, ...otherFormsOf(phrase)]
}

function otherFormsOf(phrase: Phrase): Phrase[] {
  return phrase.words.flatMap((word, at) => otherForms(word).map((other) => withWord(phrase, at, other)))
}

const wordsOf = (slot: Path[number]): readonly string[] =>
  slot.type === 'word' ? slot.wordings.flatMap(({ words }) => words) : []

function saysSame(own: Phrase, state: readonly Phrase[]): boolean {
  return state.some(({ canon, words }) => canon === own.canon || words.every((word) => own.words.includes(word)))
}
