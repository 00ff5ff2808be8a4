/** The words by which each element of a transmission is known: "squawk", "runway", the names of a choice or a call sign. */

import { type KindSpec, kindOf, type Specs } from '../kinds/kind.ts'
import { affixesOf } from '../kinds/table.ts'
import { isNumberToken, isWord, soundOf, type Token, tokensOf } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { HARMLESS } from './lexicon.ts'
import { madeOnce } from './memo.ts'
import type { Path, Phrase, Slot } from './path.ts'
import { phraseStatesOf } from './phraseStates.ts'
import { allOf, type Response } from './response.ts'
import type { SpokenElement } from './spokenElement.ts'

/** How a cue belongs to one of the elements that have it. */
export interface CueOwner {
  /** Place of the element. */
  readonly element: number
  /** The value that it comes before, or is; words after the last value are a part of their own. */
  readonly part: string
  /** The kind of that value; undefined where none follows. */
  readonly spec: KindSpec | undefined
  /** Nothing required comes before it: "hold short" begins its element, the "runway" after it only continues it. */
  readonly begins: boolean
  /** It is the value itself, not a word before one. */
  readonly isValue: boolean
  /** A name of the kind ("stand", "taxiway") that the response does not have. */
  readonly isImplied: boolean
}

export interface Cue {
  /** Words of a value as they sound, others as they are. */
  readonly words: readonly string[]
  readonly isValue: boolean
  /** Usually one. */
  readonly owners: readonly CueOwner[]
}

/** What is known of the words of some elements. */
export interface Cues {
  /** Longest first. */
  readonly all: readonly Cue[]
  /** Element -> words of its response that mean nothing alone: the "to" of "climb to". */
  readonly leads: readonly ReadonlySet<string>[]
  /** Element -> letters that its value may begin with, where its response has "at" before it: "at charlie three". */
  readonly places: readonly (ReadonlySet<string> | undefined)[]
  /** Element -> words that join the pieces of its value: a second "via" does not begin another route. */
  readonly joints: readonly ReadonlySet<string>[]
}

export function cuesOf(elements: readonly SpokenElement[], specs: Specs): Cues {
  return cuesOfResponses(
    elements.map(({ response }) => response),
    specs,
  )
}

export const cuesOfResponses = (responses: readonly Response[], specs: Specs): Cues =>
  cuesMade(allOf(responses), specs, responses)

const cuesMade = madeOnce((_whole, specs, responses: readonly Response[]): Cues => {
  const paths = responses.map((response) => response.paths)
  return {
    all: merged(paths.map((own) => own.flatMap((path) => ownCues(path, specs)))),
    leads: paths.map((own) => new Set(own.flat().flatMap(literalWords).filter(isLittleWord))),
    places: paths.map((own) => placesIn(own, specs)),
    joints: paths.map((own) => new Set(own.flat().flatMap((slot) => jointsOf(slot, specs)))),
  }
})

/** The longest cue that begins at a token, if there is one. */
export function cueAt({ all }: Cues, tokens: readonly Token[], at: number): Cue | undefined {
  return all.find(({ words, isValue }) => isSaidAt(words, isValue, tokens, at))
}

/** True where the words are said from a token on; those of a value are compared by their sound. */
export function isSaidAt(words: readonly string[], isValue: boolean, tokens: readonly Token[], at: number): boolean {
  return words.every((word, index) => {
    const token = tokens[at + index]
    return token !== undefined && (isValue ? soundOf(token) === word : isWord(token, word))
  })
}

type OwnCue = Omit<CueOwner, 'element'> & { readonly words: readonly string[] }

/** Each cue once, with all elements that have it. The name of a kind gives way to the same word in an element's own response. */
function merged(byElement: readonly (readonly OwnCue[])[]): Cue[] {
  const cues = new Map<string, { words: readonly string[]; isValue: boolean; owners: CueOwner[] }>()
  for (const [element, own] of byElement.entries()) {
    for (const { words, ...rest } of own) {
      const key = `${rest.isValue ? 'value ' : ''}${words.join(' ')}`
      const known = cues.get(key) ?? { words, isValue: rest.isValue, owners: [] }
      cues.set(key, known)
      if (!known.owners.some((owner) => owner.element === element)) known.owners.push({ element, ...rest })
    }
  }
  return [...cues.values()]
    .map((cue) => {
      const literal = cue.owners.filter(({ isImplied }) => !isImplied)
      return literal.length > 0 ? { ...cue, owners: literal } : cue
    })
    .sort((one, other) => other.words.length - one.words.length)
}

const literalWords = (slot: Slot): readonly string[] =>
  (slot.type === 'word' ? slot.wordings : slot.labels).flatMap(({ words }) => words)

function placesIn(paths: readonly Path[], specs: Specs): ReadonlySet<string> | undefined {
  if (!paths.flat().flatMap(literalWords).includes('at')) return undefined
  const figure = paths.flat().find(({ type }) => type === 'figure')
  const spec = figure && ownOf(specs, figure.name)
  if (spec?.kind !== 'identifier') return undefined
  return new Set([...affixesOf(spec)].flatMap(([word, { role }]) => (role === 'letter' ? [word] : [])))
}

function jointsOf(slot: Slot, specs: Specs): string[] {
  const spec = slot.type === 'figure' ? ownOf(specs, slot.figure) : undefined
  return spec ? [...affixesOf(spec)].flatMap(([word, { role }]) => (role === 'joint' ? [word] : [])) : []
}

/** Words that name nothing; "point" is more likely part of a number. */
const LITTLE = new Set(['to', 'of', 'on', 'at', 'for', 'point'])
export const isLittleWord = (word: string): boolean => LITTLE.has(word)

function ownCues(path: Path, specs: Specs): OwnCue[] {
  return path.flatMap((slot, index) => {
    const before = path.slice(0, index)
    const begins = !before.some(({ type, required }) => required && (type === 'word' || slot.type === 'word'))
    const value = path.slice(index).find(({ type }) => type === 'figure')
    const spec = value?.type === 'figure' ? ownOf(specs, value.figure) : undefined
    return cuesOfSlot(slot, specs).map((cue) => ({ ...cue, part: (value ?? slot).name, spec, begins }))
  })
}

type SlotCue = Pick<OwnCue, 'words' | 'isValue' | 'isImplied'>

function cuesOfSlot(slot: Slot, specs: Specs): SlotCue[] {
  const plain = (lists: readonly (readonly string[])[]): SlotCue[] =>
    lists.map((words) => ({ words, isValue: false, isImplied: false }))
  const telling = (phrases: readonly Phrase[]) =>
    plain(
      phrases
        .map(({ words }) => words)
        .filter((words) => !words.every((word) => HARMLESS.has(word) || isLittleWord(word))),
    )
  if (slot.type === 'word') {
    const states = slot.wordings.map(({ words }) => phraseStatesOf(words))
    const others = states.flatMap(({ same, against, knownBy }) => [...same, ...against, ...knownBy.map((one) => [one])])
    return [...telling(slot.wordings), ...plain(others)]
  }
  const spec = ownOf(specs, slot.figure)
  return [...telling(slot.labels), ...(spec ? namesOf(spec) : [])]
}

/** Words by which a value of a kind is known without a label. */
function namesOf(spec: KindSpec): SlotCue[] {
  const { options, names, nouns } = kindOf(spec)
  if (options) return valueNames(Object.values(options(spec)).flat())
  if (names) return valueNames(names(spec))
  return nouns.filter((noun) => !isLittleWord(noun)).map((noun) => ({ words: [noun], isValue: false, isImplied: true }))
}

const valueNames = (texts: readonly string[]): SlotCue[] =>
  texts.flatMap((text) => {
    const tokens = tokensOf(text)
    // "Twelve" is a number, even where an option is called so.
    return tokens.every(isNumberToken) ? [] : [{ words: tokens.map(soundOf), isValue: true, isImplied: false }]
  })
