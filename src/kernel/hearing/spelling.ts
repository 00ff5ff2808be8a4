/** What values have besides numbers: letters of the alphabet, names, and rules of a kind's own (`kinds/`). */

import { anyPhrase, type Rule } from '../grammarRules.ts'
import { KIND_NAMES, KINDS, type KindSpec, kindOf } from '../kinds/kind.ts'

/** ICAO Annex 10 volume II, 5.2.1.3 (from memory), one token each. */
export const LETTERS: readonly string[] = [
  ...['alfa', 'bravo', 'charlie', 'delta', 'echo', 'foxtrot', 'golf', 'hotel', 'india', 'juliett', 'kilo', 'lima'],
  ...['mike', 'november', 'oscar', 'papa', 'quebec', 'romeo', 'sierra', 'tango', 'uniform', 'victor', 'whiskey'],
  ...['xray', 'yankee', 'zulu'],
]

/** Signs that shapes have besides those of number words: a letter, and those of a kind's own -> their rules. */
export const SPELLING_RULES: Readonly<Record<string, string>> = {
  l: 'letter',
  ...Object.fromEntries(Object.values(KINDS).flatMap(({ heard: { own } }) => (own ? [[own.sign, own.rule]] : []))),
}

/** The names that a value may begin with, in lower case: the designators of a call sign. */
export function namesIn(spec: KindSpec): string[] {
  const names = kindOf(spec).names?.(spec) ?? []
  return names.map((name) => name.toLowerCase().split(/\s+/).join(' '))
}

/** The kinds whose values hold letters of the alphabet. */
export const isSpelled = (spec: KindSpec) => kindOf(spec).heard.isSpelled

/** The rules that those signs stand for; only what the kinds asked for need. `known`: designators that can be heard. */
export function spellingRules(shapes: readonly KindSpec[], known: readonly string[]): Rule[] {
  const names = [...new Set(shapes.flatMap(namesIn))].filter((name) => known.includes(name)).sort()
  const asked = KIND_NAMES.filter((name) => shapes.some(({ kind }) => kind === name))
  return [
    ...(shapes.some(isSpelled) ? [{ name: 'letter', expansion: anyPhrase(LETTERS) }] : []),
    ...asked.flatMap((name) => KINDS[name].heard.own?.rules(names) ?? []),
  ]
}
