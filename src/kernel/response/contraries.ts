/**
 * What a briefing must never say, for it could kill: "after V one we stop". A condition and what is done then, in either
 * order; the action that belongs to it is the one right before it that no other condition has, else the first behind it.
 */

import type { Token } from '../numbers/tokens.ts'
import { isNegation } from './lexicon.ts'

export interface Never {
  /** Conditions: "after V one". */
  readonly when: readonly string[]
  /** What is not done then, each as one word or several. */
  readonly do: readonly string[]
  /** What is done then. */
  readonly instead: readonly string[]
}

/** A contradiction that was said: whose it is, and from which token to which. */
export interface Contrary {
  readonly topic: number
  readonly from: number
  readonly to: number
  /** Nothing else was said of the same condition after it. */
  readonly stands: boolean
}

/** Words between an action and the condition behind it: "we stop on the runway after V one". */
const CLOSE = 4

interface Found {
  readonly phrase: string
  readonly from: number
  readonly to: number
}

/** In their order; empty where nothing speaks against a topic. `rules`: those of each topic. */
export function contrariesIn(rules: readonly (readonly Never[])[], tokens: readonly Token[]): readonly Contrary[] {
  const all = rules.flat()
  if (all.length === 0) return []
  const conditions = foundIn(new Set(all.flatMap(({ when }) => when)), tokens)
  const actions = foundIn(new Set(all.flatMap((rule) => [...rule.do, ...rule.instead])), tokens).filter(
    ({ from }) => ![tokens[from - 1], tokens[from - 2]].some((token) => token && isNegation(token.text)),
  )
  const taken = new Set<Found>()
  const said: (Contrary & { readonly rule: Never })[] = []
  const last = new Map<Never, Contrary | undefined>()
  for (const [index, condition] of conditions.entries()) {
    const until = conditions[index + 1]?.from ?? tokens.length
    const before = actions.findLast(
      (one) => one.to <= condition.from && condition.from - one.to <= CLOSE && !taken.has(one),
    )
    const action = before ?? actions.find((one) => one.from >= condition.to && one.from < until && !taken.has(one))
    if (!action) continue
    taken.add(action)
    const [from, to] = [Math.min(condition.from, action.from), Math.max(condition.to, action.to)]
    for (const [topic, own] of rules.entries()) {
      for (const rule of own.filter(({ when }) => when.includes(condition.phrase))) {
        const contrary = rule.do.includes(action.phrase) ? { rule, topic, from, to, stands: true } : undefined
        if (contrary) said.push(contrary)
        last.set(rule, contrary)
      }
    }
  }
  return said.map(({ rule, ...contrary }) => ({ ...contrary, stands: last.get(rule)?.from === contrary.from }))
}

/** Where the phrases stand, in their order; of those that begin at one place the longest. */
function foundIn(phrases: ReadonlySet<string>, tokens: readonly Token[]): readonly Found[] {
  const longestFirst = [...phrases].sort((one, other) => other.length - one.length)
  return tokens.flatMap((_, from) => {
    const phrase = longestFirst.find((text) =>
      text
        .toLowerCase()
        .split(' ')
        .every((word, at) => tokens[from + at]?.text === word),
    )
    return phrase === undefined ? [] : [{ phrase, from, to: from + phrase.split(' ').length }]
  })
}
