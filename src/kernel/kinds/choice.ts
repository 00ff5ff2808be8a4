/** Named positions (`choice`) and identifiers: letters by the ICAO alphabet with digits, "alfa three". */

import { readNumber } from '../numbers/readings.ts'
import { sayDigits } from '../numbers/say.ts'
import { canonOf, isHomophone, type Token, tokensOf } from '../numbers/tokens.ts'
import type { ChoiceSpec, IdentifierSpec, Phraseology, Value } from './kind.ts'
import { type Affix, type Affixes, affixTable, type Reading } from './reading.ts'

export const ALPHABET: Readonly<Record<string, readonly string[]>> = {
  A: ['alfa', 'alpha'],
  B: ['bravo'],
  C: ['charlie'],
  D: ['delta'],
  E: ['echo'],
  F: ['foxtrot'],
  G: ['golf'],
  H: ['hotel'],
  I: ['india'],
  J: ['juliett', 'juliet'],
  K: ['kilo'],
  L: ['lima'],
  M: ['mike'],
  N: ['november'],
  O: ['oscar'],
  P: ['papa'],
  Q: ['quebec'],
  R: ['romeo'],
  S: ['sierra'],
  T: ['tango'],
  U: ['uniform'],
  V: ['victor'],
  W: ['whiskey', 'whisky'],
  X: ['xray', 'x-ray'],
  Y: ['yankee'],
  Z: ['zulu'],
}

/** A letter by itself is tolerated outside standard phraseology; "o" stays a zero. */
const IDENTIFIER: Affixes = new Map(
  Object.entries(ALPHABET).flatMap(([letter, words]): (readonly [string, Affix])[] => {
    const affix: Affix = { role: 'letter', letter }
    const bare = letter === 'O' ? [] : [letter.toLowerCase()]
    return [...words, ...bare].map((word) => [word, affix] as const)
  }),
)

export function identifierAffixes(): Affixes {
  return IDENTIFIER
}

export function readIdentifier(tokens: readonly Token[], _spec: IdentifierSpec): readonly Reading[] {
  let value = ''
  let standard = true
  for (let i = 0; i < tokens.length; ) {
    const affix = IDENTIFIER.get(tokens[i]?.text ?? '')
    if (affix?.role === 'letter') {
      value += affix.letter
      if (tokens[i]?.text.length === 1) standard = false
      i++
      continue
    }
    let end = i
    while (end < tokens.length && tokens[end]?.number && !IDENTIFIER.has(tokens[end]?.text ?? '')) end++
    const numbers = readNumber(tokens.slice(i, end)).filter((each) => !each.secondary)
    const number = numbers[0]
    if (numbers.length !== 1 || !number || number.fraction !== undefined || number.style === 'scaled') return []
    value += number.whole
    standard &&= number.standard
    i = end
  }
  return value === '' ? [] : [{ value, standard }]
}

/** Words beside an option that say nothing: "flaps five degrees". */
const CHOICE = affixTable([[{ role: 'unit' }, ['degrees', 'degree', 'units', 'unit', 'percent']]])

interface Forms {
  /** Form, by number where it is one, else by its words -> option; empty where two options share it. */
  readonly options: ReadonlyMap<string, string>
  readonly words: ReadonlySet<string>
}

const formsByOptions = new WeakMap<object, Forms>()

/** A number counts as such ("one five" is "fifteen"), anything else word by word. */
function keysOf(tokens: readonly Token[]): readonly string[] {
  const numbers = tokens.every((token) => token.number) ? readNumber(tokens) : []
  const keys = numbers.filter(({ secondary }) => !secondary).map(({ whole, fraction }) => `#${whole}.${fraction ?? ''}`)
  return keys.length > 0 ? keys : [canonOf(tokens)]
}

/** All forms of a choice, made once for each options table. */
function formsOf(spec: ChoiceSpec): Forms {
  const known = formsByOptions.get(spec.options)
  if (known) return known
  const options = new Map<string, string>()
  const words = new Set<string>()
  for (const [option, forms] of Object.entries(spec.options)) {
    const named = /^\d+$/.test(option) || forms.length === 0
    for (const form of named ? [option, ...forms] : forms) {
      const tokens = tokensOf(form)
      for (const token of tokens) words.add(token.canon)
      for (const key of keysOf(tokens)) options.set(key, (options.get(key) ?? option) === option ? option : '')
    }
  }
  const made = { options, words }
  formsByOptions.set(spec.options, made)
  return made
}

export function choiceAffixes(): Affixes {
  return CHOICE
}

/** True for a word that some form of the choice has. */
export function isChoiceWord(spec: ChoiceSpec, token: Token): boolean {
  return formsOf(spec).words.has(token.canon)
}

export function readChoice(tokens: readonly Token[], spec: ChoiceSpec): readonly Reading[] {
  const { options } = formsOf(spec)
  const bare = tokens.filter((token) => !CHOICE.has(token.text))
  const found = [tokens, bare].flatMap((words) => keysOf(words).map((key) => options.get(key)))
  const option = found.find((each) => each)
  if (option) return [{ value: option, standard: !bare.some(isHomophone) }]
  const value = bare.map((token) => token.text).join(' ')
  return bare.some((token) => token.number) ? [{ value, standard: true, implausible: true }] : []
}

export function sayIdentifier(value: Value, phraseology: Phraseology): string {
  const radio = phraseology !== 'plain'
  return [...String(value)].map((each) => ALPHABET[each.toUpperCase()]?.[0] ?? sayDigits(each, radio)).join(' ')
}

export function sayChoice(value: Value, spec: ChoiceSpec): string {
  return spec.options[String(value)]?.[0] ?? String(value)
}
