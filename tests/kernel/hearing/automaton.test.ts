import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import {
  alternatives,
  type Grammar,
  NOTHING,
  optional,
  type RuleExpansion,
  rule,
  sequence,
  weighted,
} from '../../../src/kernel/grammarRules.ts'
import { type Automaton, automatonOf, sayable } from '../../../src/kernel/hearing/automaton.ts'
import { grammarOf } from '../../../src/kernel/hearing/grammar.ts'
import { type GrammarState, startOf } from '../../../src/kernel/hearing/grammarWalk.ts'
import type { Hearable, Vocabulary } from '../../../src/kernel/hearing/hearable.ts'
import { talkOf } from '../../../src/kernel/hearing/talk.ts'
import { vocabularyOf } from '../../../src/kernel/hearing/vocabulary.ts'
import { cases } from '../../cases.ts'
import { packAt } from '../figures/marram.ts'

const one = (expansion: RuleExpansion): Grammar => ({ start: 'heard', rules: [{ name: 'heard', expansion }] })

/** The likeliest way through a text, as a probability; 0 where there is none. */
function probability({ arcs, start, final }: Automaton, text: string): number {
  const past = (at: ReadonlyMap<number, number>) => {
    const all = new Map(at)
    for (const { from, to, word, logProb } of arcs) {
      const sofar = at.get(from)
      if (word !== undefined || sofar === undefined) continue
      all.set(to, Math.max(all.get(to) ?? 0, sofar * Math.exp(logProb)))
    }
    return all
  }
  let at: ReadonlyMap<number, number> = past(new Map([[start, 1]]))
  for (const said of text === '' ? [] : text.split(' ')) {
    const next = new Map<number, number>()
    for (const { from, to, word, logProb } of arcs) {
      const sofar = at.get(from)
      if (word !== said || sofar === undefined) continue
      next.set(to, Math.max(next.get(to) ?? 0, sofar * Math.exp(logProb)))
    }
    at = past(next)
  }
  return at.get(final) ?? 0
}

describe('without what cannot be said', () => {
  const all = automatonOf(one(alternatives('on', sequence('qwx', 'set'), sequence('not', 'qwx'))))

  it('what is left is as likely as before, and nothing is begun that has no end', () => {
    const left = sayable(all, (word) => word !== 'qwx')
    expect(probability(left, 'on')).toBeCloseTo(1 / 3)
    expect(left.arcs.flatMap(({ word }) => word ?? [])).toEqual(['on'])
  })

  it('where all can be said nothing changes', () => {
    expect(sayable(all, () => true)).toBe(all)
  })
})

describe('the states of a grammar', () => {
  it.each<[string, RuleExpansion, Record<string, number>]>([
    ['a word', 'set', { set: 1, '': 0, 'set set': 0 }],
    ['alternatives that are alike', alternatives('on', 'off', 'set'), { on: 1 / 3, set: 1 / 3 }],
    ['weights', alternatives(weighted(3, 'on'), 'off'), { on: 0.75, off: 0.25 }],
    ['a phrase', alternatives('on', sequence('not', 'set')), { 'not set': 0.5, not: 0 }],
    ['what may be left out', sequence('on', optional('now')), { on: 0.5, 'on now': 0.5 }],
    ['one of several, or none', sequence('on', optional(alternatives('now', 'here'))), { on: 1 / 3, 'on here': 1 / 3 }],
    ['a choice in a choice', alternatives('on', alternatives('off', 'out')), { on: 0.5, off: 0.25 }],
    ['the likelier of two ways', alternatives(weighted(3, 'on'), sequence('on', NOTHING)), { on: 0.75 }],
    ['nothing at all', NOTHING, { '': 1, on: 0 }],
    [
      'more of the same',
      sequence(alternatives('on', 'off'), alternatives(weighted(3, NOTHING), rule('heard'))),
      { on: 3 / 8, 'on off': (1 / 8) * (3 / 8), '': 0 },
    ],
  ])('%s', (_, expansion, texts) => {
    const automaton = automatonOf(one(expansion))
    for (const [text, expected] of Object.entries(texts)) {
      expect([text, probability(automaton, text)]).toEqual([text, expect.closeTo(expected, 12)])
    }
  })

  it('are one where the same may follow', () => {
    const digits = alternatives('one', 'two', 'three')
    const automaton = automatonOf(
      one(alternatives(sequence('speed', digits, digits), sequence('code', digits, digits))),
    )
    expect(automaton.states).toBe(4)
    expect(automaton.arcs).toHaveLength(8)
  })

  it('of a rule that does not exist are a bug', () => {
    expect(() => automatonOf(one(rule('nowhere')))).toThrow('the grammar has no rule <nowhere>')
  })
})

describe.each(['marram', 'pair'])('the grammars of %s', (id) => {
  let vocabulary: Vocabulary
  let hearables: readonly Hearable[]
  beforeAll(async () => {
    const pack = await packAt(`checklists/${id}`)
    vocabulary = vocabularyOf(pack)
    const specs = Object.fromEntries(Object.values(pack.figures.declarations).map(({ name, spec }) => [name, spec]))
    const exchange = pack.phases.flatMap(({ activities }) => activities).find((one) => one.type === 'exchange')
    if (exchange?.type !== 'exchange') throw new Error('no exchange')
    const readBacks = exchange.turns.flatMap(({ elements }) => elements.flatMap(({ readBack }) => readBack?.icao ?? []))
    hearables = [
      { shapes: [], yesNo: false },
      { shapes: [{ kind: 'trim', axis: 'pitch' }], yesNo: true },
      { shapes: [], yesNo: false, talk: talkOf(exchange, readBacks, specs) },
    ] as readonly Hearable[]
  })

  it('take what a walk through the grammar takes, and nothing else', () => {
    for (const hearable of hearables) {
      const grammar = grammarOf(hearable, vocabulary)
      const automaton = automatonOf(grammar)
      const walk = startOf(grammar)
      fc.assert(
        fc.property(fc.infiniteStream(fc.nat()), fc.boolean(), (choices, isMutated) => {
          const words: string[] = []
          let at: GrammarState = walk
          for (const choice of choices) {
            const next = [...at.next]
            if (words.length > 6 || next.length === 0 || (at.isFinal && choice % 3 === 0)) break
            const [word, follow] = next[choice % next.length] ?? []
            if (word === undefined || !follow) break
            words.push(word)
            at = follow()
          }
          if (isMutated) words.splice(1, 1)
          expect([words, probability(automaton, words.join(' ')) > 0]).toEqual([words, isTaken(walk, words)])
        }),
        { numRuns: cases(300) },
      )
    }
  })

  it('have fewer than a thousand states', () => {
    for (const hearable of hearables) expect(automatonOf(grammarOf(hearable, vocabulary)).states).toBeLessThan(1_000)
  })
})

function isTaken(start: GrammarState, words: readonly string[]): boolean {
  let at: GrammarState | undefined = start
  for (const word of words) at = at?.next.get(word)?.()
  return at?.isFinal ?? false
}
