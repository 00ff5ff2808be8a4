/** A word of a grammar that the recogniser was not given makes the whole grammar unusable, and the ear deaf. */

import { expect, test } from 'vitest'
import { automatonOf } from '../../src/kernel/hearing/automaton.ts'
import { grammarOf, wordsNeeded } from '../../src/kernel/hearing/grammar.ts'
import { SOUND } from '../../src/kernel/hearing/phones.ts'
import { vocabularyOf } from '../../src/kernel/hearing/vocabulary.ts'
import { marramLines, twinLines } from '../flight/lines.ts'
import { rehearsed } from '../flight/rehearsed.ts'

test.each([
  ['marram', 'icao', 'push'],
  ['marram', 'faa', 'own'],
  ['pair', 'icao', undefined],
  ['pair', 'faa', undefined],
] as const)(
  '%s, %s, %s: at no place of the departure is a word listened for that was not asked for before',
  async (pack, radio, stand) => {
    const isTwin = pack === 'pair'
    const lines = isTwin ? twinLines(radio) : marramLines(radio, stand ?? 'push')
    const sheet = `tests/cli/answers/${isTwin ? 'pairTalk' : 'talk'}.yaml`
    const { run, ear } = await rehearsed({ pack, radio, lines, sheet, ...(stand && { stand }) })
    const vocabulary = vocabularyOf(run.pack)
    const given = new Set([...wordsNeeded(vocabulary), SOUND])
    const places = new Map(ear.requests.map(({ hearable }) => [JSON.stringify(hearable), hearable]))
    expect(places.size).toBeGreaterThan(20)
    for (const hearable of places.values()) {
      const { arcs } = automatonOf(grammarOf(hearable, vocabulary))
      const words = new Set(arcs.flatMap(({ word }) => word ?? []))
      expect([...words].filter((word) => !given.has(word) && !word.startsWith('+'))).toEqual([])
    }
  },
)
