/** Named positions: each option has its own spoken forms. */

import { readNumber } from '../numbers/readings.ts'
import { isHomophone, soundOf, type Token, tokensOf } from '../numbers/tokens.ts'
import type { ChoiceSpec, Value } from './kind.ts'
import { type Affixes, affixTable, type Reading } from './reading.ts'

/** Words beside an option that say nothing: "flaps five degrees". */
const CHOICE = affixTable([[{ role: 'unit' }, ['degrees', 'degree', 'units', 'unit', 'percent']]])

interface Forms {
  /** Form, by number where it is one, else by its words -> option; empty where two options share it. */
  readonly options: ReadonlyMap<string, string>
  readonly words: ReadonlySet<string>
}

const formsByOptions = new WeakMap<object, Forms>()

/** A number counts as such ("one five" is "fifteen"), anything else word by word, as it sounds. */
function keysOf(tokens: readonly Token[]): readonly string[] {
  const numbers = tokens.every((token) => token.number) ? readNumber(tokens) : []
  const keys = numbers.filter(({ secondary }) => !secondary).map(({ whole, fraction }) => `#${whole}.${fraction ?? ''}`)
  return keys.length > 0 ? keys : [tokens.map(soundOf).join('')]
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
  // In a name a digit may be written as what sounds like it; a number is to be one.
  if (option) return [{ value: option, standard: !bare.every((token) => token.number) || !bare.some(isHomophone) }]
  const value = bare.map((token) => token.text).join(' ')
  return bare.some((token) => token.number) ? [{ value, standard: true, implausible: true }] : []
}

export function sayChoice(value: Value, spec: ChoiceSpec): string {
  return spec.options[String(value)]?.[0] ?? String(value)
}
