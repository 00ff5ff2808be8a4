/**
 * A grammar as the recogniser searches it: states and words between them. Whatever may follow in the same way is one
 * state, so that a grammar of several thousand places has a few hundred: what the recogniser needs to take it in, and to
 * search it, grows with them. Pure.
 */

import type { Grammar, Option, RuleExpansion } from '../grammarRules.ts'

/** States are numbered from 0. */
export interface Automaton {
  readonly states: number
  readonly start: number
  readonly final: number
  readonly arcs: readonly Arc[]
}

export interface Arc {
  readonly from: number
  readonly to: number
  /** None: nothing is said. No such arc leads to a state that another one leaves. */
  readonly word?: string
  /** Natural logarithm, at most 0. The weights of options that stand side by side add up to 1. */
  readonly logProb: number
}

/** The same without what cannot be said, by its words: one word without a pronunciation makes all of it unusable. */
export function sayable(automaton: Automaton, isSayable: (word: string) => boolean): Automaton {
  const arcs = automaton.arcs.filter(({ word }) => word === undefined || isSayable(word))
  if (arcs.length === automaton.arcs.length) return automaton
  // A sentence has to have a beginning and an end.
  const begun = closure(automaton.start, arcs)
  const ended = closure(
    automaton.final,
    arcs.map(({ from, to }) => ({ from: to, to: from })),
  )
  return { ...automaton, arcs: arcs.filter(({ from, to }) => begun.has(from) && ended.has(to)) }
}

/** Every state that some of these lead to from one. */
function closure(first: number, arcs: readonly Pick<Arc, 'from' | 'to'>[]): ReadonlySet<number> {
  const reached = new Set([first])
  for (let before = 0; before < reached.size; ) {
    before = reached.size
    for (const { from, to } of arcs) if (reached.has(from)) reached.add(to)
  }
  return reached
}

/** A way on from a state: by a word, or without one. */
interface Way {
  readonly to: number
  readonly word?: string
  readonly logProb: number
}

/** A state without words leads only to states with more words than this: fewer are copied instead. */
const MOST_COPIED = 24

/** Throws where a rule does not exist: a bug. */
export function automatonOf({ rules, start }: Grammar): Automaton {
  const expansions = new Map(rules.map(({ name, expansion }) => [name, expansion]))
  const recursive = recursiveRules(expansions)
  const states: (readonly Way[])[] = []
  const known = new Map<string, number>()
  const begun = new Map<string, number>()

  const add = (ways: readonly Way[]) => states.push(ways) - 1
  const final = add([])

  /** The one state with these ways on. */
  function stateOf(ways: readonly Way[]): number {
    const [only] = ways
    if (only && ways.length === 1 && only.word === undefined && only.logProb === 0) return only.to
    const key = ways.map(({ word = '', to, logProb }) => `${word}>${to}@${logProb}`).join(' ')
    const at = known.get(key) ?? add(ways)
    known.set(key, at)
    return at
  }

  function ways(expansion: RuleExpansion, next: number, logProb: number): readonly Way[] {
    if (typeof expansion === 'string') return [{ word: expansion, to: next, logProb }]
    switch (expansion.type) {
      case 'nothing':
        return [{ to: next, logProb }]
      case 'rule':
        return ofRule(expansion.name, next, logProb)
      case 'sequence': {
        const [first, ...others] = expansion.parts
        if (first === undefined) return [{ to: next, logProb }]
        return ways(
          first,
          others.reduceRight<number>((to, part) => stateOf(ways(part, to, 0)), next),
          logProb,
        )
      }
      case 'alternatives':
        return ofOptions(expansion.options, next, logProb, 0)
      case 'optional': {
        const { expansion: inner } = expansion
        const isChoice = typeof inner === 'object' && inner.type === 'alternatives'
        return ofOptions(isChoice ? inner.options : [{ expansion: inner }], next, logProb, 1)
      }
      default:
        return expansion satisfies never
    }
  }

  /** `nothing` is the weight of saying none of them. */
  function ofOptions(options: readonly Option[], next: number, logProb: number, nothing: number): readonly Way[] {
    const all = options.reduce((sum, { weight = 1 }) => sum + weight, nothing)
    return [
      ...(nothing > 0 ? [{ to: next, logProb: logProb + Math.log(nothing / all) }] : []),
      ...options.flatMap(({ expansion, weight = 1 }) => ways(expansion, next, logProb + Math.log(weight / all))),
    ]
  }

  /** A rule that leads back to itself has a state of its own to lead back to. */
  function ofRule(name: string, next: number, logProb: number): readonly Way[] {
    const expansion = expansions.get(name)
    if (expansion === undefined) throw new Error(`the grammar has no rule <${name}>`)
    if (!recursive.has(name)) return ways(expansion, next, logProb)
    const key = `${name} ${next}`
    let at = begun.get(key)
    if (at === undefined) {
      at = add([])
      begun.set(key, at)
      states[at] = ways(expansion, next, 0)
    }
    return [{ to: at, logProb }]
  }

  const first = stateOf(ofRule(start, final, 0))
  return numbered(merged(withoutDetours(states, final), first), first, final)
}

/** Those that name themselves, at whatever distance. */
function recursiveRules(expansions: ReadonlyMap<string, RuleExpansion>): ReadonlySet<string> {
  const named = new Map([...expansions].map(([name, expansion]) => [name, namesIn(expansion)]))
  const leadsTo = (from: string, name: string, seen: Set<string>): boolean =>
    (named.get(from) ?? []).some((next) => {
      if (next === name) return true
      if (seen.has(next)) return false
      seen.add(next)
      return leadsTo(next, name, seen)
    })
  return new Set([...named.keys()].filter((name) => leadsTo(name, name, new Set())))
}

function namesIn(expansion: RuleExpansion): readonly string[] {
  if (typeof expansion === 'string') return []
  switch (expansion.type) {
    case 'rule':
      return [expansion.name]
    case 'sequence':
      return expansion.parts.flatMap(namesIn)
    case 'alternatives':
      return expansion.options.flatMap((option) => namesIn(option.expansion))
    case 'optional':
      return namesIn(expansion.expansion)
    case 'nothing':
      return []
    default:
      return expansion satisfies never
  }
}

/** Every way without a word leads to the end, or at once to a state that has many words. */
function withoutDetours(states: readonly (readonly Way[])[], final: number): (readonly Way[])[] {
  const wordsOf = states.map((ways) => ways.filter(({ word }) => word !== undefined))
  return states.map((_, from) =>
    [...reached(states, from)].flatMap(([to, logProb]): readonly Way[] => {
      const words = wordsOf[to] ?? []
      if (to === from) return words
      const copied = words.length <= MOST_COPIED ? words.map((way) => ({ ...way, logProb: way.logProb + logProb })) : []
      return to === final || copied.length < words.length ? [...copied, { to, logProb }] : copied
    }),
  )
}

/** The states that can be reached without a word, with the likeliest way to each. */
function reached(states: readonly (readonly Way[])[], from: number): ReadonlyMap<number, number> {
  const best = new Map([[from, 0]])
  const open = [from]
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    const sofar = best.get(at) ?? 0
    for (const { word, to, logProb } of states[at] ?? []) {
      if (word !== undefined || (best.get(to) ?? Number.NEGATIVE_INFINITY) >= sofar + logProb) continue
      best.set(to, sofar + logProb)
      open.push(to)
    }
  }
  return best
}

/** States with the same ways on become one, again and again until none are left. */
function merged(states: readonly (readonly Way[])[], first: number): ReadonlyMap<number, readonly Way[]> {
  let left = new Map([...states.entries()])
  for (;;) {
    const byKey = new Map<string, number>()
    const one = new Map<number, number>()
    // The first state keeps its number.
    for (const at of [first, ...left.keys()]) {
      const key = (left.get(at) ?? []).map(({ word = '', to, logProb }) => `${word}>${to}@${logProb}`).sort()
      const same = byKey.get(key.join(' ')) ?? at
      byKey.set(key.join(' '), same)
      if (!one.has(at)) one.set(at, same)
    }
    const fewer = new Map(
      [...left]
        .filter(([at]) => one.get(at) === at)
        .map(([at, ways]) => [at, ways.map((way) => ({ ...way, to: one.get(way.to) ?? way.to }))]),
    )
    if (fewer.size === left.size) return fewer
    left = fewer
  }
}

/** Only what can be reached, numbered from 0. */
function numbered(states: ReadonlyMap<number, readonly Way[]>, start: number, final: number): Automaton {
  const numbers = new Map<number, number>()
  const order: number[] = []
  const numberOf = (at: number): number => {
    const known = numbers.get(at)
    if (known !== undefined) return known
    numbers.set(at, order.length)
    return order.push(at) - 1
  }
  numberOf(start)
  numberOf(final)
  const arcs: Arc[] = []
  for (let from = 0; from < order.length; from++) {
    for (const { to, ...way } of states.get(order[from] as number) ?? []) arcs.push({ from, to: numberOf(to), ...way })
  }
  return { states: order.length, start: numberOf(start), final: numberOf(final), arcs }
}
