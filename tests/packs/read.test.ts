import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import { readPackDir } from '../../src/cli/packDir.ts'
import type { Place, Problem } from '../../src/kernel/problem.ts'
import { showProblem } from '../../src/kernel/problemLine.ts'
import { readPack } from '../../src/packs/read.ts'
import { cases } from '../cases.ts'

let texts: Readonly<Record<string, string>>
beforeAll(async () => {
  texts = (await readPackDir('checklists/marram')).texts
})

/** The demo pack with one text changed; the change must find what it changes. */
function changed(
  file: string,
  from: string,
  to: string,
): { problems: readonly Problem[]; text: string; offset: number } {
  const before = texts[file] ?? ''
  const offset = before.indexOf(from)
  if (offset < 0) throw new Error(`${file} has no ${from}`)
  const text = before.replace(from, () => to)
  return { problems: readPack({ ...texts, [file]: text }, '').problems, text, offset }
}

function placeOf(file: string, text: string, offset: number): Place {
  const lines = text.slice(0, offset).split('\n')
  return { file, line: lines.length, column: (lines.at(-1)?.length ?? 0) + 1 }
}

interface Bad {
  readonly name: string
  readonly file: string
  readonly from: string
  readonly to: string
  readonly problem: RegExp
  /** The very words, from the change on, at which the problem must stand. */
  readonly at?: string
}

const BAD: readonly Bad[] = [
  {
    name: 'a figure name misspelt in a response',
    at: '<takeofTrim>',
    file: 'procedures.yaml',
    from: 'response: "<takeoffTrim> [set]"',
    to: 'response: "<takeofTrim> [set]"',
    problem: /^no figure is called "takeofTrim"; did you mean "takeoffTrim"\?$/,
  },
  {
    name: 'a figure name misspelt where an item rests on it',
    at: 'takeofCG',
    file: 'procedures.yaml',
    from: 'restsOn: [runwayHeading]',
    to: 'restsOn: [takeofCG]',
    problem: /^no figure is called "takeofCG"; did you mean "takeoffCg"\?$/,
  },
  {
    name: 'a figure name misspelt where a step sets it',
    at: 'vrr',
    file: 'procedures.yaml',
    from: 'sets: [v1, vr, v2]',
    to: 'sets: [v1, vrr, v2]',
    problem: /^no figure is called "vrr"; did you mean "(vr|v1)"\?$/,
  },
  {
    name: 'a figure name misspelt in a calculator',
    at: 'takoffWeight',
    file: 'figures.yaml',
    from: 'weight: takeoffWeight, flap: takeoffFlap, altitude',
    to: 'weight: takoffWeight, flap: takeoffFlap, altitude',
    problem: /^no figure is called "takoffWeight"; did you mean "takeoffWeight"\?$/,
  },
  {
    name: 'a calculator that there is not',
    at: 'centerOfGravity',
    file: 'figures.yaml',
    from: 'by: centreOfGravity',
    to: 'by: centerOfGravity',
    problem: /^by "centerOfGravity" is not known; did you mean "centreOfGravity"\?$/,
  },
  {
    name: 'a word that a calculator does not take',
    at: 'cog',
    file: 'figures.yaml',
    from: '{by: percentMac, cg: zeroFuelArm}',
    to: '{by: percentMac, cog: zeroFuelArm}',
    problem: /^"cog" is not known here; did you mean "(cg|by)"\?$/,
  },
  {
    name: 'figures that rest on each other',
    file: 'figures.yaml',
    from: 'derived: {by: loadedWeight, empty: basicWeight}',
    to: 'derived: {by: sum, of: [takeoffWeight]}',
    problem: /^these figures rest on each other: sheetWeight -> takeoffWeight -> zeroFuelWeight -> sheetWeight; /,
  },
  {
    name: 'a figure without an origin',
    at: 'runway: {label',
    file: 'figures.yaml',
    from: 'runway: {label: runway, kind: runway, entered: {group: Departure}, stated: {sources: [takeoffData, flightComputer]}}',
    to: 'runway: {label: runway, kind: runway, stated: {sources: [takeoffData, flightComputer]}}',
    problem: /^runway has no value; say entered, given, read, constant or derived$/,
  },
  {
    name: 'numbers that sources state, and no word on how far they may be apart',
    at: 'stated: {sources: [loadSheet, flightComputer]}',
    file: 'figures.yaml',
    from: 'stated: {sources: [loadSheet, flightComputer], tolerance: 20}',
    to: 'stated: {sources: [loadSheet, flightComputer]}',
    problem: /^zeroFuelWeight has no tolerance; say how far apart its sources may be, 0 for not at all$/,
  },
  {
    name: 'text that sources state within a tolerance',
    at: '1}',
    file: 'figures.yaml',
    from: 'stated: {sources: [takeoffData, flightComputer]}',
    to: 'stated: {sources: [takeoffData, flightComputer], tolerance: 1}',
    problem: /^runway is text and is compared exactly; leave tolerance out$/,
  },
  {
    name: 'a source called like our own value',
    at: 'entered]',
    file: 'figures.yaml',
    from: 'stated: {sources: [takeoffData, flightComputer]}',
    to: 'stated: {sources: [takeoffData, entered]}',
    problem: /^"entered" is our own value; name who else states runway$/,
  },
  {
    name: 'a trap of a sheet that does not state its figure',
    at: '{kind: oldSheet, figure: runway, also: [v1], source: loadSheet}',
    file: 'figures.yaml',
    from: '{kind: oldSheet, figure: runway, also: [v1], source: takeoffData}',
    to: '{kind: oldSheet, figure: runway, also: [v1], source: loadSheet}',
    problem: /^the trap of runway has no source "loadSheet"; there are takeoffData, flightComputer$/,
  },
  {
    name: 'units that do not fit',
    at: 'zeroFuelWeight}',
    file: 'figures.yaml',
    from: 'derived: {by: percentMac, cg: zeroFuelArm}',
    to: 'derived: {by: percentMac, cg: zeroFuelWeight}',
    problem: /^zeroFuelWeight is in kg; percentMac needs a length \(m\) here$/,
  },
  {
    name: 'a result in a unit that the calculator does not give',
    file: 'figures.yaml',
    from: 'derived: {by: centreOfGravity, weight: zeroFuelWeight, moment: zeroFuelMoment}',
    to: 'derived: {by: moment, weight: zeroFuelWeight, arm: basicArm}',
    problem: /^moment gives a moment \(kg m\); zeroFuelArm is in m$/,
  },
  {
    name: 'a unit that there is not',
    at: 'kgs',
    file: 'figures.yaml',
    from: 'basicWeight: {label: basic weight, kind: weight, unit: kg',
    to: 'basicWeight: {label: basic weight, kind: weight, unit: kgs',
    problem: /^unit "kgs" is not known; did you mean "kg"\?$/,
  },
  {
    name: 'a kind that there is not',
    at: 'trimm',
    file: 'figures.yaml',
    from: 'kind: trim',
    to: 'kind: trimm',
    problem: /^kind "trimm" is not known; did you mean "trim"\?$/,
  },
  {
    name: 'a constant that its kind cannot hold',
    at: '-17420',
    file: 'figures.yaml',
    from: 'constant: 17420',
    to: 'constant: -17420',
    problem: /^basic weight -17,420 kg is out of range: at least 0 kg$/,
  },
  {
    name: 'a step so fine that nothing can be rounded to it',
    at: '1e-101',
    file: 'figures.yaml',
    from: 'kind: trim',
    to: 'round: {step: 1e-101, direction: nearest}\n    kind: trim',
    problem: /^step 1e-101 is too small; it should be at least 0.000001$/,
  },
  {
    name: 'a figure in an order that there is not',
    file: 'figures.yaml',
    at: 'vrr',
    from: 'orders: [[v1, vr, v2]]',
    to: 'orders: [[v1, vrr, v2]]',
    problem: /^no figure is called "vrr"/,
  },
  {
    name: 'an order of figures in other units',
    file: 'figures.yaml',
    at: 'temperature',
    from: 'orders: [[v1, vr, v2]]',
    to: 'orders: [[v1, temperature, v2]]',
    problem: /^temperature has another unit than v1; they cannot be compared$/,
  },
  {
    name: 'an order of words',
    file: 'figures.yaml',
    at: 'transponder',
    from: 'orders: [[v1, vr, v2]]',
    to: 'orders: [[v1, transponder]]',
    problem: /^transponder is no number; it has no order$/,
  },
  {
    name: 'a figure twice in one order',
    file: 'figures.yaml',
    at: 'v1]]',
    from: 'orders: [[v1, vr, v2]]',
    to: 'orders: [[v2, v1, v1]]',
    problem: /^v1 stands in this order already$/,
  },
  {
    name: 'a heading that no compass has',
    at: '361',
    file: 'figures.yaml',
    from: '\nfigures:',
    to: '\nfigures:\n  course: {label: course, kind: heading, constant: 361}',
    problem: /^course 361° is out of range: 1 to 360°$/,
  },
  {
    name: 'a constant wind in other writing',
    file: 'figures.yaml',
    from: '\nfigures:',
    to: '\nfigures:\n  wind: {label: wind, kind: wind, constant: "24/12"}',
    at: '"24/12"',
    problem: /wind "24\/12" should be direction in three digits/,
  },
  {
    name: 'a designator that is a letter of the alphabet',
    file: 'figures.yaml',
    from: '\nfigures:',
    to: '\nfigures:\n  flight: {label: flight, kind: callsign, telephony: [Delta], entered: {}}',
    at: 'telephony: [Delta]',
    problem: /neither numbers nor letters of the alphabet, not "Delta"/,
  },
  {
    name: 'a call sign of an operator that the pack does not know',
    file: 'figures.yaml',
    from: '\nfigures:',
    to: '\nfigures:\n  flight: {label: flight, kind: callsign, telephony: [Norvane], constant: "HARROW 421"}',
    at: '"HARROW 421"',
    problem: /flight "HARROW 421" should be one of its designators with a flight number/,
  },
  {
    name: 'a table that there is not',
    at: 'rotationSpeed',
    file: 'figures.yaml',
    from: 'table: rotateSpeed',
    to: 'table: rotationSpeed',
    problem: /^no table is called "rotationSpeed"; did you mean "rotateSpeed"\?$/,
  },
  {
    name: 'an axis that a table does not have',
    at: 'takeoffCg',
    file: 'figures.yaml',
    from: 'table: takeoffTrim, at: {cg: takeoffCg',
    to: 'table: takeoffTrim, at: {gc: takeoffCg',
    problem: /^table takeoffTrim has no axis "gc"; did you mean "cg"\?$/,
  },
  {
    name: 'a row missing in a table',
    file: 'tables.yaml',
    from: '      - [4.1, 3.5, 2.9]   # 26\n',
    to: '',
    problem: /^table takeoffTrim: nothing for cg 34; 6 entries for 7; where nothing is given write "---"$/,
  },
  {
    name: 'a cell missing in a row',
    at: '[4.1, 3.5]',
    file: 'tables.yaml',
    from: '[4.1, 3.5, 2.9]',
    to: '[4.1, 3.5]',
    problem: /^table takeoffTrim: nothing for flap 19; 2 entries for 3; where nothing is given write "---"$/,
  },
  {
    name: 'an axis that does not rise',
    at: '18, 26',
    file: 'tables.yaml',
    from: 'at: [10, 14, 18, 22, 26, 30, 34]',
    to: 'at: [10, 14, 22, 18, 26, 30, 34]',
    problem: /^table takeoffTrim, axis cg: 18 stands behind 22; entries must rise$/,
  },
  {
    name: 'cells that do not go the way the pack says',
    at: '5.3',
    file: 'tables.yaml',
    from: '[4.1, 3.5, 2.9]',
    to: '[4.1, 5.3, 2.9]',
    problem: /^table takeoffTrim: 5.3 stands behind 4.8 along cg, where values must not rise$/,
  },
  {
    name: 'text where a number should be',
    at: 'x, 2.9',
    file: 'tables.yaml',
    from: '[4.1, 3.5, 2.9]',
    to: '[4.1, x, 2.9]',
    problem: /^.+ should be a number$/,
  },
  {
    name: 'a situation that there is not',
    at: 'push}',
    file: 'procedures.yaml',
    from: 'when: {stand: push}',
    to: 'when: {stands: push}',
    problem: /^no situation is called "stands"; did you mean "stand"\?$/,
  },
  {
    name: 'a value that a situation does not have',
    at: '"yess"',
    file: 'procedures.yaml',
    from: '{when: {icing: "yes"}, say: "both on"}',
    to: '{when: {icing: "yess"}, say: "both on"}',
    problem: /^situation icing has no "yess"; did you mean "yes"\?$/,
  },
  {
    name: 'a situation in which an item has no response',
    file: 'procedures.yaml',
    from: '              - {when: {icing: "no"}, say: "both off"}\n',
    to: '',
    problem: /^item ice has no response for icing no$/,
  },
  {
    name: 'an item id that stands twice in a list',
    at: 'v1',
    file: 'procedures.yaml',
    from: '- item: v2',
    to: '- item: v1',
    problem: /^item "v1" stands twice; each must be its own$/,
  },
  {
    name: 'a list called by the name of another',
    at: 'before start',
    file: 'procedures.yaml',
    from: 'name: push and start\n',
    to: 'name: before start\n',
    problem: /^list name "before start" stands twice; each must be its own$/,
  },
  {
    name: 'a name that stands twice in a file',
    at: 'runway',
    file: 'figures.yaml',
    from: '  transponder:\n',
    to: '  runway:\n',
    problem: /^this name stands here twice; each may stand once$/,
  },
  {
    name: 'a response with an open bracket',
    at: '[kilograms',
    file: 'procedures.yaml',
    from: 'response: "<zeroFuelWeight> [kilograms]"',
    to: 'response: "<zeroFuelWeight> [kilograms"',
    problem: /^response: "\[" is not closed by "\]"$/,
  },
  {
    name: 'malformed YAML',
    file: 'procedures.yaml',
    from: 'entries:\n          - item: zeroFuelWeight',
    to: 'entries:\n         - - item: [zeroFuelWeight',
    at: '[zeroFuelWeight',
    problem: /^"\[" is not closed by "\]"$/,
  },
  {
    name: 'a misspelt word of an item',
    at: 'answer',
    file: 'procedures.yaml',
    from: 'answers: both',
    to: 'answer: both',
    problem: /^"answer" is not known here; did you mean "answers"\?$/,
  },
  {
    name: 'an item without its challenge',
    file: 'procedures.yaml',
    from: '            challenge: V two\n',
    to: '',
    problem: /^challenge is missing; it should be a text/,
  },
  {
    name: 'an envelope whose limits cross',
    at: '34',
    file: 'figures.yaml',
    from: '{weight: 31640, forward: 14, aft: 31}',
    to: '{weight: 31640, forward: 34, aft: 31}',
    problem: /^forward limit 34 is not ahead of aft 31$/,
  },
  {
    name: 'arms of a tank that end before it is full',
    file: 'figures.yaml',
    from: '        - {quantity: 2650, arm: 13.44}\n',
    to: '',
    problem: /^arms of leftWing go from 0 to 1800; they must go from 0 to its capacity 2650$/,
  },
  {
    name: 'a range to deal from that is the wrong way round',
    file: 'figures.yaml',
    from: 'frontHold: {min: 200, max: 900',
    to: 'frontHold: {min: 2000, max: 900',
    problem: /^frontHold: min 2000 is above max 900$/,
    at: 'frontHold',
  },
  {
    name: 'a trap about a figure that there is not',
    file: 'figures.yaml',
    from: 'kind: staleTrim, figure: takeoffTrim',
    to: 'kind: staleTrim, figure: takeofTrim',
    problem: /^no figure is called "takeofTrim"; did you mean "takeoffTrim"\?$/,
    at: 'takeofTrim',
  },
  {
    name: 'an initial situation that there is not',
    at: 'pushed',
    file: 'pack.yaml',
    from: 'initial: push',
    to: 'initial: pushed',
    problem: /^situation stand has no "pushed"; did you mean "push"\?$/,
  },
]

const BILLION = `a: &a [x, x, x, x, x, x, x, x, x]\n${['b', 'c', 'd', 'e', 'f', 'g', 'h', 'i']
  .map((name, index) => {
    const before = String.fromCharCode('a'.charCodeAt(0) + index)
    return `${name}: &${name} [${Array(9).fill(`*${before}`).join(', ')}]`
  })
  .join('\n')}`

describe('a pack with a mistake is refused with file, line, column and what would be right', () => {
  test.each(BAD)('$name', ({ file, from, to, problem, at }) => {
    const { problems, text, offset } = changed(file, from, to)
    expect(problems).toHaveLength(1)
    const found = problems.find(({ message }) => problem.test(message))
    expect(found, problems.map(showProblem).join('\n')).toBeDefined()
    expect(found?.place?.file).toBe(file)
    if (at !== undefined) expect(found?.place).toEqual(placeOf(file, text, text.indexOf(at, offset)))
  })

  test('all mistakes are told at once', () => {
    const bad = {
      ...texts,
      'figures.yaml': (texts['figures.yaml'] ?? '').replace(
        'by: percentMac, cg: landingArm',
        'by: percentMac, cg: landingWeight',
      ),
      'tables.yaml': (texts['tables.yaml'] ?? '').replace('[4.1, 3.5, 2.9]', '[4.1, 3.5]'),
      'procedures.yaml': (texts['procedures.yaml'] ?? '')
        .replace('answers: both', 'answer: both')
        .replace('<v1>', '<v3>'),
    }
    const files = readPack(bad, '').problems.map(({ place }) => place?.file)
    expect(files).toEqual(['procedures.yaml', 'tables.yaml', 'figures.yaml'])
  })

  test('missing and strange files are named', () => {
    const { 'figures.yaml': _, ...rest } = texts
    const problems = readPack({ ...rest, 'figure.yaml': '' }, '').problems.map(showProblem)
    expect(problems).toEqual([
      'figures.yaml:1:1: the pack has no figures.yaml',
      'figure.yaml:1:1: no file of a pack is called "figure.yaml"; did you mean "figures.yaml"?',
    ])
  })

  test.each([
    ['an empty file', ''],
    ['a list', '- a\n- b\n'],
    ['a text', 'hello'],
    ['control characters', '\u0000\u0001'],
    ['an anchor of itself', 'a: &a [*a]'],
    ['aliases that unfold to a billion', BILLION],
  ])('%s in place of a file is a problem, not a crash', (_, text) => {
    for (const file of ['pack.yaml', 'figures.yaml', 'tables.yaml', 'procedures.yaml']) {
      const { pack, problems } = readPack({ ...texts, [file]: text }, '')
      expect(pack).toBeUndefined()
      expect(problems.every(({ place }) => place?.file !== undefined)).toBe(true)
      expect(problems.length).toBeGreaterThan(0)
    }
  })

  test('whatever is cut out of a file or doubled in it, reading never crashes', () => {
    const files = ['pack.yaml', 'figures.yaml', 'tables.yaml', 'procedures.yaml'] as const
    const place = fc.double({ min: 0, max: 1, noNaN: true })
    fc.assert(
      fc.property(
        fc.constantFrom(...files),
        place,
        fc.integer({ min: 1, max: 60 }),
        fc.boolean(),
        (file, at, length, doubled) => {
          const text = texts[file] ?? ''
          const from = Math.floor(at * text.length)
          const cut = text.slice(from, from + length)
          const changed = text.slice(0, from) + (doubled ? cut + cut : '') + text.slice(from + length)
          const { pack, problems } = readPack({ ...texts, [file]: changed }, '')
          expect(pack === undefined).toBe(problems.length > 0)
          for (const problem of problems) expect(showProblem(problem)).toMatch(/^[a-z]+\.yaml:\d+:\d+: ./)
        },
      ),
      { numRuns: cases(150) },
    )
  })

  test('names that every object has are no figures', () => {
    const { problems } = changed('procedures.yaml', 'restsOn: [runwayHeading]', 'restsOn: [constructor]')
    expect(problems.map(({ message }) => message)).toEqual([
      'entry 1 of "restsOn" "constructor" cannot be a name here; choose another',
    ])
    const derived = changed('figures.yaml', 'of: [sheetWeight, lastMinuteWeight]', 'of: [toString, lastMinuteWeight]')
    expect(derived.problems.map(({ message }) => message)).toEqual([
      'entry 1 of "of" "toString" cannot be a name here; choose another',
    ])
  })
})
