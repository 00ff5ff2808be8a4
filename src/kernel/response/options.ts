/**
 * The options of a choice as they are said: each is heard as a whole, so that a number beside it is no part of it, and a
 * word of its own that sounds like a number is that word ("lantern to alfa" is "lantern two alfa").
 */

import { type KindSpec, kindOf } from '../kinds/kind.ts'
import { isNumberToken, soundOf, type Token, tokensOf } from '../numbers/tokens.ts'

interface Options {
  /** As they sound, the longest first. Those of numbers alone are values like others, and left out. */
  readonly named: readonly (readonly string[])[]
  /** One of them is a number and nothing else. */
  readonly hasNumber: boolean
}

const made = new WeakMap<object, Options>()

function optionsOf(spec: KindSpec): Options | undefined {
  const options = kindOf(spec).options?.(spec)
  return options && (made.get(options) ?? makeOptions(options))
}

function makeOptions(options: Readonly<Record<string, readonly string[]>>): Options {
  const ways = Object.values(options).flatMap((texts) => texts.map(tokensOf))
  const named = ways.filter(([first]) => first !== undefined && first.number === undefined)
  const all: Options = {
    named: named.map((tokens) => tokens.map(soundOf)).sort((one, other) => other.length - one.length),
    hasNumber: Object.keys(options).some((name) => /^\d+$/.test(name)) || ways.some((way) => way.every(isNumberToken)),
  }
  made.set(options, all)
  return all
}

/** Whether a number may be meant: always, unless the values have names and none of them is a number alone. */
export const mayBeNumber = (spec: KindSpec): boolean => optionsOf(spec)?.hasNumber ?? true

/** End of the longest option that begins at `at`, or `at` where none does. */
export function optionEnd(specs: readonly (KindSpec | undefined)[], tokens: readonly Token[], at: number): number {
  const ends = specs.map((spec) => {
    const options = spec && optionsOf(spec)
    return options ? endOf(options, tokens, at) : at
  })
  return Math.max(at, ...ends)
}

function endOf({ named }: Options, tokens: readonly Token[], at: number): number {
  const found = named.find(
    (words) =>
      words.every((word, index) => {
        const token = tokens[at + index]
        return token !== undefined && soundOf(token) === word
      }) && isClosed(named, words, tokens, at),
  )
  return at + (found?.length ?? 0)
}

/** At its end a word that only sounds like a number may be the first of what follows: "corrie, to five thousand". */
function isClosed(
  named: readonly (readonly string[])[],
  words: readonly string[],
  tokens: readonly Token[],
  at: number,
): boolean {
  const [last, next] = [tokens[at + words.length - 1], tokens[at + words.length]]
  if (!last || soundOf(last) === last.canon) return true
  const shorter = words.slice(0, -1).join(' ')
  return !(next && isNumberToken(next)) && !named.some((other) => other.join(' ') === shorter)
}
