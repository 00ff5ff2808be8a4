/** A checklist on paper becomes a pack; what is a guess is asked, and nothing else is made up. */

import { readdirSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { parse, parseDocument } from 'yaml'
import type { Figure, Figures } from '../../src/kernel/kinds/kind.ts'
import { isRight } from '../../src/kernel/response/compare.ts'
import { hypothesesOf } from '../../src/kernel/response/hypotheses.ts'
import { judge } from '../../src/kernel/response/judge.ts'
import { responseFrom } from '../../src/kernel/response/response.ts'
import { draftPack, type PackDraft } from '../../src/packs/paper/draftPack.ts'
import { readPack } from '../../src/packs/read.ts'
import { cases } from '../cases.ts'
import { PAPERS } from './papersExpected.ts'

const textOf = (name: string) => readFileSync(`tests/packs/paper/${name}.txt`, 'utf8')
const itemsOf = ({ lists }: PackDraft) => lists.flatMap((list) => list.items)
const itemsWith = ({ lists }: PackDraft) =>
  lists.flatMap(({ name, items }) =>
    items.map((item) => `${item.line} ${name}: ${item.challenge} ... ${item.response}`),
  )
const askedIn = ({ questions }: PackDraft) => [...new Set(questions.map(({ line }) => line))]
const problemsOf = ({ files }: PackDraft) => readPack(files, '').problems.map(({ message }) => message)
/** A draft of one item below a heading. */
const one = (line: string) => {
  const draft = draftPack(`BEFORE START\n\n${line}\n`)
  const [item] = itemsOf(draft)
  const questions = draft.questions.filter((question) => question.line === 3).map(({ text }) => text)
  return { draft, item, questions, figures: draft.files['figures.yaml'] ?? '' }
}

/** Every question stands where it says, and no mark stands that is not told. */
function expectMarked({ files, questions }: PackDraft): void {
  for (const { line, at } of questions) {
    expect(files[at.file]?.split('\n')[at.line - 1]?.trim()).toMatch(new RegExp(`^# \\? line ${line}: .`))
  }
  const marks = Object.values(files).flatMap((file) =>
    file.split('\n').filter((line) => line.trim().startsWith('# ? ')),
  )
  expect(marks).toHaveLength(questions.length)
}

describe.each(Object.entries(PAPERS))('the paper %s', (name, { items, asked }) => {
  const draft = draftPack(textOf(name))

  it('comes out item by item, with what is open asked', () => {
    expect(itemsWith(draft)).toEqual(items)
    expect(askedIn(draft)).toEqual(asked)
  })

  it('is a pack that check accepts, every question marked in its place', () => {
    expect(problemsOf(draft)).toEqual([])
    expectMarked(draft)
  })

  it('has answers that are right as they stand on paper, and their opposites are wrong', () => {
    for (const { challenge, response, states } of itemsOf(draft)) {
      if (response.includes('<')) continue
      const verdictOf = (text: string) =>
        judge({ challenge, response: responseFrom(response), states, figures: {}, ...hypothesesOf({ text }) }).verdict
      const said = response.replace(/[()]/g, '')
      for (const way of said.split(' | ')) expect(verdictOf(way), `${challenge}: ${way}`).toBe('correct')
      const others = states.filter((state) => !state.some((word) => said.split(' ').includes(word))).flat()
      for (const other of others) expect(verdictOf(other), `${challenge}: ${other}`).toBe('negative')
    }
  })
})

test('arrows of all kinds divide a line, and one at its end heads a list', () => {
  const lines = ['c. Voltage => 24 V MIN', 'd. Beacon -> ON', 'e. Mixture >> RICH', 'f. Doors --> CLOSED']
  const draft = draftPack(`Cockpit prep >>\n\n${lines.join('\n')}\n`)
  expect(draft.lists.map(({ name }) => name)).toEqual(['cockpit prep'])
  expect(itemsOf(draft).map(({ challenge }) => challenge)).toEqual(['voltage', 'beacon', 'mixture', 'doors'])
  expect(
    itemsOf(draft)
      .map(({ response }) => response)
      .slice(1),
  ).toEqual(['on', 'rich', 'closed'])
  expect(draft.files['figures.yaml']).toMatch(/constant: 24\n *accept: {min: 24}/)
})

test('every paper in the folder has what it comes out as', () => {
  const files = readdirSync('tests/packs/paper').map((file) => file.replace('.txt', ''))
  expect(files.toSorted()).toEqual(Object.keys(PAPERS).toSorted())
})

describe('an answer', () => {
  it.each([
    ['BEACON .... ON', 'on', [['on'], ['off']]],
    [
      'Doors: closed',
      'closed',
      [
        ['closed', 'close', 'shut'],
        ['open', 'opened'],
      ],
    ],
    ['Oxygen - On, pressure checked', '(on) (pressure checked)', [['on'], ['off']]],
    ['ICE LIGHTS ..... ON OR OFF', 'on | off', [['on'], ['off']]],
    ['GEAR ..... DOWN, 3 GREEN', '(down) (three green)', undefined],
    [
      'PARKING BRAKE ..... SET',
      'set',
      [
        ['set', 'applied', 'parked'],
        ['released', 'release', 'unset'],
      ],
    ],
    ['TRIM ..... SET', 'set', []],
    ['Fuel pumps ON', 'on', [['on'], ['off']]],
  ])('%j is taken as it stands', (line, response, states) => {
    const { item, questions } = one(line)
    expect(item?.response).toBe(response)
    if (states) expect(item?.states).toEqual(states)
    expect(questions).toEqual([])
  })

  it.each([
    ['DOORS ..... SET / CHECKED', '(set) (checked)', /are both said/],
    ['ANTI-ICE ..... ON / OFF', 'on | off', /which of them is right, and when/],
    ['ANTI-ICE ..... AS REQUIRED', 'as required', /no answer that can be checked/],
    ['POWER LEVER ..... IDLE, BETA AS REQD', 'idle beta as required', /no answer that can be checked/],
    ['FUEL PUMPS (2) .... ON', 'on', /"\(2\)" is not said here/],
    ['FUEL QUANTITY ..... STATE', 'state', /is a value said here/],
    ['DOORS ..... FLOOPED', 'flooped', /is "FLOOPED" what is said/],
    ['OIL PRESSURE .....', 'checked', /the paper gives no answer/],
    ['TRANSPONDER ..... STBY', 'standby', /"STBY" is said "standby"/],
    ['*BEACON ..... ON', 'on', /"\*" marks this item/],
    ['PRKG BRK ..... SET', 'set', /"PRKG" looks like a short form/],
    ['Set the parking brake', 'set', /is an order/],
    ['Parking brake set', 'set', /nothing divides/],
    ['PARKING BRAKE ______ SET', 'set', /may be a value that is written in/],
    ['TRIM ______ SET', '<trim> set', /may be only a line/],
    ['IF ICING: ENGINE ANTI-ICE ..... ON', 'on', /may not apply each time/],
    ['BEACON ... ON ... CHECK', '(on) (check)', /stand apart/],
    ['DOORS ... CLOSED    BEACON ... ON', 'closed', /several items stand on one line/],
  ])('%j is asked about', (line, response, question) => {
    const { item, questions, draft } = one(line)
    expect(item?.response).toBe(response)
    expect(
      questions.some((text) => question.test(text)),
      questions.join('\n'),
    ).toBe(true)
    expect(problemsOf(draft)).toEqual([])
  })
})

describe('half an answer', () => {
  it.each([
    ['STANDBY BATTERY ..... NOT ARMED', 'armed'],
    ['FUEL SELECTORS ..... BOTH ON', 'on'],
    ['MIXTURE ..... FULL RICH', 'rich'],
    ['MIXTURE ..... IDLE CUTOFF', 'idle'],
    ['DOORS ..... CLOSED AND LOCKED', 'closed'],
    ['OXYGEN ..... ON, PRESSURE CHECKED', 'on'],
    ['GEAR ..... DOWN, 3 GREEN', 'down green'],
  ])('of %j is not accepted for the whole: %j', (line, text) => {
    const { item } = one(line)
    const { challenge = '', response = '', states = [] } = item ?? {}
    const judged = judge({
      challenge,
      response: responseFrom(response),
      states,
      figures: {},
      ...hypothesesOf({ text }),
    })
    expect(judged.verdict).not.toBe('correct')
  })
})

it('heads of two columns side by side are no item', () => {
  const draft = draftPack('APPROACH            LANDING\nAltimeters   Set    Gear    Down\n')
  expect(itemsOf(draft).map(({ challenge }) => challenge)).toEqual(['altimeters', 'gear'])
  expect(askedIn(draft)).toEqual([1, 2])
})

describe('a value', () => {
  it.each([
    ['SPEED ..... ____ KNOTS', '<speed> [knots]', /kind: speed/],
    ['ZERO FUEL WEIGHT .... ____ KG', '<zeroFuelWeight> [kilograms]', /kind: weight\n +unit: kg/],
    ['TAKEOFF TRIM .... ____ UNITS UP', '<takeoffTrim>', /kind: trim\n +decimals: 1/],
    ['TAKEOFF TRIM .... __.__ UNITS DOWN', '<takeoffTrim>', /kind: trim\n +decimals: 2/],
    ['ALTIMETERS ..... QNH ____', 'q n h <altimeters>', /kind: altimeter\n +unit: hPa/],
    ['ALTIMETERS ..... ____ IN HG', '<altimeters> [inches]', /unit: inHg/],
    ['TRANSPONDER ..... ____', '<transponder>', /kind: digits\n +length: 4\n +highest: 7/],
    ['RUNWAY ..... ____', '<runway>', /kind: runway/],
    ['OAT ..... ____ °C', '<oat> [degrees]', /kind: temperature\n +unit: C/],
    ['V1 / VR .... ____ / ____', '<v1Vr> <v1Vr2>', /kind: speed/],
    ['WIDGETS ..... ____', '<widgets>', /kind: integer/],
    ['OIL PRESSURE ..... 60-80 PSI', '<oilPressure> [psi]', /constant: 60\n +accept: {min: 60, max: 80}/],
    ['BATTERY ..... MIN 24 VOLTS', '<battery> [volts]', /constant: 24\n +accept: {min: 24}/],
    ['BATTERY ..... 24 VOLTS OR MORE', '<battery> [volts]', /accept: {min: 24}/],
    ['TRIM ..... 4.5 DOWN', '<trim>', /constant: -4.5/],
    ['ALTIMETER ..... 29.92', '<altimeter>', /kind: altimeter\n +unit: inHg\n +constant: 29.92/],
    ['FLAPS ..... 15', '<flaps>', /constant: 15/],
  ])('%j is declared, and asked about', (line, response, figures) => {
    const { item, draft, ...rest } = one(line)
    expect(item?.response).toBe(response)
    expect(rest.figures).toMatch(figures)
    expect(rest.questions.length).toBeGreaterThan(0)
    expect(problemsOf(draft)).toEqual([])
  })

  it('that two lists ask for is one figure, and that is asked about', () => {
    const draft = draftPack('BEFORE START\n\nALTIMETER .... ____ HPA\n\nAPPROACH\n\nALTIMETER .... ____ HPA\n')
    expect(itemsOf(draft).map(({ response }) => response)).toEqual([
      '<altimeter> [hectopascals]',
      '<altimeter> [hectopascals]',
    ])
    expect(draft.questions.some(({ line, text }) => line === 7 && /same value as in line 3/.test(text))).toBe(true)
  })
})

describe('a unit on the paper', () => {
  it.each([
    ['TORQUE ..... ____ FT-LB', '<torque> [foot pounds]', 'ft lb'],
    ['TORQUE ..... 1,790 FT-LBS', '<torque> [foot pounds]', 'ft lb'],
    ['TORQUE ..... 1790 ft. lbs', '<torque> [foot pounds]', 'ft lb'],
    ['TORQUE ..... 1865 FT-LB MAX', '<torque> [foot pounds]', 'ft lb'],
    ['TORQUE ..... ____ Nm', '<torque> [newton meters]', 'N m'],
    ['FUEL FLOW ..... ____ LB/HR', '<fuelFlow> [pounds per hour]', '"lb/h"'],
    ['FUEL FLOW ..... 420 PPH', '<fuelFlow> [pounds per hour]', '"lb/h"'],
    ['FUEL FLOW ..... ____ KG/H', '<fuelFlow> [kilograms per hour]', '"kg/h"'],
    ['FUEL FLOW ..... 12.5 GPH', '<fuelFlow> [gallons per hour]', '"usgal/h"'],
    ['PROP ..... 1900 RPM', '<prop> [rpm]', 'rpm'],
    ['PROP RPM ..... 1750', '<propRpm>', 'rpm'],
    ['BATTERY ..... 24V', '<battery> [volts]', 'V'],
    ['BATTERY ..... 24 V DC', '<battery> [volts]', 'V'],
    ['LOAD ..... ____ A', '<load> [amps]', 'A'],
    ['OIL PRESSURE ..... 4.5 BAR', '<oilPressure> [bar]', 'bar'],
    ['OIL TEMPERATURE ..... 60 DEG C', '<oilTemperature> [degrees]', 'C'],
    ['MANIFOLD PRESSURE ..... ____ PSIG', '<manifoldPressure> [psi]', 'psi'],
    ['ALTIMETER ..... ____ IN. HG', '<altimeter> [inches]', 'inHg'],
  ])('of %j is that of the value', (line, response, unit) => {
    const { item, draft, figures } = one(line)
    expect(item?.response).toBe(response)
    expect(figures).toContain(`    unit: ${unit}\n`)
    expect(problemsOf(draft)).toEqual([])
  })

  it('of torque says nothing of weights', () => {
    expect(one('TORQUE ..... ____ FT-LB').draft.files['pack.yaml']).toContain('does not settle the unit of weights')
  })

  it('that is missing is asked, and not guessed', () => {
    const torque = one('TORQUE ..... 62')
    expect(torque.figures).not.toMatch(/^ {4}unit:/m)
    expect(torque.questions.join()).toContain('in which unit?')
    const altimeters = one('ALTIMETERS ..... ____ SET')
    expect(altimeters.figures).not.toContain('hPa\n')
    expect(altimeters.questions.join()).toContain('inches or hectopascals?')
  })

  it('of trim without a direction asks for none, and says so', () => {
    const { item, figures, questions } = one('ELEVATOR TRIM ..... ____ UNITS, SET')
    expect(item?.response).toBe('<elevatorTrim> (set)')
    expect(figures).toMatch(/kind: decimal\n +decimals: 1\n +unit: trim/)
    expect(questions.join()).toContain('the paper shows no direction')
    expect(one('RUDDER TRIM ..... ____ UNITS RIGHT').figures).toMatch(/kind: trim\n +decimals: 1\n +axis: yaw/)
  })
})

describe('names of speeds and of spools', () => {
  it.each([
    ['V SPEEDS ..... VR ____ KT, V2 ____ KT', '(V R <vr> [knots]) (V two <v2> [knots])'],
    ['POWER ..... N1 ____', 'N one <n1>'],
    ['POWER ..... NG ____', 'N G <ng>'],
    ['SPEED ..... VREF', 'V ref'],
  ])('in %j are written as they are said', (line, response) => {
    expect(one(line).item?.response).toBe(response)
    expect(problemsOf(one(line).draft)).toEqual([])
  })

  it('are so as what is asked for', () => {
    expect(one('V2 ..... ____ KT').item?.challenge).toBe('V two')
    expect(one('NG ..... 52%').item?.challenge).toBe('N G')
    expect(one('NG ..... 52%').questions.join()).not.toContain('short form')
  })

  it.each([
    ['v r eighty v two eighty five', 'correct'],
    ['VR 80 V2 85', 'correct'],
    ['v r eighty v two eighty four', 'negative'],
    ['v r eighty', 'incomplete'],
  ])('are understood as they are said: %j', (text, verdict) => {
    const { item } = one('V SPEEDS ..... VR ____ KT, V2 ____ KT')
    const { challenge = '', response = '', states = [] } = item ?? {}
    const figures: Figures = { vr: { kind: 'speed', value: 80 }, v2: { kind: 'speed', value: 85 } }
    const judged = judge({ challenge, response: responseFrom(response), states, figures, ...hypothesesOf({ text }) })
    expect(judged.verdict).toBe(verdict)
  })
})

describe('a limit', () => {
  it.each([
    ['not above 120 KIAS', 'max: 120'],
    ['never above 120 KIAS', 'max: 120'],
    ['never below 120 KIAS', 'min: 120'],
    ['must not exceed 120 KIAS', 'max: 120'],
  ])('that is denied is the other one: %s', (words, accept) => {
    const { figures, item } = one(`Speed .... ${words}`)
    expect(figures).toContain(`accept: {${accept}}`)
    expect(item?.response).toBe('<speed> [knots]')
  })

  it.each([
    ['BATTERY ..... ON, CHECK 24 V MIN', '(on) <battery> [volts]', 'min: 24', 24, 23],
    ['BATTERY ..... 24 MIN', '<battery>', 'min: 24', 25, 23],
    ['BATTERY ..... MIN 24', '<battery>', 'min: 24', 25, 23],
    ['BATTERY ..... NOT LESS THAN 24 V', '<battery> [volts]', 'min: 24', 24, 23],
    ['BATTERY ..... AT LEAST 24 V', '<battery> [volts]', 'min: 24', 28, 23],
    ['NG ..... 52% OR ABOVE', '<ng> [percent]', 'min: 52', 60, 51],
    ['FUEL ..... 980 LBS MINIMUM', '<fuel> [pounds]', 'min: 980', 1000, 970],
    ['IMBALANCE ..... NOT MORE THAN 200 LBS', '<imbalance> [pounds]', 'max: 200', 200, 210],
    ['ITT ..... MAX 740', '<itt>', 'max: 740', 740, 741],
    ['PERSONS ..... 5 OR LESS', '<persons>', 'max: 5', 4, 6],
    ['ITT ..... BELOW 685 C', '<itt> [degrees]', 'max: 684', 684, 685],
    ['PERSONS ..... ABOVE 52', '<persons>', 'min: 53', 53, 52],
    ['OIL TEMPERATURE ..... 10 TO 99 C', '<oilTemperature> [degrees]', 'min: 10, max: 99', 99, 100],
    ['OIL TEMPERATURE ..... BETWEEN 10 AND 99 C', '<oilTemperature> [degrees]', 'min: 10, max: 99', 10, 9],
    ['CABIN ALTITUDE ..... ≤ 10,000 FT', '<cabinAltitude> [feet]', 'max: 10000', 10000, 10001],
    ['CABIN ALTITUDE ..... < 10,000 FT', '<cabinAltitude> [feet]', 'max: 9999', 9900, 10000],
  ])('%j is what is accepted, and asked about', (line, response, accept, right, wrong) => {
    const { item, draft, questions, figures } = one(line)
    expect(item?.response).toBe(response)
    expect(figures).toContain(`accept: {${accept}}`)
    expect(questions.join()).toMatch(/the least that is right|the most that is right|: right is/)
    expect(problemsOf(draft)).toEqual([])
    const { pack } = readPack(draft.files, '')
    const [figure] = Object.values(pack?.figures.declarations ?? {})
    if (!figure) throw new Error('no figure')
    const { spec, accept: band } = figure
    const isTaken = (value: number) => isRight({ ...spec, value: -1, accept: band } as Figure, value)
    expect([right, wrong].map(isTaken)).toEqual([true, false])
  })

  it('that is itself wrong is told so', () => {
    expect(one('ITT ..... BELOW 685 C').questions.join()).toContain('so 685 itself is refused')
  })

  it('of minutes is asked, where a time is', () => {
    const { item, figures, questions } = one('TIMER ..... 24 MIN')
    expect(item?.response).toBe('<timer> [minutes]')
    expect(figures).not.toContain('accept')
    expect(questions.join()).toContain('or is it the least that is right?')
  })

  it('that is filled in is a value, and asked about', () => {
    const { item, questions } = one('FUEL ..... MIN ____ LBS')
    expect(item?.response).toBe('<fuel> [pounds]')
    expect(questions.join()).toContain('a limit is filled in here')
  })

  it('leaves what to do with a value unsaid, or free to be said', () => {
    expect(one('TORQUE ..... SET 1,790').item?.response).toBe('[set] <torque>')
    expect(one('OIL ..... CHECK 85 PSI').item?.response).toBe('<oil> [psi]')
    expect(one('POWER ..... MAX').item?.response).toBe('max')
  })
})

describe('the lines above all lists', () => {
  it.each([
    ['   SANDPIPER AIR\nCURLEW 208T   NORMAL CHECKLIST\nRev 4   12 MAR 26    Page 1'],
    ['SANDPIPER AIR\nCURLEW 208T\nNORMAL CHECKLIST'],
  ])('%j name the pack', (head) => {
    const draft = draftPack(`${head}\n\nBEFORE START\n1. Beacon .... ON\n`)
    expect(itemsOf(draft).map(({ challenge }) => challenge)).toEqual(['beacon'])
    expect(draft.lists.map(({ name }) => name)).toEqual(['before start'])
    expect(parse(draft.files['pack.yaml'] ?? '')).toMatchObject({
      id: 'curlew208t',
      name: 'Curlew 208T normal checklist',
      aircraft: 'Curlew 208T',
      operator: 'Sandpiper Air',
    })
    expect(askedIn(draft)).toEqual(expect.arrayContaining([1, 2]))
    expect(problemsOf(draft)).toEqual([])
  })

  it('name none where they are of a list', () => {
    const draft = draftPack('BEFORE START CHECKLIST\nBEACON .... ON\n')
    expect(draft.lists.map(({ name }) => name)).toEqual(['before start'])
    expect(draft.files['pack.yaml']).toContain('id: paperchecklist')
  })
})

describe('what is no item', () => {
  it('is no line that only begins like a caution', () => {
    const draft = draftPack('TAXI\nWARNING LIGHTS ..... OUT\nCaution panel ..... CHECKED\nFlaps ..... UP\n')
    expect(itemsOf(draft).map(({ challenge }) => challenge)).toEqual(['warning lights', 'caution panel', 'flaps'])
  })

  it('a column of conditions is told to be left out', () => {
    const draft = draftPack('Item,Condition,Response\nPitot heat,only in icing,ON\nPump,never in flight,ON\nFan,,OFF\n')
    expect(itemsOf(draft).map(({ response }) => response)).toEqual(['on', 'on', 'off'])
    const told = draft.questions.map(({ text }) => text)
    expect(told).toContain('"never in flight" stands in a column of its own and is left out')
  })

  it.each([
    ['Page 3 of 7'],
    ['- 3 -'],
    ['Issue 4, 12 March'],
    ['For simulation use only'],
    ['BEFORE START CHECKLIST COMPLETE'],
  ])('%j is left out, and told', (line) => {
    const draft = draftPack(`BEFORE START\n\nBEACON .... ON\n${line}\nDOORS .... CLOSED\n`)
    expect(itemsOf(draft).map(({ challenge }) => challenge)).toEqual(['beacon', 'doors'])
    expect(askedIn(draft)).toContain(4)
  })

  it('a caution goes to the item below it, and that is asked about; a note stays where it stands', () => {
    const draft = draftPack(
      'BEFORE START\n\nNOTE: Read aloud.\nCAUTION: Keep clear of\nthe propeller.\nBEACON .... ON\nNOTE: One only at night.\n\nDOORS .... CLOSED\n',
    )
    const { entries } = parse(draft.files['procedures.yaml'] ?? '').phases[0].activities[0]
    expect(entries).toMatchObject([
      { note: 'Read aloud.' },
      { item: 'beacon', caution: 'Keep clear of the propeller.' },
      { note: 'One only at night.' },
      { item: 'doors' },
    ])
    expect(entries[3]).not.toHaveProperty('caution')
    expect(askedIn(draft)).toEqual([1, 4])
  })
})

describe('a caution', () => {
  const cautionsIn = (text: string) =>
    parse(draftPack(text).files['procedures.yaml'] ?? '').phases[0].activities[0].entries.map(
      ({ caution }: { caution?: string }) => caution,
    )

  it.each([
    '(CAUTION: hot brakes)',
    'NOTE - WARNING hot brakes',
    'NOTE: CAUTION: hot brakes',
    'NOTE/CAUTION: hot brakes',
    'WARNING/CAUTION: hot brakes',
    'CAUTION\thot brakes',
    'CAUTION ..... hot brakes',
    '** CAUTION ** hot brakes',
    '[CAUTION] hot brakes',
    '⚠ hot brakes',
  ])('is one however it is dressed: %j', (line) => {
    expect(cautionsIn(`TAXI\n\nFuel .... ON\n${line}\nBeacon .... ON\n`)).toEqual([undefined, 'hot brakes'])
  })

  it('stands below its word alone, with bullets or without, or in the brackets of an answer', () => {
    const bullets = 'TAXI\n\nFuel .... ON\n\nCAUTION:\n- hot brakes\n- no smoking\n\nBeacon .... ON\n'
    expect(cautionsIn(bullets)).toEqual([undefined, 'hot brakes. no smoking'])
    expect(cautionsIn('TAXI\n\nFuel .... ON\nWARNING\nhot brakes\nBeacon .... ON\n')).toEqual([undefined, 'hot brakes'])
    expect(cautionsIn('TAXI\n\nCAUTION: chocks\nFuel .... ON (CAUTION: hot brakes)\n')).toEqual(['chocks. hot brakes.'])
    expect(cautionsIn('TAXI\n\nFuel .... ON (CAUTION: hot brakes)\nBeacon .... ON\n')).toEqual([
      'hot brakes',
      undefined,
    ])
    expect(itemsOf(draftPack('TAXI\n\nFuel .... ON (CAUTION: hot brakes)\n'))).toMatchObject([{ response: 'on' }])
  })

  it('of several stays apart, and a long line says how it begins', () => {
    const text = `TAXI\n\nCAUTION: one\nWARNING: two\nBeacon .... ON\nCAUTION: ${'mind it '.repeat(60)}\nFuel .... ON\n`
    expect(cautionsIn(text)).toEqual(['one. two.', undefined])
    expect(draftPack(text).questions.some(({ text }) => /it begins "CAUTION: mind it/.test(text))).toBe(true)
  })

  it('or a note above the first heading is of the list below; a note between two lists is asked about', () => {
    const text =
      'CAUTION: chocks in\nNOTE: read aloud\n\nTAXI\nBeacon .... ON\nNOTE: one\n\nNOTE: two\n\nCLIMB\nFuel .... ON\nCAUTION: last\n'
    const { phases } = parse(draftPack(text).files['procedures.yaml'] ?? '')
    const [taxi, climb] = phases.map(({ activities }: { activities: unknown[] }) => activities[0])
    expect(taxi.entries).toMatchObject([{ note: 'read aloud' }, { item: 'beacon', caution: 'chocks in' }, {}, {}])
    expect(taxi.entries.slice(2)).toEqual([{ note: 'one' }, { note: 'two' }])
    expect(climb.caution).toBe('last')
    expect(askedIn(draftPack(text))).toContain(8)
  })
})

describe('lines over two lines', () => {
  it('are joined where the second stands below the answer', () => {
    const draft = draftPack('TAXI\n\nTAKEOFF DATA ........ REVIEWED AND\n                      SET\n')
    expect(itemsOf(draft).map(({ response }) => response)).toEqual(['reviewed and set'])
  })

  it('are joined, and asked about, where the first has no answer', () => {
    const draft = draftPack('TAXI\n\nBEACON ..... ON\nENGINE BLEED AND PACK\nSWITCHES ..... ON\n')
    expect(itemsOf(draft).map(({ challenge }) => challenge)).toEqual(['beacon', 'engine bleed and pack switches'])
    expect(askedIn(draft)).toContain(4)
  })
})

describe('any text', () => {
  const PIECES = [
    'BEFORE START',
    'BEACON',
    ' .... ',
    '....',
    ' - ',
    ': ',
    '\t',
    '   ',
    '\n',
    '\n\n',
    '____',
    '__._',
    'ON',
    'on / off',
    '[ ] ',
    '(2)',
    '60-80',
    '<',
    '>',
    '{',
    '|',
    '"',
    "'",
    '#',
    '*',
    '===',
    '---',
    '1. ',
    'NOTE: ',
    'CAUTION',
    'Page 2',
    ',',
    ';',
    '\u0000',
    '\ud800',
    '\u2028',
    'é',
    '漢字',
    '=',
    '%',
    '&',
    'null',
    'constructor',
    '__proto__',
    '1e999',
    '9999999999',
    'KG',
    'trim ',
    'runway 99',
    '\\',
    '`',
    '@',
    '!',
    '? ',
    '- ',
  ]
  const text = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 400 }),
    fc.array(fc.constantFrom(...PIECES), { maxLength: 60 }).map((pieces) => pieces.join('')),
    fc
      .array(fc.oneof(fc.constantFrom(...PIECES), fc.string({ maxLength: 12 })), { maxLength: 60 })
      .map((pieces) => pieces.join('')),
  )

  it('is a draft that is YAML and a pack, with every question in its place', () => {
    fc.assert(
      fc.property(text, (paper) => {
        const draft = draftPack(paper)
        for (const file of Object.values(draft.files)) expect(parseDocument(file).errors).toEqual([])
        expect(problemsOf(draft)).toEqual([])
        expectMarked(draft)
        const last = paper.split(/\r\n|\n|\r/).length
        for (const { line } of draft.questions) expect(line >= 1 && line <= last).toBe(true)
      }),
      { numRuns: cases(200) },
    )
  })

  it.each([
    ['items', 'DOORS .... CLOSED AND LOCKED'],
    ['values', 'FUEL .... ____ KG'],
    ['headings', '\nBEFORE START\n'],
    ['words', 'DOORS CLOSED'],
    ['empty lines', ''],
    ['underscores', `${'_ '.repeat(150)}x`],
    ['brackets', '('.repeat(300)],
    ['notes', 'NOTE: again and again'],
  ])('of 100,000 lines of %s is read as far as a pack goes, and that is told', (_, line) => {
    const draft = draftPack(`${line}\n`.repeat(100_000))
    expect(problemsOf(draft)).toEqual([])
    expectMarked(draft)
    if (line !== '')
      expect(draft.questions.some(({ text: told }) => /longer than a pack|more items|more places/.test(told))).toBe(
        true,
      )
  })
})

test('two dashes and a sign like an arrow divide a line as well, and a section number is no value of what it counts', () => {
  const lines = ['3.1  RPM -- 2000', '3.2  Seats and harnesses -- ADJUSTED', '3.3  Fuel pump > ON']
  const draft = draftPack(`RUN UP\n\n${lines.join('\n')}\n`)
  expect(itemsOf(draft).map(({ challenge }) => challenge)).toEqual(['R P M', 'seats and harnesses', 'fuel pump'])
  expect(itemsOf(draft).map(({ response }) => response)).toEqual(['<rpm>', 'adjusted', 'on'])
})

it('commas before an "or" are "or" too', () => {
  const [selector] = itemsOf(draftPack('TAXI\n\nFuel selector .... LEFT, RIGHT or BOTH\n'))
  expect(selector?.response).toBe('left | right | both')
})
