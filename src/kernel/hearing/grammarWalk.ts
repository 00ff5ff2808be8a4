/**
 * Which words may follow, by a grammar, one word at a time; weights do not count. For a decoder that is not the
 * recogniser. Pure.
 */

import { type Grammar, type RuleExpansion, rule } from '../grammarRules.ts'

/** Where what was said so far may have led to in the grammar. */
export interface GrammarState {
  readonly next: ReadonlyMap<string, () => GrammarState>
  /** Nothing more need be said. */
  readonly isFinal: boolean
}

/**
 * What is still to come: an expansion, and what follows it. There is only one of each, so that a place that is reached
 * in several ways is visited once.
 */
interface Rest {
  readonly head: RuleExpansion
  readonly tail: Rest | undefined
  /** Those that this one is the tail of, by their heads. */
  readonly before: Map<RuleExpansion, Rest>
}

/** The state before the first word. Words in `without` cannot be said. */
export function startOf(grammar: Grammar, without: ReadonlySet<string> = new Set()): GrammarState {
  const rules = new Map(grammar.rules.map(({ name, expansion }) => [name, expansion]))
  const last = new Map<RuleExpansion, Rest>()
  const rest = (head: RuleExpansion, tail: Rest | undefined): Rest => {
    const before = tail?.before ?? last
    const made = before.get(head) ?? { head, tail, before: new Map() }
    before.set(head, made)
    return made
  }

  function stateOf(places: Iterable<Rest | undefined>): GrammarState {
    const byWord = new Map<string, Set<Rest | undefined>>()
    const seen = new Set<Rest | undefined>()
    const visit = (at: Rest | undefined): void => {
      if (seen.has(at)) return
      seen.add(at)
      if (!at) return
      const { head, tail } = at
      if (typeof head === 'string') {
        if (!without.has(head)) byWord.set(head, (byWord.get(head) ?? new Set()).add(tail))
        return
      }
      switch (head.type) {
        case 'rule': {
          const expansion = rules.get(head.name)
          // A rule that does not exist is a bug, and no way out of the sentence.
          if (expansion === undefined) throw new Error(`the grammar has no rule <${head.name}>`)
          visit(rest(expansion, tail))
          return
        }
        case 'alternatives':
          for (const { expansion } of head.options) visit(rest(expansion, tail))
          return
        case 'optional':
          visit(rest(head.expansion, tail))
          visit(tail)
          return
        case 'sequence':
          visit(head.parts.reduceRight<Rest | undefined>((later, part) => rest(part, later), tail))
          return
        case 'nothing':
          visit(tail)
          return
        default:
          head satisfies never
      }
    }
    for (const place of places) visit(place)
    const next = new Map<string, () => GrammarState>()
    for (const [word, tails] of byWord) {
      let state: GrammarState | undefined
      next.set(word, () => {
        state ??= stateOf(tails)
        return state
      })
    }
    return { next, isFinal: seen.has(undefined) }
  }

  return stateOf([rest(rule(grammar.start), undefined)])
}
