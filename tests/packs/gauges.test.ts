/** What is read off gauges, or noted: there is no value that could be spoken, and none that could be told. */

import { describe, expect, it, test } from 'vitest'
import { grammarOf } from '../../src/kernel/hearing/grammar.ts'
import { vocabularyOf } from '../../src/kernel/hearing/vocabulary.ts'
import { hearableAt } from '../../src/kernel/run/core/hearableAt.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { authored, called, figuresOf, flown, problemsIn, sheet, withoutColumns } from './authored.ts'

const FIGURES = `
  volts: {label: bus voltage, kind: decimal, decimals: 1, unit: V, min: 0, max: 40, read: {min: 27.5, max: 29}}
  oil: {label: oil temperature, kind: integer, unit: C, read: {min: 40}}
  itt: {label: turbine temperature, kind: temperature, unit: C, read: {max: topItt}}
  topItt: {label: top temperature, kind: temperature, unit: C, entered: {}}
  off: {label: time off, kind: time, read: {}}
  torque: {label: torque, kind: integer, unit: ft lb, min: 0, max: 2500, read: {min: 1700, max: 1800}}
`
const ENTRIES = `
- {item: volts, challenge: bus, response: "<volts>"}
- {item: oil, challenge: oil temperature, response: "<oil>"}
- {item: itt, challenge: turbine temperature, response: "<itt>"}
- {item: off, challenge: time off, response: "<off>"}
- {item: torque, challenge: torque, response: "<torque>"}
`
const PACK = authored({ figures: FIGURES, entries: ENTRIES })
const begun = (settings = {}) => flown(PACK, sheet({ topItt: 730 }), settings).happen(called())
const verdictOf = (run: ReturnType<typeof begun>) => run.state.last?.judgement

test.each([
  ['twenty eight point two', 'correct'],
  ['two eight decimal two volts', 'correct'],
  ['28.2', 'correct'],
  ['twenty eight', 'correct'],
  ['bus twenty seven point five volts', 'correct'],
  ['twenty nine', 'correct'],
  ['checked, twenty eight point five', 'correct'],
  ['twenty seven point four', 'negative limit'],
  ['twenty nine point one volts', 'negative limit'],
  ['twenty eight amps', 'negative unit'],
  ['not twenty eight', 'sayAgain notUnderstood'],
  ['twenty eight, no, twenty eight point five', 'sayAgain notUnderstood'],
  ['twenty eight point', 'incomplete missing'],
  ['two eight two', 'negative value'],
  ['checked', 'incomplete valueless'],
  ['twenty six point five, correction, twenty eight point two', 'correct'],
])('bus voltage, 27.5 to 29: "%s" is %s', (text, told) => {
  const { verdict, because } = verdictOf(begun().hear(text, { by: 'typed' })) ?? {}
  expect([verdict, because].filter((word) => word !== undefined).join(' ')).toBe(told)
})

describe('a reading outside its limits', () => {
  it('is negative, says what was heard and on which side, and never the limit', () => {
    const run = begun().hear('two six point one')
    expect(run.said()).toContain('I heard two six point one, below limit.')
    expect(begun().hear('three one').said()).toContain('I heard three one point zero, over limit.')
  })

  it('offers to leave it open or pass it when it is read the same again', () => {
    expect(begun().hear('two six').hear('two six').said()).toContain('Leave it open or pass?')
  })

  it('is coached with the limit, and is not marked as given', () => {
    const run = begun({ coachAfter: 1 }).hear('two six')
    expect(run.said()).toContain('Bus voltage, between two seven point five and two nine point zero.')
    expect(run.state.items['beforeStart.volts']?.revealed).toBe(false)
  })
})

it('goes by a figure where that limits it, and is open again when that moves', () => {
  const at = begun().hear('twenty eight').hear('forty five')
  const hot = at.hear('seven four zero')
  expect(verdictOf(hot)?.because).toBe('limit')
  const right = hot.hear('seven one zero')
  expect(verdictOf(right)?.verdict).toBe('correct')
  const lowered = right.happen(figuresOf(PACK, sheet({ topItt: 700 }), 2, right.state.values))
  expect(lowered.said()).toContain('Recheck turbine temperature.')
})

it('waits for the figure that limits it', () => {
  const run = flown(PACK).happen(called()).hear('twenty eight').hear('forty')
  expect(run.said()).toContain('No figure yet for top temperature.')
})

it('keeps what was noted, and tells it again only then', () => {
  const run = begun()
  expect(run.hear('confirm time off').said()).toContain('Time off, read it off the gauge.')
  const noted = run.hear('twenty eight').hear('sixty degrees').hear('seven hundred').hear('one four three five')
  expect(verdictOf(noted)?.verdict).toBe('correct')
  expect(noted.state.readings).toEqual({ volts: 28, oil: 60, itt: 700, off: '1435' })
  expect(noted.hear('confirm time off').said()).toContain('Time off, one four three five.')
  expect(noted.state.items['beforeStart.off']?.revealed).toBe(false)
  expect(noted.state.revealedFigures).toEqual([])
  const done = noted.hear('seventeen fifty foot pounds')
  const [list] = debriefOf(PACK, done.events).lists
  expect(list?.complete).toBe(true)
  expect(list?.items.map(({ readings }) => readings.join())).toEqual([
    'bus voltage 28 V',
    'oil temperature 60°C',
    'turbine temperature 700°C',
    'time off 1435',
    'torque 1,750 ft lb',
  ])
})

it('is told in the debrief with its limits', () => {
  const run = begun().hear('two six').hear('two eight')
  const [first] = debriefOf(PACK, run.events).foremost
  expect(first).toMatchObject({ kind: 'limit', about: 'bus', why: 'Bus voltage: 27.5 to 29 V is within limits.' })
})

it('listens for the unit and for no value: the grammar is the same whatever the limits are', () => {
  const other = authored({ figures: FIGURES.replace('min: 27.5, max: 29', 'min: 11, max: 14'), entries: ENTRIES })
  const grammars = [PACK, other].map((pack) => {
    const { state } = flown(pack, sheet({ topItt: 730 })).happen(called())
    return grammarOf(hearableAt(pack, state), vocabularyOf(pack))
  })
  expect(grammars[0]).toEqual(grammars[1])
  expect(vocabularyOf(PACK).besideValues).toEqual(expect.arrayContaining(['volts', 'degrees', 'foot', 'pounds']))
})

test.each([
  [
    'accept beside it',
    FIGURES.replace('read: {}', 'read: {}, accept: {tolerance: 1}'),
    ENTRIES,
    'figures.yaml:7: off is read off a gauge and has no value; where it must lie stands in read: {min, max}',
  ],
  [
    'ends of a time',
    FIGURES.replace('read: {}', 'read: {min: 3}'),
    ENTRIES,
    'figures.yaml:7: off (time) is no number; nothing is above or below it',
  ],
  [
    'the wrong way round',
    FIGURES.replace('min: 27.5, max: 29', 'min: 30, max: 29'),
    ENTRIES,
    'figures.yaml:3: volts: min 30 is above max 29',
  ],
  [
    'a limit in words',
    FIGURES.replace('max: topItt', 'max: off'),
    ENTRIES,
    'figures.yaml:5: off is read off a gauge in the run; it cannot limit another figure',
  ],
  [
    'a limit beyond the scale',
    FIGURES.replace('max: 29}', 'max: 290}'),
    ENTRIES,
    'figures.yaml:3: bus voltage 290 V is out of range: 0 to 40 V',
  ],
  [
    'computed with',
    `${FIGURES}  twice: {label: twice, kind: integer, unit: C, derived: {by: sum, of: [oil]}}\n`,
    ENTRIES,
    'figures.yaml:9: oil is read off a gauge in the run; nothing can be computed from it',
  ],
  [
    'asked of both seats',
    FIGURES,
    ENTRIES.replace('"<oil>"', '"<oil>", answers: both'),
    'procedures.yaml:9: oil is read off a gauge in the run; the other seat sees no gauge; take answers: both out',
  ],
  [
    'a route',
    `${FIGURES}  way: {label: way, kind: route, read: {}}\n`,
    ENTRIES,
    'figures.yaml:9: way (route) is no reading of a gauge; use a number, a time, digits, a heading, a runway or a choice',
  ],
])('%s is told', (_, figures, entries, told) => {
  expect(withoutColumns(problemsIn({ figures, entries }))).toEqual([told])
})

it('says a reading as it was heard where it is finer than its kind', () => {
  const run = begun().hear('28').hear('39.6')
  expect(run.said()).toContain('I heard 39.6')
  expect(run.said()).not.toContain('undefined')
})
