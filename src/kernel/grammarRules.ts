/**
 * A grammar as data: what may be said, as rules that expand into words. It is made into states for the recogniser
 * (`automaton.ts`), walked word by word by whoever decodes in another way (`grammarWalk.ts`), and printed for people
 * (`jsgf.ts`). Plain data, so that it
 * can be sent to another thread.
 */

export interface Grammar {
  readonly rules: readonly Rule[]
  /** The rule that holds all that may be said. */
  readonly start: string
}

export interface Rule {
  readonly name: string
  readonly expansion: RuleExpansion
}

/** A string is one word, in lower case, as in the recogniser's dictionary. */
export type RuleExpansion =
  | string
  | { readonly type: 'rule'; readonly name: string }
  | { readonly type: 'sequence'; readonly parts: readonly RuleExpansion[] }
  | { readonly type: 'alternatives'; readonly options: readonly Option[] }
  | { readonly type: 'optional'; readonly expansion: RuleExpansion }
  /** Nothing is said. */
  | { readonly type: 'nothing' }

/** One of several alternatives; its weight is relative to those beside it, 1 where none is given. */
export interface Option {
  readonly expansion: RuleExpansion
  readonly weight?: number
}

export const NOTHING: RuleExpansion = { type: 'nothing' }

export const rule = (name: string): RuleExpansion => ({ type: 'rule', name })

export const sequence = (...parts: readonly RuleExpansion[]): RuleExpansion => ({ type: 'sequence', parts })

/** In the text, alternatives inside brackets of another kind keep their own. */
export const group = (expansion: RuleExpansion): RuleExpansion => sequence(expansion)

export const optional = (expansion: RuleExpansion): RuleExpansion => ({ type: 'optional', expansion })

export const weighted = (weight: number, expansion: RuleExpansion): Option => ({ weight, expansion })

/** Nothing where there are no options. */
export function alternatives(...options: readonly (RuleExpansion | Option)[]): RuleExpansion {
  if (options.length === 0) return NOTHING
  const isOption = (one: RuleExpansion | Option): one is Option => typeof one === 'object' && !('type' in one)
  return { type: 'alternatives', options: options.map((one) => (isOption(one) ? one : { expansion: one })) }
}

/** The words of a phrase one after the other; a single one as itself. */
export function phraseWords(phrase: string): RuleExpansion {
  const words = phrase.split(' ')
  return words.length === 1 ? phrase : sequence(...words)
}

export const anyPhrase = (phrases: readonly string[]): RuleExpansion => alternatives(...phrases.map(phraseWords))
