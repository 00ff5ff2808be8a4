import { describe, expect, it } from 'vitest'
import { parseDictionary, pronounce } from '../../../../src/adapters/ear/recogniser/dictionary.ts'

const DICTIONARY = parseDictionary('tide T AY D\nwick W IH K\nset S EH T\nset(2) S AH T\n')

describe('pronunciations', () => {
  it('of a word are those of the dictionary, further ones numbered', () => {
    expect(pronounce(['set'], DICTIONARY).entries).toEqual([
      ['set', 'S EH T'],
      ['set(2)', 'S AH T'],
    ])
  })

  it.each(['constructor', 'valueof', 'hasownproperty', 'toString', '__proto__'])(
    'are asked of the dictionary alone, also for "%s"',
    (word) => {
      expect(pronounce([word], DICTIONARY)).toEqual({ entries: [], missing: [word], guessed: [] })
      expect(pronounce([word], new Map([[word, ['K']]])).entries).toEqual([[word, 'K']])
    },
  )

  it('are put together of two known words', () => {
    expect(pronounce(['tidewick'], DICTIONARY).entries).toEqual([['tidewick', 'T AY D W IH K']])
  })

  it('are not put together for a word longer than anybody says', () => {
    const [first, second] = ['a'.repeat(21), 'b'.repeat(21)]
    const halves = new Map([first, second].map((half) => [half, ['AH']]))
    expect(pronounce([first + second], halves)).toEqual({ entries: [], missing: [first + second], guessed: [] })
  })
})

describe('a pronunciation', () => {
  const dictionary = parseDictionary(';; remark\narmed AA R M D\nset S EH T\nset(2) S IH T\n')
  it('is taken from the dictionary with its variants', () => {
    expect(pronounce(['set'], dictionary).entries).toEqual([
      ['set', 'S EH T'],
      ['set(2)', 'S IH T'],
    ])
  })
  it('is put together where the parts are known', () => {
    expect(pronounce(['unarmed'], dictionary).entries).toEqual([['unarmed', 'AH N AA R M D']])
  })
  it('of an abbreviation is its letters', () => {
    expect(pronounce(['qnh'], dictionary).entries).toEqual([['qnh', 'K Y UW EH N EY CH']])
  })
  it('that may be taken for another is told: of two words in one, and of a word spelled as if it were an abbreviation', () => {
    const known = new Map([...dictionary, ['tide', ['T AY D']], ['wick', ['W IH K']]])
    expect(pronounce(['tidewick', 'amps', 'qnh', 'unarmed', 'set'], known).guessed).toEqual(['tidewick', 'amps'])
  })
  it('that is not known is reported by the word', () => {
    expect(pronounce(['zyzzogeton', 'set'], dictionary).missing).toEqual(['zyzzogeton'])
  })
})
