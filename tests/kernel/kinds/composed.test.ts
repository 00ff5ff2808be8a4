import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Figure, KINDS, PHRASEOLOGIES, type Value } from '../../../src/kernel/kinds/kind.ts'
import { RADIOS } from '../../../src/kernel/kinds/radio.ts'
import { isComposed, isSameValue, readValue, sayOnRadio, sayValue, showValue } from '../../../src/kernel/kinds/table.ts'
import { shouldBe } from '../../../src/kernel/kinds/written.ts'
import { tokensOf } from '../../../src/kernel/numbers/tokens.ts'
import { seeded } from '../../corpus/case.ts'
import { sayComposed } from '../../corpus/composedSayings.ts'
import { judgeText } from '../../corpus/judgeText.ts'

const TELEPHONY = ['Tidewick', 'Norvane', 'Blue Heron']
type Composed = Extract<Figure, { kind: 'callsign' | 'wind' | 'route' }>

const flight = fc
  .tuple(
    fc.constantFrom(...TELEPHONY.map((name) => name.toUpperCase())),
    fc.integer({ min: 1, max: 9999 }),
    fc.constantFrom('', '', 'A', 'K'),
  )
  .map(([name, number, suffix]): Composed => {
    return { kind: 'callsign', telephony: TELEPHONY, value: `${name} ${number}${suffix}` }
  })
const registration = fc.stringMatching(/^[A-Z]{2}-[A-Z]{3}$/).map((value): Composed => ({ kind: 'callsign', value }))
const wind = fc
  .tuple(
    fc.oneof(
      fc.integer({ min: 1, max: 360 }).map((degrees) => String(degrees).padStart(3, '0')),
      fc.constant('VRB'),
    ),
    fc.integer({ min: 1, max: 60 }),
    // Less than ten knots more are no gusts.
    fc.option(fc.integer({ min: 10, max: 39 })),
  )
  .map(([from, speed, more]): Composed => {
    return { kind: 'wind', value: `${from}/${speed}${more === null ? '' : `G${speed + more}`}` }
  })
const calm = fc.constant<Composed>({ kind: 'wind', value: 'CALM' })
/** With two taxiways "A B" and one "AB" nobody could tell them apart, so pairs of letters have a number. */
const taxiway = fc.stringMatching(/^([A-Z]|[A-Z]\d{1,2}|[A-Z]{2}[1-9])$/)
const route = fc
  .array(taxiway, { minLength: 1, maxLength: 6 })
  .map((elements): Composed => ({ kind: 'route', value: elements.join(' ') }))
const any = fc.oneof(flight, registration, wind, calm, route)

const heard = (figure: Composed, text: string, phraseology: 'plain' | 'standard' = 'plain') =>
  judgeText({ response: '<it>', figures: { it: figure }, heard: text, phraseology })

describe('what is said is read back as exactly the value', () => {
  it.each(PHRASEOLOGIES)('in %s phraseology', (phraseology) => {
    fc.assert(
      fc.property(any, (figure) => {
        const words = sayValue(figure, phraseology)
        expect(words).not.toMatch(/\d/)
        const readings = readValue(tokensOf(words), figure).filter(({ secondary }) => !secondary)
        expect(readings.map(({ value }) => isSameValue(figure, value, figure.value))).toEqual([true])
        expect(heard(figure, words, phraseology === 'plain' ? 'plain' : 'standard').verdict).toBe('correct')
      }),
      { numRuns: 1000 },
    )
  })

  it.each(RADIOS)('as stations say it by %s', (radio) => {
    fc.assert(
      fc.property(any, (figure) => {
        expect([figure.value, heard(figure, sayOnRadio(figure, radio)).verdict]).toEqual([figure.value, 'correct'])
      }),
      { numRuns: 1000 },
    )
  })

  it('in the ways of pilots, with little words around it', () => {
    fc.assert(
      fc.property(any, fc.integer(), fc.constantFrom('', 'uh ', 'okay '), (figure, seed, before) => {
        const text = `${before}${sayComposed(figure, seeded(seed))}`
        expect([figure.value, text, heard(figure, text).verdict]).toEqual([figure.value, text, 'correct'])
      }),
      { numRuns: 1500 },
    )
  })

  it('is a value that its kind can have', () => {
    fc.assert(fc.property(any, (figure) => shouldBe(figure, figure.value) === undefined))
  })
})

/** One character of a value turned into another of its sort. */
function withSlip(value: string, at: number, by: number): string {
  const places = [...value].flatMap((character, i) => (/[A-Z0-9]/.test(character) ? [i] : []))
  const place = places[at % places.length] ?? 0
  const character = value[place] ?? ''
  const [from, count] = /\d/.test(character) ? [48, 10] : [65, 26]
  const turned = String.fromCharCode(from + ((character.charCodeAt(0) - from + 1 + (by % (count - 1))) % count))
  return value.slice(0, place) + turned + value.slice(place + 1)
}

describe('another value is never right', () => {
  const slips = fc.tuple(fc.nat(), fc.nat(), fc.integer())

  it('when one letter or digit is another one', () => {
    let tried = 0
    fc.assert(
      fc.property(fc.oneof(flight, registration, wind, route), slips, (figure, [at, by, seed]) => {
        const value = withSlip(String(figure.value), at, by)
        // Names and winds that no one has cannot be said.
        if (shouldBe(figure, value) !== undefined || isSameValue(figure, value, figure.value)) return
        tried++
        const text = sayComposed({ ...figure, value }, seeded(seed))
        const { verdict } = heard(figure, text)
        // A registration shortened may be that of two aircraft.
        const isShort = figure.kind === 'callsign' && verdict === 'correct'
        if (isShort) expect(shortForm(String(value))).toBe(shortForm(String(figure.value)))
        else expect([figure.value, text, verdict]).not.toContain('correct')
      }),
      { numRuns: 3000 },
    )
    expect(tried).toBeGreaterThan(1500)
  })

  it('when a piece is left out or two change places', () => {
    fc.assert(
      fc.property(route, fc.nat(), fc.integer(), fc.boolean(), (figure, at, seed, swaps) => {
        const elements = String(figure.value).split(' ')
        const place = at % elements.length
        const others = swaps ? [...elements.slice(1), ...elements.slice(0, 1)] : elements.filter((_, i) => i !== place)
        const value = others.join(' ')
        if (others.length === 0 || isSameValue(figure, value, figure.value)) return
        const { verdict } = heard(figure, sayComposed({ ...figure, value }, seeded(seed)))
        expect([figure.value, value, verdict]).not.toContain('correct')
        if (!swaps) expect([figure.value, value, verdict]).toContain('negative')
      }),
      { numRuns: 1000 },
    )
  })

  it('when the designator is that of another operator', () => {
    fc.assert(
      fc.property(flight, fc.integer(), (figure, seed) => {
        const own = TELEPHONY.find((name) => String(figure.value).startsWith(name.toUpperCase())) ?? ''
        for (const name of TELEPHONY.filter((each) => each !== own)) {
          const value: Value = String(figure.value).replace(own.toUpperCase(), name.toUpperCase())
          expect(heard(figure, sayComposed({ ...figure, value }, seeded(seed))).verdict).toBe('negative')
        }
      }),
    )
  })
})

const shortForm = (registration: string) => registration[0] + registration.slice(-2)

const callsign = (value: string): Composed => ({ kind: 'callsign', telephony: TELEPHONY, value })
const windOf = (value: string): Composed => ({ kind: 'wind', value })
const routeOf = (value: string): Composed => ({ kind: 'route', value })

const VERDICTS: readonly (readonly [figure: Composed, text: string, verdict: string])[] = [
  [callsign('TIDEWICK 421'), 'tidewick four two one', 'correct'],
  [callsign('TIDEWICK 421'), 'Tidewick 421', 'correct'],
  [callsign('TIDEWICK 421'), 'tidewick four twenty-one', 'correct'],
  [callsign('TIDEWICK 421'), 'tidewick four two one heavy', 'correct'],
  [callsign('TIDEWICK 421A'), 'tidewick four two one alfa', 'correct'],
  [callsign('BLUE HERON 12'), 'blue heron one two', 'correct'],
  [callsign('TIDEWICK 421'), 'four two one', 'incomplete'],
  [callsign('TIDEWICK 421'), 'tidewick', 'incomplete'],
  [callsign('TIDEWICK 421'), 'four two two', 'negative'],
  [callsign('TIDEWICK 421'), 'norvane', 'negative'],
  [callsign('TIDEWICK 421'), 'norvane four two one', 'negative'],
  [callsign('TIDEWICK 421'), 'tidewick four one two', 'negative'],
  [callsign('TIDEWICK 421'), 'tidewick four two', 'sayAgain'],
  [callsign('TIDEWICK 421A'), 'tidewick four two one', 'sayAgain'],
  [callsign('TIDEWICK 421'), 'tidewick four two one, tidewick four two one', 'correct'],
  [callsign('TIDEWICK 421'), 'tidewick four two one, tidewick four two two', 'sayAgain'],
  [callsign('TIDEWICK 421'), 'tidewick four one two, correction, tidewick four two one', 'correct'],
  [callsign('QX-MRA'), 'quebec xray mike romeo alfa', 'correct'],
  [callsign('QX-MRA'), 'quebec x-ray mike romeo alpha', 'correct'],
  [callsign('QX-MRA'), 'quebec romeo alfa', 'correct'],
  [callsign('QX-MRA'), 'quebec mike romeo alfa', 'correct'],
  [callsign('QX-MRA'), 'romeo alfa', 'sayAgain'],
  [callsign('QX-MRA'), 'quebec alfa', 'negative'],
  [callsign('QX-MRA'), 'quebec romeo bravo', 'negative'],
  [callsign('QX-MRA'), 'romeo romeo alfa', 'negative'],
  [callsign('TIDEWICK QX-MRA'), 'tidewick romeo alfa', 'correct'],
  [callsign('TIDEWICK QX-MRA'), 'norvane romeo alfa', 'negative'],
  [windOf('240/12'), 'two four zero degrees one two knots', 'correct'],
  [windOf('240/12'), 'two four zero at twelve', 'correct'],
  [windOf('240/12'), 'two four zero one two', 'correct'],
  [windOf('240/12G25'), 'two four zero at one two gusts two five', 'correct'],
  [windOf('240/12G25'), 'two four zero degrees one two knots', 'incomplete'],
  [windOf('240/12G25'), 'two four zero degrees', 'incomplete'],
  [windOf('240/12'), 'two four zero degrees one two knots gusting two five knots', 'negative'],
  [windOf('240/12G25'), 'two four zero degrees one two knots gusting two six knots', 'negative'],
  [windOf('240/12'), 'two four zero degrees two one knots', 'negative'],
  [windOf('240/12'), 'two five zero degrees one two knots', 'negative'],
  [windOf('080/12'), 'eight zero degrees one two knots', 'incomplete'],
  [windOf('240/12'), 'four zero degrees one two knots', 'negative'],
  [windOf('240/12'), 'three nine zero degrees one two knots', 'sayAgain'],
  [windOf('VRB/3'), 'variable three knots', 'correct'],
  [windOf('VRB/3'), 'variable at three', 'correct'],
  [windOf('VRB/3'), 'variable', 'incomplete'],
  [windOf('240/3'), 'variable three knots', 'negative'],
  [windOf('CALM'), 'wind calm', 'correct'],
  [windOf('VRB/3'), 'calm', 'negative'],
  [windOf('CALM'), 'variable three knots', 'negative'],
  [routeOf('A3 B C1'), 'alfa three bravo charlie one', 'correct'],
  [routeOf('A3 B C1'), 'via alfa three then bravo and taxiway charlie one', 'correct'],
  [routeOf('A3 B C1'), 'A3 B C1', 'correct'],
  [routeOf('A B C'), 'a b c', 'correct'],
  [routeOf('A3 B C1'), 'alfa three charlie one', 'negative'],
  [routeOf('A3 B C1'), 'alfa three bravo', 'negative'],
  [routeOf('A3 B C1'), 'alfa bravo charlie one', 'negative'],
  [routeOf('A3 B C1'), 'bravo alfa three charlie one', 'negative'],
  [routeOf('A3 B C1'), 'alfa three bravo charlie two', 'negative'],
  [routeOf('A3 B C1'), 'alfa three bravo delta charlie one', 'negative'],
]

describe('answers to one value of several pieces', () => {
  it.each(VERDICTS)('%o: "%s" is %s', (figure, text, verdict) => {
    expect(heard(figure, text).verdict).toBe(verdict)
  })

  it('completes a wind with what was said in the next breath', () => {
    const input = { response: '<it>', figures: { it: windOf('240/12G25') } }
    const begun = { it: 'two four zero degrees one two knots' }
    expect(judgeText({ ...input, heard: 'gusting two five knots', begun }).verdict).toBe('correct')
    expect(judgeText({ ...input, heard: 'gusting two six knots', begun }).verdict).toBe('negative')
  })

  it('takes a flight number said in groups for plain, not for standard', () => {
    expect(heard(callsign('TIDEWICK 421'), 'tidewick four twenty one', 'standard')).toMatchObject({ because: 'form' })
  })
})

describe('several values in one breath', () => {
  const figures = {
    point: { kind: 'identifier', value: 'C1' },
    runway: { kind: 'runway', value: '27L' },
    route: routeOf('A3 B'),
    code: { kind: 'digits', length: 4, value: '4271' },
    callsign: callsign('TIDEWICK 421'),
    info: { kind: 'identifier', form: 'letter', value: 'K' },
    wind: windOf('240/12'),
    qnh: { kind: 'altimeter', unit: 'hPa', value: 1010 },
  } as const satisfies Record<string, Figure>
  const TAXI = 'holding point <point> runway <runway> via <route> <callsign>'
  const BACK = 'taxi <route> [to] holding point <point>'
  const CODE = 'squawk <code> <callsign>'
  const REPORT = 'information <info> wind <wind> runway <runway> QNH <qnh>'

  it.each([
    [TAXI, 'holding point charlie one runway two seven left via alfa three bravo tidewick four two one', 'correct'],
    [
      TAXI,
      'tidewick four two one, holding point charlie one, runway two seven left via alfa three and bravo',
      'correct',
    ],
    [TAXI, 'holding point charlie one runway two seven left via alfa three tidewick four two one', 'negative'],
    [TAXI, 'holding point charlie one runway two seven left via alfa three bravo norvane four two one', 'negative'],
    [TAXI, 'holding point charlie two runway two seven left via alfa three bravo tidewick four two one', 'negative'],
    [BACK, 'taxi via alfa three via bravo holding point charlie one', 'correct'],
    [BACK, 'taxi alfa three bravo via holding point charlie one', 'correct'],
    [BACK, 'taxi alfa three via holding point charlie one', 'negative'],
    [CODE, 'four two seven one tidewick four two one', 'correct'],
    [CODE, 'squawk four two seven one', 'incomplete'],
    [CODE, 'tidewick four two one', 'incomplete'],
    [CODE, 'four two seven one norvane four two one', 'negative'],
    [CODE, 'four one seven two tidewick four two one', 'negative'],
    [
      REPORT,
      'information kilo, wind two four zero degrees one two knots, runway two seven left, QNH one zero one zero',
      'correct',
    ],
    [REPORT, 'information kilo, two four zero at one two, runway two seven left, one zero one zero', 'correct'],
    [
      REPORT,
      'information lima, wind two four zero degrees one two knots, runway two seven left, QNH one zero one zero',
      'negative',
    ],
    ['information <info> <qnh>', 'information kilo, one zero one zero', 'correct'],
  ])('%s: "%s" is %s', (response, text, verdict) => {
    expect(judgeText({ response, figures, heard: text }).verdict).toBe(verdict)
  })
})

describe('what a value of several pieces should be', () => {
  it.each([
    [callsign('TIDEWICK'), 'TIDEWICK 421'],
    [callsign('HARROW 421'), 'designators'],
    [{ kind: 'callsign', value: '421' } as Composed, 'QX-MRA'],
    [windOf('24/12'), '240/12'],
    [windOf('370/12'), '240/12'],
    [windOf('240/12G10'), '240/12'],
    [routeOf('3A'), 'A3 B C1'],
    [routeOf(''), 'A3 B C1'],
  ])('%o', (figure, part) => {
    expect(shouldBe(figure, figure.value)).toContain(part)
  })

  it('has designators that are neither numbers nor letters', () => {
    expect(KINDS.callsign.specFault?.({ kind: 'callsign', telephony: ['Tidewick', 'Delta'] })).toEqual({
      field: 'telephony',
      should: 'designators of words that are neither numbers nor letters of the alphabet, not "Delta"',
    })
    expect(KINDS.callsign.specFault?.({ kind: 'callsign', telephony: ['Tidewick'] })).toBeUndefined()
  })

  it('is shown as it is written', () => {
    expect(showValue(callsign('Tidewick 421'))).toBe('TIDEWICK 421')
    expect(showValue(windOf('240/05'))).toBe('240/5')
    expect(showValue(routeOf('a3, b'))).toBe('A3 B')
    expect(isComposed({ kind: 'speed' })).toBe(false)
  })
})
