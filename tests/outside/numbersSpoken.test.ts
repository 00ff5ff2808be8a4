/**
 * Published examples of how numbers are transmitted, as checks in both directions: the published words read as the
 * value, and the value in standard phraseology is said in the published words. Sources stand beside each line, with
 * the mark under which they were found: looked up (the text was seen in a copy) or from memory.
 */

import { describe, expect, it } from 'vitest'
import type { Figure } from '../../src/kernel/kinds/kind.ts'
import { sayOnRadio, sayValue } from '../../src/kernel/kinds/table.ts'
import { judgeText } from '../corpus/judgeText.ts'

const ANNEX_10 = 'ICAO Annex 10 Vol. II 5.2.1.4.1 (looked up: flightcrewguide.com wiki 07)'
/** The numbers are those of the examples; the designators are invented. */
const GROUPED = 'FAA JO 7110.65 2-4-20 (looked up: pointsixtyfive.com; yumpu 40571995/82)'
const CALL_SIGNS =
  'ICAO Annex 10 Vol. II 5.2.1.7.2 (types looked up: joomag flight-alliance 2017; short forms from memory)'
const AIM = (paragraph: string) => `FAA AIM ${paragraph} (looked up)`
const JO = (paragraph: string) => `FAA JO 7110.65 ${paragraph}${paragraph.includes('memory') ? '' : ' (looked up)'}`

const altitude = (value: number): Figure => ({ kind: 'altitude', unit: 'ft', value })
const level = (value: number): Figure => ({ kind: 'flightLevel', value })
const heading = (value: number): Figure => ({ kind: 'heading', value })
const runway = (value: string): Figure => ({ kind: 'runway', value })
const hPa = (value: number): Figure => ({ kind: 'altimeter', unit: 'hPa', value })
const code = (value: string): Figure => ({ kind: 'digits', length: 4, value })
const frequency = (value: number): Figure => ({ kind: 'frequency', value })
const speed = (value: number): Figure => ({ kind: 'speed', value })
const mach = (value: number): Figure => ({ kind: 'mach', decimals: 2, value })
const wind = (value: string): Figure => ({ kind: 'wind', value })
const registration = (value: string): Figure => ({ kind: 'callsign', value })
const flight = (value: string): Figure => ({ kind: 'callsign', telephony: ['Tidewick', 'Norvane'], value })
const time = (value: string): Figure => ({ kind: 'time', value })

/** Published words, value, source; `said` where we say it in other words of the same standard. */
const PUBLISHED: readonly (readonly [words: string, figure: Figure, source: string, said?: string])[] = [
  ['eight hundred', altitude(800), ANNEX_10],
  ['three thousand four hundred', altitude(3400), ANNEX_10],
  ['one two thousand', altitude(12_000), ANNEX_10],
  ['five hundred', altitude(500), AIM('4-2-8')],
  ['four thousand five hundred', altitude(4500), AIM('4-2-8')],
  ['one zero thousand', altitude(10_000), AIM('4-2-8')],
  ['one three thousand five hundred', altitude(13_500), AIM('4-2-8')],
  ['one seven thousand niner hundred', altitude(17_900), JO('2-4-17')],
  ['flight level one eight zero', level(180), ANNEX_10],
  ['flight level two zero zero', level(200), ANNEX_10],
  ['flight level two seven five', level(275), AIM('4-2-9')],
  ['flight level one hundred', level(100), 'UK CAA CAP 413 (looked up)', 'flight level one zero zero'],
  ['flight level two hundred', level(200), 'SERA.14035 (from memory)', 'flight level two zero zero'],
  ['heading one zero zero', heading(100), ANNEX_10, 'one zero zero'],
  ['heading zero eight zero', heading(80), ANNEX_10, 'zero eight zero'],
  ['heading zero zero five', heading(5), AIM('4-2-10'), 'zero zero five'],
  ['runway two seven', runway('27'), ANNEX_10, 'two seven'],
  ['runway three zero', runway('30'), ANNEX_10, 'three zero'],
  ['runway zero six', runway('06'), ANNEX_10, 'zero six'],
  ['runway two four left', runway('24L'), 'aeps.aero (looked up)', 'two four left'],
  ['QNH one zero one zero', hPa(1010), ANNEX_10, 'one zero one zero'],
  ['QNH one zero zero zero', hPa(1000), ANNEX_10, 'one zero zero zero'],
  ['QNH one zero one two', hPa(1012), ANNEX_10, 'one zero one two'],
  ['QNH one thousand', hPa(1000), 'SERA.14035 (from memory)', 'one zero zero zero'],
  ['niner niner fife hectopascals', hPa(995), 'UK CAA CAP 413 (from memory)', 'niner niner five'],
  [
    'altimeter two niner niner two',
    { kind: 'altimeter', unit: 'inHg', value: 29.92 },
    JO('2-4-18'),
    'two niner niner two',
  ],
  ['squawk two four zero zero', code('2400'), ANNEX_10, 'two four zero zero'],
  ['squawk four two zero three', code('4203'), ANNEX_10, 'four two zero three'],
  ['squawk six fife zero zero', code('6500'), 'UK CAA CAP 413 (looked up)', 'six five zero zero'],
  ['squawk seven six zero zero', code('7600'), 'aeps.aero (looked up)', 'seven six zero zero'],
  ['squawk two thousand', code('2000'), 'SERA.14035 (from memory)', 'two zero zero zero'],
  ['one two two decimal one', frequency(122.1), `${ANNEX_10}; AIM 4-2-8e`],
  [
    'one one eight decimal zero zero fife',
    frequency(118.005),
    'ICAO Annex 10 Vol. II 5.2.1.4.1.3 (from memory)',
    'one one eight decimal zero zero five',
  ],
  ['one one eight decimal zero', frequency(118), 'ICAO Annex 10 Vol. II 5.2.1.4.1.3 (from memory)'],
  ['two fife zero knots', speed(250), AIM('4-2-11'), 'two five zero'],
  ['one niner zero knots', speed(190), AIM('4-2-11'), 'one niner zero'],
  ['mach decimal ait fower', mach(0.84), 'ICAO form (looked up: a table of phraseology)', 'mach decimal eight four'],
  ['mach point six four', mach(0.64), `${JO('2-4-17')}; AIM 4-2-11`, 'mach decimal six four'],
  ['wind two zero zero degrees seven zero knots', wind('200/70'), ANNEX_10, 'two zero zero degrees seven zero knots'],
  [
    'wind one six zero degrees one eight knots gusting three zero knots',
    wind('160/18G30'),
    ANNEX_10,
    'one six zero degrees one eight knots gusting three zero knots',
  ],
  [
    'wind zero three zero at two five',
    wind('030/25'),
    JO('2-4-17, from memory'),
    'zero three zero degrees two five knots',
  ],
  ['wind calm', wind('CALM'), 'ICAO Doc 4444 12.3 (from memory)', 'calm'],
  // Forms of 5.2.1.7.2: registration in full and shortened, designator with flight number. The names are invented.
  ['quebec xray mike romeo alfa', registration('QX-MRA'), CALL_SIGNS],
  ['quebec romeo alfa', registration('QX-MRA'), CALL_SIGNS, 'quebec xray mike romeo alfa'],
  ['tidewick four two one', flight('TIDEWICK 421'), CALL_SIGNS],
  ['information kilo', { kind: 'identifier', form: 'letter', value: 'K' }, 'ICAO Doc 4444 12.3 (from memory)', 'kilo'],
  ['minus five', { kind: 'temperature', unit: 'C', value: -5 }, 'ICAO Doc 4444 12.3 (from memory)'],
  ['zero seven one five', time('0715'), JO('2-4-17')],
  ['zero niner two zero', time('0920'), AIM('4-2')],
]

/** What stations say on the radio where the two phraseologies differ. */
const ON_RADIO: readonly (readonly [figure: Figure, icao: string, faa: string, source: string])[] = [
  [frequency(122.1), 'one two two decimal one', 'one two two point one', `${ANNEX_10}; AIM 4-2-8e (looked up)`],
  [
    wind('160/18G30'),
    'one six zero degrees one eight knots gusting three zero knots',
    'one six zero at one eight gusts three zero',
    `${ANNEX_10}; JO 7110.65 2-4-17 (from memory)`,
  ],
  [mach(0.78), 'mach decimal seven eight', 'mach point seven eight', JO('2-4-17')],
  [wind('VRB/3'), 'variable three knots', 'variable at three', 'common practice, no source'],
  [flight('TIDEWICK 421'), 'tidewick four two one', 'tidewick four twenty one', GROUPED],
  [flight('TIDEWICK 52'), 'tidewick five two', 'tidewick fifty two', GROUPED],
  [flight('TIDEWICK 100'), 'tidewick one zero zero', 'tidewick one hundred', GROUPED],
  [flight('TIDEWICK 110'), 'tidewick one one zero', 'tidewick one ten', GROUPED],
  [flight('TIDEWICK 3015'), 'tidewick three zero one five', 'tidewick thirty fifteen', GROUPED],
  [flight('TIDEWICK 101'), 'tidewick one zero one', 'tidewick one zero one', GROUPED],
  [flight('TIDEWICK 010'), 'tidewick zero one zero', 'tidewick zero one zero', GROUPED],
  [flight('TIDEWICK 1004'), 'tidewick one zero zero four', 'tidewick ten zero four', GROUPED],
  [registration('QX-MRA'), 'quebec xray mike romeo alfa', 'quebec xray mike romeo alfa', CALL_SIGNS],
  [altitude(10_000), 'one zero thousand', 'one zero thousand', AIM('4-2-8')],
  [{ kind: 'route', value: 'A3 B C1' }, 'alfa three bravo charlie one', 'alfa three bravo charlie one', AIM('4-2-7')],
]

/** Right in value; the standard wants another form. */
const ALLOWED_ONLY_AS_RESTATEMENT: readonly (readonly [words: string, figure: Figure, source: string])[] = [
  ['seventeen thousand niner hundred', altitude(17_900), JO('2-4-17')],
  ['ten thousand', altitude(10_000), JO('2-4-17')],
  ['tidewick four twenty one', flight('TIDEWICK 421'), GROUPED],
  ['altimeter twenty nine ninety two', { kind: 'altimeter', unit: 'inHg', value: 29.92 }, JO('2-4-18')],
]

const heard = (figure: Figure, words: string, phraseology: 'plain' | 'standard') =>
  judgeText({ response: '<it>', figures: { it: figure }, heard: words, phraseology })

describe('published transmissions of numbers', () => {
  it.each(PUBLISHED.map((line) => ({ line, words: line[0], source: line[2] })))('"$words": $source', ({ line }) => {
    const [words, figure, , said] = line
    expect(heard(figure, words, 'plain').verdict).toBe('correct')
    expect(heard(figure, words, 'standard').verdict).toBe('correct')
    expect(sayValue(figure, 'standard')).toBe(said ?? words)
  })

  it.each(ON_RADIO)('%o by ICAO "%s", by the FAA "%s": %s', (figure, icao, faa) => {
    expect([sayOnRadio(figure, 'icao'), sayOnRadio(figure, 'faa')]).toEqual([icao, faa])
    for (const words of [icao, faa]) expect(heard(figure, words, 'plain').verdict).toBe('correct')
  })

  it.each(ALLOWED_ONLY_AS_RESTATEMENT)('"%s" for %o is plain, not standard: %s', (words, figure) => {
    expect(heard(figure, words, 'plain').verdict).toBe('correct')
    expect(heard(figure, words, 'standard')).toMatchObject({ verdict: 'sayAgain', because: 'form' })
  })

  it('no published transmission passes for another published value', () => {
    for (const [words, own] of PUBLISHED) {
      for (const [, other] of PUBLISHED) {
        if (other.kind !== own.kind || other.value === own.value) continue
        expect([words, other.value, heard(other, words, 'plain').verdict]).not.toContain('correct')
      }
    }
  })
})
