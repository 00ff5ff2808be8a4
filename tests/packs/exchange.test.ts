import { beforeAll, describe, expect, test } from 'vitest'
import { readPackDir } from '../../src/cli/packDir.ts'
import { parseTemplate } from '../../src/kernel/pack/template.ts'
import { showProblem } from '../../src/kernel/problemLine.ts'
import { responseFrom } from '../../src/kernel/response/response.ts'
import { readPack } from '../../src/packs/read.ts'

/** A pack of its own, so that each mistake is the only one. */
const FIGURES = `
figures:
  runway: {label: runway, kind: runway, entered: {}}
  qnh: {label: altimeter, kind: altimeter, unit: hPa, entered: {}}
  limit: {label: clearance limit, kind: choice, options: {north: [north gate], south: [south gate]}, given: {from: [north, south]}}
  level: {label: first level, kind: altitude, given: {from: {min: 3000, max: 6000, step: 1000}}}
  squawk: {label: transponder, kind: digits, length: 4, highest: 7, given: {from: {by: runway, of: {"06": ["4271"], "24": ["2613", "0457"]}}}}
  doubled: {label: doubled level, kind: altitude, derived: {by: sum, of: [level, level]}}
`

const PROCEDURES = `
phases:
  - phase: start
    name: Start
    activities:
      - exchange: clearance
        name: departure clearance
        with: {role: controller, name: Sandmere Delivery}
        turns:
          - turn: clearance
            label: departure clearance
            calls: "[sandmere delivery] request clearance"
            opens: "clearance"
            elements:
              - element: limit
                label: clearance limit
                says: "cleared to <limit>"
                readBack: "[cleared] [to] <limit>"
              - element: level
                label: level
                alsoCalled: [altitude]
                says: {icao: "climb to <level>", faa: "maintain <level>"}
                readBack: "[climb] [to] <level>"
              - element: squawk
                label: squawk
                says: "squawk <squawk>"
                readBack: "[squawk] <squawk>"
            sets: [limit, level, squawk]
          - turn: taxi
            label: taxi
            when: {stand: push}
            calls: "request taxi"
            elements:
              - element: runway
                label: runway
                says: "runway <runway>"
                readBack: "[runway] <runway>"
              - element: hold
                label: hold short
                says: "hold short of the gate"
                readBack: "hold short [of the gate]"
            closes: "read back correct"
            interlocks: [{after: clearance.clearance, say: clearance first}]
            clears: taxi
      - briefing: brief
        name: briefing
        ends: [briefing complete]
        topics:
          - {topic: runway, label: runway, say: ["[runway] <runway>"]}
          - {topic: level, label: first level, say: ["[first] level <level>"]}
      - list: check
        name: check
        entries:
          - item: squawk
            challenge: transponder
            response: "[code] <squawk>"
          - item: level
            challenge: level
            response:
              - {when: {stand: push}, say: "push <level>"}
              - {say: "<doubled>"}
          - {item: qnh, challenge: altimeter, response: "<qnh>"}
          - {line: taxi, label: taxi clearance, say: [cleared to taxi]}
`

let base: Readonly<Record<string, string>>
beforeAll(async () => {
  const { texts } = await readPackDir('checklists/marram')
  base = { 'pack.yaml': texts['pack.yaml'] ?? '', 'figures.yaml': FIGURES, 'procedures.yaml': PROCEDURES }
})

/** The small pack with a text changed that must be there. */
function read(from = '', to = '', file: 'procedures.yaml' | 'figures.yaml' = 'procedures.yaml') {
  const before = base[file] ?? ''
  if (!before.includes(from)) throw new Error(`${file} has no ${from}`)
  return readPack({ ...base, [file]: before.replace(from, () => to) }, '')
}

const both = (text: string) => ({ icao: responseFrom(text), faa: responseFrom(text) })

describe('what one phraseology alone has', () => {
  const SQUAWK = '              - element: squawk\n'

  test('stands under the situation of the phraseology, which every pack has', () => {
    const { pack, problems } = read(SQUAWK, `${SQUAWK}                when: {radio: icao}\n`)
    // The code is set in any case, and so must be said in any case.
    expect(problems.map(showProblem).join('\n')).toContain(
      'squawk is set whenever clearance is, but said only under a condition',
    )
    expect(pack).toBeUndefined()
    const runway = '              - element: runway\n'
    const taxi = read(runway, `${runway}                when: {radio: icao}\n`)
    expect(taxi.problems).toEqual([])
  })

  test('is of one of the two', () => {
    const runway = '              - element: runway\n'
    const { problems } = read(runway, `${runway}                when: {radio: faa2}\n`)
    expect(problems.map(({ message }) => message)).toEqual(['situation radio has no "faa2"; did you mean "faa"?'])
  })

  test('is no situation of the pack’s own', () => {
    const own = 'situations:\n  radio: {label: radio, initial: "on", options: {"on": {label: "on", say: [radio on]}}}\n'
    const text = (base['pack.yaml'] ?? '').replace('situations:\n', own)
    const { problems } = readPack({ ...base, 'pack.yaml': text }, '')
    expect(problems.map(({ message }) => message).join('\n')).toContain('radio is the situation of the phraseology')
  })
})

describe('an exchange in a pack', () => {
  test('is read with its station, turns, elements and both phraseologies', () => {
    const { pack, problems } = read()
    expect(problems.map(showProblem)).toEqual([])
    const [exchange, briefing] = pack?.phases[0]?.activities ?? []
    expect(exchange).toEqual({
      type: 'exchange',
      id: 'clearance',
      name: 'departure clearance',
      station: { role: 'controller', name: 'Sandmere Delivery' },
      order: 'fixed',
      turns: [
        {
          id: 'clearance.clearance',
          label: 'departure clearance',
          calls: responseFrom('[sandmere delivery] request clearance'),
          opens: { icao: parseTemplate('clearance'), faa: parseTemplate('clearance') },
          elements: [
            {
              id: 'limit',
              label: 'clearance limit',
              alsoCalled: [],
              says: { icao: parseTemplate('cleared to <limit>'), faa: parseTemplate('cleared to <limit>') },
              readBack: both('[cleared] [to] <limit>'),
            },
            {
              id: 'level',
              label: 'level',
              alsoCalled: ['altitude'],
              says: { icao: parseTemplate('climb to <level>'), faa: parseTemplate('maintain <level>') },
              readBack: both('[climb] [to] <level>'),
            },
            {
              id: 'squawk',
              label: 'squawk',
              alsoCalled: [],
              says: { icao: parseTemplate('squawk <squawk>'), faa: parseTemplate('squawk <squawk>') },
              readBack: both('[squawk] <squawk>'),
            },
          ],
          sets: ['limit', 'level', 'squawk'],
        },
        {
          id: 'clearance.taxi',
          label: 'taxi',
          when: { each: { stand: ['push'] } },
          calls: responseFrom('request taxi'),
          elements: [
            {
              id: 'runway',
              label: 'runway',
              alsoCalled: [],
              says: { icao: parseTemplate('runway <runway>'), faa: parseTemplate('runway <runway>') },
              readBack: both('[runway] <runway>'),
            },
            {
              id: 'hold',
              label: 'hold short',
              alsoCalled: [],
              says: { icao: parseTemplate('hold short of the gate'), faa: parseTemplate('hold short of the gate') },
              readBack: both('hold short [of the gate]'),
            },
          ],
          closes: { icao: parseTemplate('read back correct'), faa: parseTemplate('read back correct') },
          sets: [],
          clears: 'taxi',
          interlocks: [{ after: 'clearance.clearance', say: 'clearance first' }],
        },
      ],
    })
    expect(briefing).toEqual({
      type: 'briefing',
      id: 'brief',
      name: 'briefing',
      ends: responseFrom('briefing complete'),
      topics: [
        { id: 'brief.runway', label: 'runway', say: [responseFrom('[runway] <runway>')] },
        { id: 'brief.level', label: 'first level', say: [responseFrom('[first] level <level>')] },
      ],
    })
  })

  test('a figure that a station gives may be left out of a revision, and keeps what it is drawn from', () => {
    const { limit, level } = read().pack?.figures.declarations ?? {}
    expect(limit).toMatchObject({ input: true, required: false, given: ['north', 'south'] })
    expect(level).toMatchObject({ given: { min: 3000, max: 6000, step: 1000 } })
  })
})

/** What is changed, what the problem says, and the words at which it must stand. */
const BAD: readonly (readonly [name: string, from: string, to: string, message: string, at: string])[] = [
  [
    'a station that says an unknown figure',
    'says: "cleared to <limit>"',
    'says: "cleared to <limmit>"',
    'no figure is called "limmit"; did you mean "limit"?',
    '<limmit>',
  ],
  [
    'an FAA wording with an unknown figure',
    'faa: "maintain <level>"',
    'faa: "maintain <leval>"',
    'no figure is called "leval"; did you mean "level"?',
    '<leval>',
  ],
  [
    'a call with an unknown figure',
    'request clearance"',
    'request clearance <stand>"',
    'no figure is called "stand"; there are runway, qnh, limit, level, squawk, doubled',
    '<stand>',
  ],
  [
    'a topic with an unknown figure',
    'say: ["[runway] <runway>"]',
    'say: ["[runway] <runwy>"]',
    'no figure is called "runwy"; did you mean "runway"?',
    '<runwy>',
  ],
  [
    'a read-back of a figure that the station never says',
    'readBack: "[squawk] <squawk>"',
    'readBack: "[squawk] <squawk> <qnh>"',
    'qnh is to be read back, but squawk never says it; add <qnh> to says',
    '"[squawk] <squawk> <qnh>"',
  ],
  [
    'a read-back of a figure that only one phraseology says',
    'faa: "maintain <level>"',
    'faa: "maintain the level"',
    'level is to be read back, but only one of icao and faa says it',
    '"[climb] [to] <level>"',
  ],
  [
    'a figure that is set and that no element says',
    'sets: [limit, level, squawk]',
    'sets: [limit, level, squawk, qnh]',
    'qnh is set here, but no element of clearance says it; add an element with <qnh>',
    'qnh]',
  ],
  [
    'a figure that is set and only sometimes said',
    'label: clearance limit\n',
    'label: clearance limit\n                when: {stand: push}\n',
    'limit is set whenever clearance is, but said only under a condition; put the condition on the turn',
    'limit, level, squawk]',
  ],
  [
    'a computed figure that is set',
    'sets: [limit, level, squawk]',
    'sets: [limit, level, squawk, doubled]',
    'doubled is computed; only what is entered or given can be set here',
    'doubled]',
  ],
  [
    'a figure left unset by every exchange before what rests on it',
    'sets: [limit, level, squawk]',
    'sets: [limit, level]',
    'squawk is needed here, and no exchange before this sets it',
    '"[code] <squawk>"',
  ],
  [
    'a figure left unset in one situation',
    'label: departure clearance\n            calls',
    'label: departure clearance\n            when: {stand: push}\n            calls',
    'squawk is needed here, and no exchange before this sets it where stand own; clearance.clearance sets it only in other cases',
    '"[code] <squawk>"',
  ],
  [
    'an interlock after an unknown turn',
    'after: clearance.clearance',
    'after: clearance.clearence',
    'clearance has nothing called "clearence"; did you mean "clearance"?',
    'clearance.clearence',
  ],
  [
    'two elements of one name',
    'label: squawk',
    'label: Level',
    'element label "Level" stands twice; each must be its own',
    'Level',
  ],
  [
    'an element called by the name of another',
    'alsoCalled: [altitude]',
    'alsoCalled: [clearance limit]',
    'element label "clearance limit" stands twice; each must be its own',
    'clearance limit]',
  ],
  [
    'a word that is called like a figure of the turn',
    'readBack: "[cleared] [to] <limit>"',
    'readBack: "[squawk] [to] <limit>"',
    '"squawk" stands for something else in this turn too; write it otherwise or name it with a {tag}',
    '"[squawk] [to] <limit>"',
  ],
  [
    'a word that another element demands',
    'readBack: "[runway] <runway>"',
    'readBack: "runway <runway> [hold short]"',
    '"hold short" stands for something else in this turn too; write it otherwise or name it with a {tag}',
    '"runway <runway> [hold short]"',
  ],
  [
    'a turn that stands twice',
    'turn: taxi',
    'turn: clearance',
    'turn "clearance" stands twice; each must be its own',
    'clearance\n            label: taxi',
  ],
  [
    'a call that is not in the notation',
    'calls: "request taxi"',
    'calls: "request [taxi"',
    'calls: "[" is not closed by "]"',
    '[taxi"',
  ],
  [
    'brackets in what the station says',
    'says: "squawk <squawk>"',
    'says: "[squawk] <squawk>"',
    '"[" is no part of what is said; use words and <figure>, brackets belong in a readBack',
    '[squawk] <squawk>"\n                readBack',
  ],
  [
    'a turn in which nothing is said',
    'opens: "clearance"',
    'opens: "clearance"\n            elements: []\n          - turn: empty\n            label: empty\n          - turn: rest\n            label: rest\n            calls: "request rest"',
    'turn empty says nothing; it should have calls, opens or elements',
    'empty\n',
  ],
  [
    'a role that there is not',
    'role: controller',
    'role: controler',
    'role "controler" is not known; did you mean "controller"?',
    'controler',
  ],
  [
    'a misspelt word of a turn',
    'opens: "clearance"',
    'open: "clearance"',
    '"open" is not known here; did you mean "opens"?',
    'open:',
  ],
  [
    'a clearance that nothing waits for',
    'clears: taxi',
    'clears: taxy',
    'nothing waits for the clearance "taxy"; did you mean "taxi"?',
    'taxy',
  ],
]

/** The small pack with several texts changed. */
function readWith(
  procedures: readonly (readonly [string, string])[],
  figures: readonly (readonly [string, string])[] = [],
) {
  const changed = (file: string, changes: readonly (readonly [string, string])[]) =>
    changes.reduce((text, [from, to]) => {
      if (!text.includes(from)) throw new Error(`${file} has no ${from}`)
      return text.replace(from, () => to)
    }, base[file] ?? '')
  const own = {
    'procedures.yaml': changed('procedures.yaml', procedures),
    'figures.yaml': changed('figures.yaml', figures),
  }
  return readPack({ ...base, ...own }, '').problems.map(({ message }) => message)
}

describe('where the order of the turns is the pilot’s', () => {
  const NAMED = ['calls: "request taxi"', 'calls: "request taxi <squawk>"'] as const
  const FREE = ['Sandmere Delivery}\n', 'Sandmere Delivery}\n        order: free\n'] as const
  const WAITS = 'interlocks: [{after: clearance.clearance, say: clearance first}]'
  const UNSET = 'squawk is needed here, and no exchange before this sets it'

  test('only a turn that is waited for has set a figure before', () => {
    expect(readWith([FREE, NAMED])).toEqual([])
    expect(readWith([FREE, NAMED, [WAITS, '']])).toEqual([UNSET])
    expect(readWith([NAMED, [WAITS, '']])).toEqual([])
  })

  test('a turn that is waited for through another one counts', () => {
    const third =
      'clears: taxi\n          - {turn: later, label: later, calls: "code <squawk>", interlocks: [{after: clearance.taxi, say: taxi first}]}'
    expect(readWith([FREE, ['clears: taxi', third]])).toEqual([])
    expect(readWith([FREE, ['clears: taxi', third], [WAITS, '']])).toEqual([UNSET])
  })

  test('an exchange behind it finds all that it sets', () => {
    expect(readWith([FREE])).toEqual([])
  })
})

describe('a station', () => {
  const OPTIONAL = ['unit: hPa, entered: {}', 'unit: hPa, entered: {required: false}'] as const
  const HOLE = 'qnh may be left out: nothing would be said for it; make qnh required or given'

  test.each([
    ['opens', ['opens: "clearance"', 'opens: "altimeter <qnh>"']],
    ['an element', ['says: "runway <runway>"', 'says: "runway <runway> altimeter <qnh>"']],
    ['an element in one phraseology', ['faa: "maintain <level>"', 'faa: "maintain <level> altimeter <qnh>"']],
    ['closes', ['closes: "read back correct"', 'closes: "read back correct <qnh>"']],
  ] as const)('does not say what may be left out (%s)', (_, change) => {
    expect(readWith([change], [OPTIONAL])).toContain(HOLE)
    expect(readWith([change])).not.toContain(HOLE)
  })

  test('does not say what rests on something that may be left out, unless its calculator does without', () => {
    const says = ['opens: "clearance"', 'opens: "<twice>"'] as const
    const twice = (derived: string) => [
      OPTIONAL,
      ['figures:\n', `figures:\n  twice: {label: twice, kind: altitude, derived: ${derived}}\n`] as const,
    ]
    expect(readWith([says], twice('{by: pressureAltitude, elevation: 400, setting: qnh}'))).toContain(
      'twice rests on qnh, which may be left out: nothing would be said for it; make qnh required or given',
    )
    const thrust = (outside: string, assumed: string) =>
      readWith(
        [['opens: "clearance"', 'opens: "<thrust>"']],
        [
          [
            'figures:\n',
            `figures:
  air: {label: air, kind: temperature, unit: C, entered: {}}
  warm: {label: warm, kind: temperature, unit: C, entered: {required: false}}
  thrust: {label: thrust, kind: temperature, unit: C, derived: {by: thrustTemperature, outside: ${outside}, assumed: ${assumed}, most: 52}}
`,
          ],
        ],
      )
    expect(thrust('air', 'warm')).toEqual([])
    expect(thrust('warm', 'air')).toEqual([expect.stringContaining('thrust rests on warm, which may be left out')])
  })

  test('does not say what is worked out of a figure before that is set', () => {
    const message = 'level is needed here, and no exchange before this sets it'
    expect(readWith([['opens: "clearance"', 'opens: "clearance <doubled>"']])).toEqual([message])
    expect(readWith([['closes: "read back correct"', 'closes: "level <doubled>"']])).toEqual([])
  })
})

describe('an exchange with a mistake is refused with line, column and what would be right', () => {
  test.each(BAD)('%s', (_, from, to, message, at) => {
    const { pack, problems } = read(from, to)
    expect(pack).toBeUndefined()
    const text = (base['procedures.yaml'] ?? '').replace(from, () => to)
    const found = problems.find((problem) => problem.message === message)
    expect(found, problems.map(showProblem).join('\n')).toBeDefined()
    const change = (base['procedures.yaml'] ?? '').indexOf(from)
    const near = text.indexOf(at, change)
    const lines = text.slice(0, near >= 0 ? near : text.indexOf(at)).split('\n')
    expect(found?.place).toEqual({
      file: 'procedures.yaml',
      line: lines.length,
      column: (lines.at(-1)?.length ?? 0) + 1,
    })
  })

  test.each([
    ['nothing to choose from', '[north, south]', '[]', /^from is too short; it should be a list of at least 1/],
    ['a value that the kind does not have', '[north, south]', '[north, west]', /"west" should be one of its positions/],
    [
      'a range the wrong way round',
      'min: 3000, max: 6000',
      'min: 6000, max: 3000',
      /^level: min 6000 is above max 3000$/,
    ],
    ['a case of a figure that there is not', 'by: runway', 'by: runwy', /^no figure is called "runwy"; did you mean/],
    ['a case that the other figure cannot be', '"06": ["4271"]', '"6": ["4271"]', /^runway "6" should be 01 to 36/],
    [
      'a second origin',
      'digits, length: 4,',
      'digits, length: 4, entered: {},',
      /^squawk has more than one of entered, given/,
    ],
  ])('what a station may give: %s', (_, from, to, message) => {
    const { problems } = read(from, to, 'figures.yaml')
    expect(problems.map((problem) => problem.message)).toContainEqual(expect.stringMatching(message))
  })
})

describe('what must be read back by rule', () => {
  test.each([
    ['a level', '                readBack: "[climb] [to] <level>"\n', '', /^level \(altitude\) is one of those/],
    [
      'a code',
      'readBack: "[squawk] <squawk>"',
      'readBack: "[squawk] [<squawk>]"',
      /^squawk \(digits\) is one of those/,
    ],
    ['a runway', '                readBack: "[runway] <runway>"\n', '', /^runway \(runway\) is one of those/],
    ['hold short', 'hold short [of the gate]', '[hold short] of the gate', /^"hold short" must always be read back/],
    ['hold short in other words', 'hold short [of the gate]', '(hold short | stop)', /^"hold short" must always be/],
  ])('is advised, not demanded: %s', (_, from, to, message) => {
    const { pack, problems } = read(from, to)
    expect(pack).toBeDefined()
    expect(problems).toEqual([
      expect.objectContaining({
        severity: 'advice',
        message: expect.stringMatching(message),
        place: expect.anything(),
      }),
    ])
  })

  test('is nothing that the ground crew asks for', () => {
    const { problems } = read('role: controller', 'role: groundCrew')
    expect(problems).toEqual([])
  })
})

/** A turn whose elements are said and read back in both phraseologies, each with its own. */
const SETTING = `          - turn: setting
            label: setting
            calls: "request setting"
            opens: {icao: "runway <runway>", faa: "wind calm"}
            elements:
              - element: altimeter
                label: altimeter
                says: {icao: "q n h <qnh>", faa: "altimeter <inches>"}
                readBack: {icao: "<qnh> [<runway>]", faa: "<inches>"}
              - element: squawk
                label: squawk
                says: "squawk <squawk>"
                readBack: "<squawk>"
            faaOrder: [squawk, altimeter]
`
const INCHES = '  inches: {label: inches, kind: altimeter, unit: inHg, derived: {by: same, of: qnh}}\n'
const ENTERED = 'entered: {plausible: {max: 1045}, later: {most: 3, step: 1}}'

/** The small pack with such a turn and with later settings, a text of it changed; and the place of each problem. */
function withSetting(from = '', to = '') {
  const whole = {
    'procedures.yaml': (base['procedures.yaml'] ?? '').replace('          - turn: taxi\n', (taxi) => SETTING + taxi),
    'figures.yaml': FIGURES.replace('unit: hPa, entered: {}', () => `unit: hPa, ${ENTERED}`) + INCHES,
  }
  const changed = Object.entries(whole).map(([file, text]) => [file, text.replace(from, () => to)] as const)
  if (!Object.values(whole).some((text) => text.includes(from))) throw new Error(`nothing has ${from}`)
  const texts = Object.fromEntries(changed)
  /** Line and column of the first of these words behind the change. */
  const placeOf = (file: keyof typeof whole, words: string) => {
    const found = texts[file]?.indexOf(words, whole[file].indexOf(from)) ?? -1
    if (found < 0) throw new Error(`${file} has no ${words}`)
    const lines = (texts[file] ?? '').slice(0, found).split('\n')
    return { file, line: lines.length, column: (lines.at(-1)?.length ?? 0) + 1 }
  }
  return { ...readPack({ ...base, ...texts }, ''), placeOf }
}

describe('what each phraseology has of its own', () => {
  test('is said and read back in that one, and nothing is wrong with it', () => {
    const { pack, problems } = withSetting()
    expect(problems.map(showProblem)).toEqual([])
    const [exchange] = pack?.phases[0]?.activities ?? []
    const turn = exchange?.type === 'exchange' ? exchange.turns[1] : undefined
    expect(turn?.faaOrder).toEqual(['squawk', 'altimeter'])
    expect(turn?.elements[0]?.readBack).toEqual({
      icao: responseFrom('<qnh> [<runway>]'),
      faa: responseFrom('<inches>'),
    })
  })

  test('need not be read back in the other: what is advised is advised for one that says it', () => {
    const only = withSetting('faa: "altimeter <inches>"}', 'faa: "setting later"}').problems
    expect(only.map(({ message }) => message)).toEqual([
      'inches is to be read back, but altimeter never says it; add <inches> to says',
    ])
    const none = ['says: {icao: "q n h <qnh>", faa: "altimeter <inches>"}', '[<runway>]", faa: "<inches>"}'] as const
    const text = SETTING.replace(none[0], 'says: {icao: "q n h <qnh>", faa: "setting later"}')
    expect(withSetting(SETTING, text.replace(none[1], '[<runway>]", faa: "setting later"}')).problems).toEqual([])
    expect(withSetting(SETTING, text.replace(none[1], '[<runway>]", faa: "[later]"}')).problems).toEqual([])
    expect(withSetting('faa: "<inches>"}', 'faa: "[<inches>]"}').problems).toEqual([
      expect.objectContaining({ code: 'readBack.owed', severity: 'advice' }),
    ])
    const hold = ['says: "hold short of the gate"', 'says: {icao: "hold short of the gate", faa: "stop at the gate"}']
    const stop = ['readBack: "hold short [of the gate]"', 'readBack: {icao: "hold short", faa: "stop"}']
    expect(readWith([hold, stop] as unknown as (readonly [string, string])[])).toEqual([])
  })

  test.each([
    [
      'an unknown figure in one read-back',
      ['faa: "<inches>"}', 'faa: "<inchs>"}', 'procedures.yaml', '<inchs>'],
      'no figure is called "inchs"; did you mean "inches"?',
    ],
    [
      'a figure that the other phraseology says',
      ['faa: "<inches>"}', 'faa: "<qnh>"}', 'procedures.yaml', '"<qnh>"}'],
      'qnh is to be read back, but altimeter never says it; add <qnh> to says',
    ],
    [
      'a figure that only the opening of the other phraseology says',
      ['faa: "<inches>"}', 'faa: "<inches> [<runway>]"}', 'procedures.yaml', '"<inches> [<runway>]"'],
      'runway is to be read back, but altimeter never says it; add <runway> to says',
    ],
    [
      'a read-back of one phraseology alone',
      [
        'readBack: {icao: "<qnh> [<runway>]", faa: "<inches>"}',
        'readBack: {icao: "<qnh>"}',
        'procedures.yaml',
        'readBack',
      ],
      'faa is missing; it should be a text',
    ],
    [
      'an order with an unknown element',
      ['[squawk, altimeter]', '[squak, altimeter, squawk]', 'procedures.yaml', 'squak,'],
      'setting has no element "squak"; did you mean "squawk"?',
    ],
    [
      'an order that leaves an element out',
      ['faaOrder: [squawk, altimeter]', 'faaOrder: [squawk]', 'procedures.yaml', 'faaOrder'],
      'faaOrder should name every element of setting once; add altimeter',
    ],
    [
      'an order that names an element twice',
      ['[squawk, altimeter]', '[squawk, altimeter, squawk]', 'procedures.yaml', 'squawk]'],
      'element "squawk" stands twice; each must be its own',
    ],
    [
      'a later value of what is no number',
      ['kind: runway, entered: {}', 'kind: runway, entered: {later: {most: 3, step: 1}}', 'figures.yaml', 'later'],
      'runway (runway) is no number; only a number can have a later value so far away',
    ],
    [
      'a later value that is not one step away',
      ['most: 3, step: 1', 'most: 1, step: 2', 'figures.yaml', '1, step'],
      'qnh: most 1 is below one step, 2',
    ],
    [
      'a later value that is never reached',
      ['most: 3, step: 1', 'most: 3, step: 1, min: 1050', 'figures.yaml', '1050'],
      'qnh: min 1050 is above 1045, the most it may be; no later value is left',
    ],
    [
      'a later value no step away',
      ['most: 3, step: 1', 'most: 3, step: 0', 'figures.yaml', '0}'],
      expect.stringMatching(/^step .*too small/),
    ],
    [
      'a misspelt word of a later value',
      ['most: 3, step: 1', 'most: 3, step: 1, mim: 2', 'figures.yaml', 'mim'],
      '"mim" is not known here; did you mean "min"?',
    ],
  ] as const)('is refused with its place and a remedy: %s', (_, [from, to, file, at], message) => {
    const { pack, problems, placeOf } = withSetting(from, to)
    expect(pack).toBeUndefined()
    expect(problems.map(({ message, place }) => ({ message, place }))).toContainEqual({
      message,
      place: placeOf(file, at),
    })
  })
})
