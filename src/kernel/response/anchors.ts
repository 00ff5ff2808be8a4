/** The words by which each element of a transmission is known: "squawk", "runway", the names of a choice or a call sign. */

import { type KindSpec, kindOf, type Specs } from '../kinds/kind.ts'
import { affixesOf } from '../kinds/table.ts'
import { isNumberToken, tokensOf } from '../numbers/tokens.ts'
import { HARMLESS } from './lexicon.ts'
import type { Path, Phrase, Slot } from './path.ts'
import { phraseStatesOf } from './phraseStates.ts'
import type { SpokenElement } from './spokenElement.ts'

/** What an anchor is to one of the elements that have it. */
export interface Owner {
  /** Place of the element. */
  readonly element: number
  /** The value that it is said before, or is; words behind all values are their own part. */
  readonly part: string
  /** No word that must be said stands before it: "hold short" begins its element, its "runway" only goes on with it. */
  readonly begins: boolean
  /** It is the value, not what stands before one. */
  readonly isValue: boolean
}

export interface Anchor {
  readonly words: readonly string[]
  /** Mostly one. */
  readonly owners: readonly Owner[]
}

/** What is known of the words of some elements. */
export interface Landmarks {
  /** Longest first. */
  readonly anchors: readonly Anchor[]
  /** Element -> words that its response has and that say nothing by themselves: the "to" of "climb to". */
  readonly leads: readonly ReadonlySet<string>[]
  /** Element -> the words that a value of letters may begin with, where its response has "at" before one: "at charlie three". */
  readonly places: readonly (ReadonlySet<string> | undefined)[]
  /** Element -> words that join pieces of its value: another "via" of a route begins no other one. */
  readonly joints: readonly ReadonlySet<string>[]
}

export function landmarksOf(elements: readonly SpokenElement[], specs: Specs): Landmarks {
  const anchors = new Map<string, { words: readonly string[]; owners: Owner[] }>()
  const pathsByElement = elements.map(({ response }) => response.paths)
  pathsByElement.forEach((paths, element) => {
    for (const { words, ...own } of ownPhrases(paths, specs)) {
      const key = words.join(' ')
      const known = anchors.get(key) ?? { words, owners: [] }
      anchors.set(key, known)
      if (!known.owners.some((owner) => owner.element === element)) known.owners.push({ element, ...own })
    }
  })
  return {
    anchors: [...anchors.values()].sort((a, b) => b.words.length - a.words.length),
    leads: pathsByElement.map(
      (paths) =>
        new Set(
          paths
            .flat()
            .flatMap(literalWords)
            .filter((word) => LITTLE.has(word)),
        ),
    ),
    places: pathsByElement.map((paths) => placesIn(paths, specs)),
    joints: pathsByElement.map((paths) => new Set(paths.flat().flatMap((slot) => jointsOf(slot, specs)))),
  }
}

const literalWords = (slot: Slot): readonly string[] =>
  (slot.type === 'word' ? slot.wordings : slot.labels).flatMap(({ words }) => words)

function placesIn(paths: readonly Path[], specs: Specs): ReadonlySet<string> | undefined {
  if (!paths.flat().flatMap(literalWords).includes('at')) return undefined
  const figure = paths.flat().find(({ type }) => type === 'figure')
  const spec = figure && Object.hasOwn(specs, figure.name) ? specs[figure.name] : undefined
  if (spec?.kind !== 'identifier') return undefined
  return new Set([...affixesOf(spec)].flatMap(([word, { role }]) => (role === 'letter' ? [word] : [])))
}

function jointsOf(slot: Slot, specs: Specs): string[] {
  const spec = slot.type === 'figure' && Object.hasOwn(specs, slot.figure) ? specs[slot.figure] : undefined
  return spec ? [...affixesOf(spec)].flatMap(([word, { role }]) => (role === 'joint' ? [word] : [])) : []
}

/** Neither names anything; "point" is rather that of a number. */
const LITTLE = new Set(['to', 'of', 'on', 'at', 'for', 'point'])

type OwnPhrase = Omit<Owner, 'element'> & { readonly words: readonly string[] }

function ownPhrases(paths: readonly Path[], specs: Specs): OwnPhrase[] {
  return paths.flatMap((path) =>
    path.flatMap((slot, index) => {
      const begins = !path.slice(0, index).some(({ type, required }) => type === 'word' && required)
      const value = path.slice(index).find(({ type }) => type === 'figure') ?? slot
      return phrasesOfSlot(slot, specs).map((phrase) => ({ ...phrase, part: value.name, begins }))
    }),
  )
}

function phrasesOfSlot(slot: Slot, specs: Specs): Pick<OwnPhrase, 'words' | 'isValue'>[] {
  const plain = (lists: readonly (readonly string[])[]) => lists.map((words) => ({ words, isValue: false }))
  const telling = (lists: readonly (readonly string[])[]) =>
    plain(lists.filter((words) => !words.every((word) => HARMLESS.has(word) || LITTLE.has(word))))
  const wordsOf = (phrases: readonly Phrase[]) => phrases.map(({ words }) => words)
  if (slot.type === 'word') {
    const states = slot.wordings.map(({ words }) => phraseStatesOf(words))
    const others = states.flatMap(({ same, against, knownBy }) => [...same, ...against, ...knownBy.map((one) => [one])])
    return [...telling(wordsOf(slot.wordings)), ...plain(others)]
  }
  const spec = Object.hasOwn(specs, slot.figure) ? (specs[slot.figure] as KindSpec) : undefined
  return [...telling(wordsOf(slot.labels)), ...(spec ? namesOf(spec) : [])]
}

/** Words by which a value of a kind is known without a label. */
function namesOf(spec: KindSpec): Pick<OwnPhrase, 'words' | 'isValue'>[] {
  const named = (texts: readonly string[], isValue: boolean) =>
    texts.flatMap((text) => {
      const tokens = tokensOf(text)
      // "Twelve" is a number like others, whatever has it for a name.
      return tokens.every(isNumberToken) ? [] : [{ words: tokens.map((token) => token.text), isValue }]
    })
  const { options, names, nouns } = kindOf(spec)
  if (options) return named(Object.values(options(spec)).flat(), true)
  return names ? named(names(spec), true) : named(nouns, false)
}
