/** A response as a sentence: with its figures as the other pilot says it, or without their values. */

import { isGauge, type Judged, type Phraseology } from '../kinds/kind.ts'
import { sayValue } from '../kinds/table.ts'
import { ownOf } from '../own.ts'
import type { Expansion } from './expansion.ts'
import { areContrary, isNegation, opposites } from './lexicon.ts'
import type { Response } from './response.ts'
import { SYNONYMS } from './synonyms.ts'

/** The answer in words: the first of each alternative that has any, optional parts too; a figure without a value is left out. */
export function sayResponse(response: Response, figures: Judged, phraseology: Phraseology): string {
  return outlineOf(response, (name) => {
    const figure = ownOf(figures, name)
    return figure && !isGauge(figure) ? sayValue(figure, phraseology) : ''
  })
}

/** What is to be said, with something else in the place of the values: "flap …". */
export function outlineOf(response: Response, write: (figure: string) => string): string {
  return sentence(response.tree, write)
}

/** The same with all that may be said instead and means something else: "left or right", "up or ten". */
export function outlineOfAll(response: Response, write: (figure: string) => string): string {
  return sentence(response.tree, write, differentOf)
}

/** Where a value is to be said that nobody is told. */
export const GAP = '…'

/** The first of its ways: "engine stable at … percent". */
export const usualWording = (response: Response): string => outlineOf(response, () => GAP)

type Either = (options: readonly Expansion[], write: (option: Expansion) => string) => string

function sentence(node: Expansion, write: (figure: string) => string, either: Either = firstOf): string {
  const inner = (part: Expansion) => sentence(part, write, either)
  switch (node.type) {
    case 'words':
      return node.words.map(capitalLetter).join(' ')
    case 'figure':
      return write(node.name)
    case 'optional':
      // Of what need not be said, one way is enough unless another says the contrary.
      return sentence(node.part, write, either === firstOf ? firstOf : contraryOf)
    case 'either':
      return either(node.options, inner)
    case 'sequence':
      return node.parts.reduce((said, part) => followed(said, part, inner(part)), '')
  }
}

/** Only what is said is written: whoever notes figures notes none of another way. */
const firstOf: Either = (options, write) => {
  for (const option of options) {
    const text = write(option)
    if (text !== '') return text
  }
  return ''
}

const contraryOf: Either = (options, write) => {
  const kept: string[] = []
  for (const text of options.map(write).filter((one) => one !== ''))
    if (kept.length === 0 || kept.some((one) => areContrary(one, text))) kept.push(text)
  return kept.join(' or ')
}

/** All that mean something of their own: a card that left one out would be wrong. */
const differentOf: Either = (options, write) => {
  const kept: string[] = []
  for (const text of options.map(write)) if (text !== '' && !kept.some((one) => meansSame(one, text))) kept.push(text)
  return kept.join(' or ')
}

/** "Both latched" and "both doors latched", "set" and "applied"; whatever is not known to mean the same does not. */
function meansSame(one: string, other: string): boolean {
  if (areContrary(one, other) || isDenied(one) !== isDenied(other)) return false
  const [first, second] = [contentOf(one), contentOf(other)]
  const left = first.filter((word) => !second.includes(word))
  const more = second.filter((word) => !first.includes(word))
  if (left.length === 0 || more.length === 0) return first.length > 0 && second.length > 0
  return left.every((word) => more.some((another) => areAlike(word, another))) && left.length === more.length
}

const isDenied = (text: string) => text.toLowerCase().split(' ').some(isNegation)

const contentOf = (text: string) =>
  text
    .toLowerCase()
    .split(' ')
    .filter((word) => !LITTLE.has(word))
const LITTLE: ReadonlySet<string> = new Set(['and', 'the', 'a', 'is', 'are', 'of', 'it', 'both', 'all'])

function areAlike(one: string, other: string): boolean {
  const [against, againstOther] = [opposites(one), opposites(other)]
  const isOneState = against.size > 0 && [...against].every((word) => againstOther.has(word))
  return isOneState || SYNONYMS.some((line) => line.includes(one) && line.includes(other))
}

/** An optional unit is left out where the value has just been said with it. */
function followed(said: string, part: Expansion, text: string): string {
  if (text === '' || (part.type === 'optional' && said.endsWith(` ${text}`))) return said
  return said === '' ? text : `${said} ${text}`
}

/** A letter by itself is one of the alphabet ("V one"), except the article. */
function capitalLetter(word: string): string {
  return /^[b-z]$/.test(word) ? word.toUpperCase() : word
}
