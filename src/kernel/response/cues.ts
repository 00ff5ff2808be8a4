/** The words by which each element of a transmission is known: "squawk", "runway", the names of a choice or a call sign. */

import { type KindSpec, kindOf, type Specs } from '../kinds/kind.ts'
import { affixesOf } from '../kinds/table.ts'
import { isNumberToken, soundOf, type Token, tokensOf } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { HARMLESS } from './lexicon.ts'
import { madeOnce } from './memo.ts'
import type { Path, Phrase, Slot } from './path.ts'
import { phraseStatesOf } from './phraseStates.ts'
import { allOf, type Response } from './response.ts'
import type { SpokenElement } from './spokenElement.ts'

/** What a cue is to one of the elements that have it. */
export interface CueOwner {
  /** Place of the element. */
  readonly element: number
  /** The value that it is said before, or is; words after all values are their own part. */
  readonly part: string
  /** The kind of that value; undefined where none follows. */
  readonly spec: KindSpec | undefined
  /** Nothing that must be said stands before it: "hold short" begins its element, its "runway" only goes on with it. */
  readonly begins: boolean
  /** It is the value, not what stands before one. */
  readonly isValue: boolean
  /** A name of the kind ("stand", "taxiway"), and no word of the response. */
  readonly isImplied: boolean
}

export interface Cue {
  /** Words of a value as they sound, others as they are. */
  readonly words: readonly string[]
  readonly isValue: boolean
  /** Mostly one. */
  readonly owners: readonly CueOwner[]
}

/** What is known of the words of some elements. */
export interface Cues {
  /** Longest first. */
  readonly all: readonly Cue[]
  /** Element -> words that its response has and that say nothing by themselves: the "to" of "climb to". */
  readonly leads: readonly ReadonlySet<string>[]
  /** Element -> the words that a value of letters may begin with, where its response has "at" before one: "at charlie three". */
  readonly places: readonly (ReadonlySet<string> | undefined)[]
  /** Element -> words that join pieces of its value: another "via" of a route begins no other one. */
  readonly joints: readonly ReadonlySet<string>[]
}

export function cuesOf(elements: readonly SpokenElement[], specs: Specs): Cues {
  const responses = elements.map(({ response }) => response)
  return cuesOfResponses(allOf(responses), specs, responses)
}

const cuesOfResponses = madeOnce((_whole, specs, responses: readonly Response[]): Cues => {
  const paths = responses.map((response) => response.paths)
  return {
    all: merged(paths.map((own) => own.flatMap((path) => ownCues(path, specs)))),
    leads: paths.map((own) => new Set(own.flat().flatMap(literalWords).filter(isLittleWord))),
    places: paths.map((own) => placesIn(own, specs)),
    joints: paths.map((own) => new Set(own.flat().flatMap((slot) => jointsOf(slot, specs)))),
  }
})

/** The cue that begins with a token, if there is one. */
export function cueAt({ all }: Cues, tokens: readonly Token[], at: number): Cue | undefined {
  return all.find(({ words, isValue }) =>
    words.every((word, index) => {
      const token = tokens[at + index]
      return token !== undefined && (isValue ? soundOf(token) : token.text) === word
    }),
  )
}

type OwnCue = Omit<CueOwner, 'element'> & { readonly words: readonly string[] }

/** Each cue once, with all elements that have it; a name of a kind is nobody's where it is a word of some element's own. */
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

/** Neither names anything; "point" is rather that of a number. */
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
    // "Twelve" is a number like others, whatever has it for a name.
    return tokens.every(isNumberToken) ? [] : [{ words: tokens.map(soundOf), isValue: true, isImplied: false }]
  })
