/**
 * What a briefing must never say, for it could kill: "after V one we stop"; and what is said in its place. A condition and
 * what is done then, in either order; the action that belongs to it is the one right before it that no other condition has,
 * else the first behind it.
 */

import { isWord, type Token } from '../numbers/tokens.ts'
import { isNegation } from './lexicon.ts'

export interface Never {
  /** Conditions: "after V one". */
  readonly when: readonly string[]
  /** What is not done then, each as one word or several. */
  readonly do: readonly string[]
  /** What is done then. */
  readonly instead: readonly string[]
}

/** What was said of a condition: whose it is, and from which token to which. */
export interface OfCondition {
  readonly topic: number
  /** What must never be said; else what is done then. */
  readonly isContrary: boolean
  readonly from: number
  readonly to: number
  /** Nothing else was said of the same condition after it. */
  readonly stands: boolean
}

/** Words between an action and the condition behind it: "we stop on the runway after V one". */
const CLOSE = 4

/** How far behind "not" what it denies may stand. */
const NEAR: ReadonlySet<number> = new Set([1, 2])

interface Found {
  readonly phrase: string
  readonly from: number
  readonly to: number
}

/** In their order. `rules`: those of each topic. */
export function conditionsIn(rules: readonly (readonly Never[])[], tokens: readonly Token[]): readonly OfCondition[] {
  const all = rules.flat()
  if (all.length === 0) return []
  const conditions = foundIn(new Set(all.flatMap(({ when }) => when)), tokens)
  const named = foundIn(new Set(all.flatMap((rule) => [...rule.do, ...rule.instead])), tokens)
  const isNot = (at: number) => isNegation(tokens[at]?.text ?? '')
  const actions = named.filter(({ from }) => !isNot(from - 1) && !isNot(from - 2))
  // "We will never, whatever comes, stop" is no stop; "no stop, we continue" goes on.
  const isDenied = (from: number, to: number) =>
    tokens.slice(from, to).some((_, at) => isNot(from + at) && !named.some((one) => NEAR.has(one.from - from - at)))
  const taken = new Set<Found>()
  const said: (OfCondition & { readonly rule: Never })[] = []
  for (const [index, condition] of conditions.entries()) {
    const until = conditions[index + 1]?.from ?? tokens.length
    const before = actions.findLast(
      (one) => one.to <= condition.from && condition.from - one.to <= CLOSE && !taken.has(one),
    )
    const first = before ?? actions.find((one) => one.from >= condition.to && one.from < until && !taken.has(one))
    if (!first) continue
    const isCorrected = (one: Found) => tokens.slice(first.to, one.from).some(({ text }) => text === 'correction')
    const action = actions.findLast((one) => one.from > first.from && one.from < until && isCorrected(one)) ?? first
    taken.add(action)
    const [from, to] = [Math.min(condition.from, action.from), Math.max(condition.to, action.to)]
    for (const [topic, own] of rules.entries()) {
      for (const rule of own.filter(({ when }) => when.includes(condition.phrase))) {
        const isContrary = rule.do.includes(action.phrase)
        said.push({ rule, topic, from, to, isContrary, stands: isContrary || !isDenied(Math.max(0, from - CLOSE), to) })
      }
    }
  }
  const isLast = (one: (typeof said)[number]) => said.findLast(({ rule }) => rule === one.rule) === one
  return said.map((one) => ({ ...one, stands: one.stands && isLast(one) }))
}

/** Where the phrases stand, in their order; of those that begin at one place the longest. */
function foundIn(phrases: ReadonlySet<string>, tokens: readonly Token[]): readonly Found[] {
  const longestFirst = [...phrases].sort((one, other) => other.length - one.length)
  return tokens.flatMap((_, from) => {
    const phrase = longestFirst.find((text) =>
      text
        .toLowerCase()
        .split(' ')
        .every((word, at) => {
          const token = tokens[from + at]
          return token !== undefined && isWord(token, word)
        }),
    )
    return phrase === undefined ? [] : [{ phrase, from, to: from + phrase.split(' ').length }]
  })
}
