import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { FIXED_WORDS, grammarOf, wordsNeeded } from '../../../src/kernel/hearing/grammar.ts'
import type { Hearable } from '../../../src/kernel/hearing/hearable.ts'
import { jsgfOf } from '../../../src/kernel/hearing/jsgf.ts'
import { numberShapes, valueWords } from '../../../src/kernel/hearing/numberShapes.ts'
import { isPhoneWord, SOUND } from '../../../src/kernel/hearing/phones.ts'
import { spokenWords } from '../../../src/kernel/hearing/phrases.ts'
import { pieceCount } from '../../../src/kernel/hearing/scraps.ts'
import { isSpelled, LETTERS } from '../../../src/kernel/hearing/spelling.ts'
import { vocabularyOfItems } from '../../../src/kernel/hearing/vocabulary.ts'
import type { Figure, KindSpec } from '../../../src/kernel/kinds/kind.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'

const ITEMS = [
  { challenge: 'doors', responses: [{ response: responseFrom('closed and locked') }] },
  { challenge: 'beacon', responses: [{ response: responseFrom('on') }], states: [['on'], ['off']] },
  { challenge: 'takeoff trim', responses: [{ response: responseFrom('<trim> [set]') }] },
  { challenge: 'takeoff speeds', responses: [{ response: responseFrom('V one <v1> rotate <vr>') }] },
]
const CALLSIGN: KindSpec = { kind: 'callsign', telephony: ['Tidewick', 'Blue Heron'] }
const VOCABULARY = vocabularyOfItems(ITEMS, [CALLSIGN])

const SPECS: readonly KindSpec[] = [
  { kind: 'decimal', decimals: 1 },
  { kind: 'trim', decimals: 1 },
  { kind: 'integer' },
  { kind: 'speed' },
  { kind: 'mach' },
  { kind: 'weight', unit: 'kg' },
  { kind: 'temperature', unit: 'C' },
  { kind: 'digits', length: 4 },
  { kind: 'altimeter', unit: 'hPa' },
  { kind: 'heading' },
  { kind: 'runway' },
  { kind: 'altitude', unit: 'ft' },
  { kind: 'flightLevel' },
  { kind: 'frequency' },
  { kind: 'time' },
  { kind: 'identifier' },
  { kind: 'identifier', form: 'letter' },
  CALLSIGN,
  { kind: 'callsign' },
  { kind: 'wind' },
  { kind: 'route' },
  { kind: 'choice', options: { '5': ['five'], up: ['up', 'zero'] } },
]

const jsgfFor = (...args: Parameters<typeof grammarOf>) => jsgfOf(grammarOf(...args))

/** The words of a grammar, rule names and weights aside. */
function wordsOf(grammar: string): Set<string> {
  const bodies = grammar
    .split('\n')
    .slice(2)
    .map((line) => line.slice(line.indexOf('=') + 1))
  return new Set(
    bodies
      .join(' ')
      .replace(/<[^>]*>|\/[^/]*\/|[()[\]|;]/g, ' ')
      .split(/\s+/)
      .filter((word) => word !== '' && !isPhoneWord(word)),
  )
}

describe('what the ear listens with', () => {
  it('is the same whatever the figures are', () => {
    const value = fc.oneof(fc.integer({ min: 0, max: 9999 }), fc.stringMatching(/^\d{4}$/))
    fc.assert(
      fc.property(fc.constantFrom(...SPECS), value, value, (spec, one, other) => {
        const grammarFor = (figure: Figure) => jsgfFor({ shapes: [figure], yesNo: false }, VOCABULARY)
        expect(grammarFor({ ...spec, value: one } as Figure)).toBe(grammarFor({ ...spec, value: other } as Figure))
      }),
    )
  })

  it('has "both" beside a number as something that is hardly said there, for "oh" sounds like it', () => {
    expect(jsgfFor({ shapes: [{ kind: 'speed' }], yesNo: false }, VOCABULARY)).toMatch(/\/0\.0\d+\/ both \| checked \|/)
  })

  it('is one vocabulary for all word items of a pack', () => {
    const wordItem: Hearable = { shapes: [], yesNo: false }
    const grammar = wordsOf(jsgfFor(wordItem, VOCABULARY))
    for (const word of ['closed', 'locked', 'on', 'set', 'both']) expect(grammar).toContain(word)
  })

  it('holds the contrary of each state, and "not"', () => {
    const words = wordsOf(jsgfFor({ shapes: [], yesNo: false }, VOCABULARY))
    for (const word of ['open', 'unlocked', 'off', 'not']) expect(words).toContain(word)
    expect(VOCABULARY.phrases).toContain('closed and unlocked')
    expect(VOCABULARY.phrases).toContain('not closed and locked')
  })

  it('has every digit and number word for each kind of number, never a list of values', () => {
    for (const spec of SPECS.filter((each) => numberShapes(each).length > 0)) {
      const words = wordsOf(jsgfFor({ shapes: [spec], yesNo: false }, VOCABULARY))
      for (const word of ['zero', 'one', 'nine', 'niner', 'fifteen', 'fifty', 'hundred', 'thousand', 'point']) {
        expect(words, spec.kind).toContain(word)
      }
    }
  })

  it('has every designator of the pack for a call sign, and nowhere else', () => {
    expect(jsgfFor({ shapes: [CALLSIGN], yesNo: false }, VOCABULARY)).toContain('= blue heron | tidewick;')
    expect(wordsNeeded(VOCABULARY)).toEqual(expect.arrayContaining(['blue', 'heron', 'tidewick']))
    expect(wordsOf(jsgfFor({ shapes: [{ kind: 'speed' }], yesNo: false }, VOCABULARY))).not.toContain('tidewick')
  })

  it('does without a designator that has no pronunciation', () => {
    const grammar = jsgfFor({ shapes: [CALLSIGN], yesNo: false }, { ...VOCABULARY, names: ['blue heron'] })
    expect(wordsOf(grammar)).not.toContain('tidewick')
    expect(wordsOf(grammar)).toContain('heron')
  })

  it('has every letter for what is spelled', () => {
    for (const spec of SPECS.filter(isSpelled)) {
      expect([...wordsOf(jsgfFor({ shapes: [spec], yesNo: false }, VOCABULARY))]).toEqual(
        expect.arrayContaining([...LETTERS]),
      )
    }
  })

  it('has a path for speech that fits nothing', () => {
    expect(jsgfFor({ shapes: [], yesNo: false }, VOCABULARY)).toContain(SOUND)
  })

  it('needs no word that it has not asked a pronunciation for', () => {
    const needed = new Set([...wordsNeeded(VOCABULARY), ...SPECS.flatMap(valueWords)])
    for (const spec of SPECS) {
      for (const word of wordsOf(jsgfFor({ shapes: [spec], yesNo: true }, VOCABULARY))) expect(needed).toContain(word)
    }
    for (const spec of SPECS.filter((each) => each.kind !== 'choice')) {
      for (const word of valueWords(spec)) expect(FIXED_WORDS).toContain(word)
    }
  })
})

describe('what hangs together', () => {
  it.each([
    ['closed and locked', 1],
    ['doors closed and unlocked', 2],
    ['say again', 1],
    ['on closed set locked both', 5],
    ['', 0],
  ])('"%s" has %i pieces', (text, pieces) => {
    expect(pieceCount(VOCABULARY, text)).toBe(pieces)
  })
})

describe('words of a pack', () => {
  it.each([
    ['V1', ['v', 'one']],
    ['closed, locked.', ['closed', 'locked']],
    ['flap 14', ['flap', 'one', 'four']],
  ])('%s is spoken %j', (text, words) => {
    expect(spokenWords(text)).toEqual(words)
  })
})
