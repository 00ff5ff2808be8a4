/** Named positions: each option has its own spoken forms. */

import { readNumber } from '../numbers/readings.ts'
import { isHomophone, soundOf, type Token, tokensOf } from '../numbers/tokens.ts'
import { asWritten } from './codes.ts'
import { SLIP, type TextKind } from './definition.ts'
import { affixTable, type Reading } from './reading.ts'
import { TWIN } from './shapes.ts'
import type { Value } from './value.ts'

export interface ChoiceSpec {
  readonly kind: 'choice'
  /** Option -> every way to say it, the first one being the way the voice says it. */
  readonly options: Readonly<Record<string, readonly string[]>>
}

/** Words beside an option that say nothing: "flaps five degrees". */
const AFFIXES = affixTable([[{ role: 'unit' }, ['degrees', 'degree', 'units', 'unit', 'percent']]])

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

function readChoice(tokens: readonly Token[], spec: ChoiceSpec): readonly Reading[] {
  const { options } = formsOf(spec)
  const bare = tokens.filter((token) => !AFFIXES.has(token.text))
  const found = [tokens, bare].flatMap((words) => keysOf(words).map((key) => options.get(key)))
  const option = found.find((each) => each)
  // In a name a digit may be written as what sounds like it; a number is to be one.
  if (option) return [{ value: option, standard: !bare.every((token) => token.number) || !bare.some(isHomophone) }]
  const value = bare.map((token) => token.text).join(' ')
  return bare.some((token) => token.number) ? [{ value, standard: true, implausible: true }] : []
}

function sayChoice(value: Value, { options }: ChoiceSpec): string {
  const option = String(value)
  return (Object.hasOwn(options, option) ? options[option]?.[0] : undefined) ?? option
}

export const choice: TextKind<ChoiceSpec> = {
  values: 'text',
  fields: { options: { type: 'textsByName' } },
  written: ({ options }) => `one of its positions: ${Object.keys(options).join(', ')}`,
  isWritten: (value, { options }) => Object.hasOwn(options, String(value)),
  tidied: (text) => text.trim(),
  canonical: asWritten,

  affixes: () => AFFIXES,
  nouns: ['flap', 'flaps'],
  read: readChoice,
  say: sayChoice,
  // A position's own words stay as they are.
  sayOnRadio: sayChoice,
  show: String,

  heard: {
    shapes: () => ['d', ...TWIN],
    before: [],
    behind: [],
    openings: [],
    mostDigits: () => 3 + SLIP,
    isWhole: () => true,
    isOfOneLength: false,
    isSpelled: false,
  },
  mayBeCutShort: false,
  isOwnWord: ({ canon }, spec) => formsOf(spec).words.has(canon),
  options: ({ options }) => options,
  mistake(value, { options }, chance) {
    const others = Object.keys(options).filter((option) => option !== String(value))
    return others.length > 0 ? chance.pick(others) : undefined
  },
  isReadBack: false,
}
