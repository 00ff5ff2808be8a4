/** Forms write the same text as a hand does: every other letter stays, and every comment. */

import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { withField, withGroup, withThing, withTop } from '../../../src/packs/forms/change.ts'
import { type Demands, demandsText, demandsTyped } from '../../../src/packs/forms/conditionText.ts'
import { edited } from '../../../src/packs/forms/edits.ts'
import { type Field, type Form, formAt } from '../../../src/packs/forms/form.ts'
import { cellValue, narrowed, pastedInto, widened } from '../../../src/packs/forms/grid.ts'
import { questionAfter, questionsIn, settled } from '../../../src/packs/forms/questions.ts'
import { SMALL_PACK } from '../../fakes/smallPack.ts'

const FILES: Readonly<Record<'figures.yaml' | 'procedures.yaml' | 'tables.yaml', string>> = {
  'figures.yaml': SMALL_PACK['figures.yaml'] ?? '',

  'procedures.yaml': `# All of it.
phases:
  - phase: before
    name: Before takeoff # as the book has it
    activities:
      - list: takeoff
        name: before takeoff
        entries:
          # The fuel first.
          - {item: fuel, challenge: fuel on board, response: "<fuel> [kilograms]"} # by weight
          # ? line 3: both?
          - item: canopy
            challenge: 'canopy' # said so
            response:
              - {when: {icing: "yes"}, say: closed}
              - {say: locked}
            look: [left,  right]
            # The end.
          - {item: runway, challenge: runway, response: "[runway] <runway>", restsOn: [fuel]}
`,
  'tables.yaml': `tables:
  v:
    label: speed
    unit: kt
    axes:
      - {name: weight, unit: kg, at: [100, 200]}
      - {name: flap, choices: ["5", "15"]}
    cells:
      - [90, 80] # light
      - [95, 85]
`,
}
const text = FILES['procedures.yaml']

function formOf(file: keyof typeof FILES | 'figures.yaml', at: string, files: Record<string, string> = FILES): Form {
  const view = formAt(files, file, (files[file] ?? '').indexOf(at))
  if (!view?.form) throw new Error(`no form at ${at}`)
  return view.form
}
const fieldOf = (form: Form, label: string): Field => {
  const field = form.fields.find((one) => one.label === label)
  if (!field) throw new Error(`no field ${label}: ${form.fields.map((one) => one.label)}`)
  return field
}

describe('a form', () => {
  it('is of the innermost thing at the cursor, and has its fields from the schema', () => {
    const form = formOf('procedures.yaml', 'challenge: runway')
    expect([form.kind, form.title, form.at, form.of]).toEqual(['item', 'runway', 2, 3])
    expect(fieldOf(form, 'response')).toMatchObject({ shape: 'text', value: '[runway] <runway>', isNeeded: true })
    expect(fieldOf(form, 'rests on')).toMatchObject({ shape: 'texts', value: ['fuel'], choices: ['fuel', 'runway'] })
    expect(fieldOf(form, 'answers')).toMatchObject({ shape: 'choice', choices: ['pilot', 'both'], isNeeded: false })
    expect(fieldOf(form, 'memory').help).toMatch(/^Said from memory/)
    const list = formOf('procedures.yaml', 'name: before takeoff')
    expect(list.kind).toBe('list')
    expect(fieldOf(list, 'list').help).toMatch(/as other places call it; these are not changed with it/)
    expect(fieldOf(list, 'name').help).not.toMatch(/other places/)
    expect(formOf('figures.yaml', 'fuel on board').kind).toBe('figure')
  })

  it('names what it leaves alone: cases of a response, a text over several lines, a reference', () => {
    expect(formOf('procedures.yaml', 'item: canopy').leftAlone).toEqual(['response'])
    const files = { ...FILES, 'procedures.yaml': text.replace("'canopy' # said so", '|\n              canopy') }
    expect(formOf('procedures.yaml', 'item: canopy', files).leftAlone).toEqual(['challenge', 'response'])
    const named = {
      ...FILES,
      'procedures.yaml': text.replace("'canopy'", '&c canopy').replace('challenge: runway', 'challenge: *c'),
    }
    expect(formOf('procedures.yaml', 'item: runway', named).leftAlone).toEqual(['challenge'])
  })

  it('offers all kinds of a figure, and the fields of the one that it has', () => {
    const form = formOf('figures.yaml', 'fuel on board')
    expect(fieldOf(form, 'kind').choices).toContain('trim')
    const entered = fieldOf(form, 'entered')
    expect(entered.fields.map(({ label }) => label)).toEqual(['group', 'required', 'plausible', 'later'])
  })

  it('shows each problem in its field', () => {
    const place = { file: 'procedures.yaml', line: 20, column: text.split('\n')[18]?.indexOf('[runway]') ?? 0 }
    const problem = { code: 'x', message: 'wrong', severity: 'error', place: { ...place, line: 19 } } as const
    const view = formAt({ ...FILES }, 'procedures.yaml', text.indexOf('challenge: runway'), [problem])
    expect(view?.form && fieldOf(view.form, 'response').problems).toEqual([problem])
    expect(view?.form?.problems).toEqual([])
  })
})

describe('a field', () => {
  const write = (at: string, label: string, value: Parameters<typeof withField>[2]) =>
    withField(text, fieldOf(formOf('procedures.yaml', at), label), value)

  it('changes its own letters alone, in the quotes that stood there', () => {
    expect(write('item: canopy', 'challenge', 'canopy, both')).toBe(text.replace("'canopy'", "'canopy, both'"))
    expect(write('item: fuel', 'response', '<fuel>')).toBe(text.replace('<fuel> [kilograms]', '<fuel>'))
    expect(write('item: fuel', 'challenge', 'on')).toBe(text.replace('fuel on board', '"on"'))
  })

  it('is put in behind what comes before it, and taken out again', () => {
    const critical = write('item: fuel', 'critical', true)
    expect(critical).toBe(text.replace('[kilograms]"}', '[kilograms]", critical: true}'))
    const look = write('item: canopy', 'critical', true)
    expect(look).toBe(text.replace('[left,  right]\n', '[left,  right]\n            critical: true\n'))
    const caution = write('list: takeoff', 'caution', 'Mind: it')
    expect(caution).toBe(
      text.replace('takeoff\n        entries', 'takeoff\n        caution: "Mind: it"\n        entries'),
    )
    expect(write('item: runway', 'rests on', undefined)).toBe(text.replace(', restsOn: [fuel]', ''))
    expect(write('item: canopy', 'look', undefined)).toBe(text.replace('            look: [left,  right]\n', ''))
  })

  it('of a group comes with it', () => {
    const figures = FILES['figures.yaml'] ?? ''
    const round = fieldOf(formOf('figures.yaml', 'fuel on board'), 'round')
    const there = withGroup(figures, round, true) ?? ''
    expect(there).toBe(figures.replace('max: 60}}}', 'max: 60}}, round: {}}'))
    const step = fieldOf(formOf('figures.yaml', 'fuel on board', { ...FILES, 'figures.yaml': there }), 'round')
      .fields[0]
    expect(step && withField(there, step, 5)).toBe(there.replace('round: {}', 'round: {step: 5}'))
  })

  it('is refused where a comment would go with it', () => {
    const noted = text.replace('[left,  right]', '[left, # port\n              right]')
    expect(
      edited(noted, { type: 'set', path: ['phases', 0, 'activities', 0, 'entries', 1, 'look'], value: [] }),
    ).toBeUndefined()
  })
})

describe('an open question', () => {
  it('stands in the form of what it asks about, and goes with its comment alone', () => {
    const [question, ...more] = formOf('procedures.yaml', 'item: canopy').questions
    expect([question?.text, more]).toEqual(['line 3: both?', []])
    expect(formOf('procedures.yaml', 'item: fuel').questions).toEqual([])
    expect(question && settled(text, question)).toBe(text.replace('          # ? line 3: both?\n', ''))
  })

  it('is found one after the other, and stands by itself where nothing it asks about has a form', () => {
    const asked = `# ? line 1: one phase?\n${text}`
    const [first, second] = questionsIn(asked)
    expect(formAt({ 'procedures.yaml': asked }, 'procedures.yaml', 0)?.questions).toEqual([first])
    expect(questionAfter(questionsIn(asked), 0)?.about).toBe(asked.indexOf('phases:'))
    expect(questionAfter(questionsIn(asked), first?.about ?? 0)).toEqual(second)
    expect(questionAfter(questionsIn(asked), asked.length)).toEqual(first)
    expect(asked.slice(second?.about)).toMatch(/^item: canopy/)
  })

  it('is left where the file would say something else without it', () => {
    const inText = 'name: >-\n  one\n  # ? line 2: in a text\nid: a\n'
    const [question] = questionsIn(inText)
    expect(question && settled(inText, question)).toBeUndefined()
  })
})

describe('states', () => {
  const noted = text.replace('- {item: fuel,', '- {item: fuel, states: [[open], [closed, shut]],')
  const files = { ...FILES, 'procedures.yaml': noted }

  it('are one a line, and written as a list of lists', () => {
    const states = fieldOf(formOf('procedures.yaml', 'item: fuel', files), 'states')
    expect([states.shape, states.value]).toEqual(['rows', [['open'], ['closed', 'shut']]])
    expect(withField(noted, states, [['open', 'up'], ['shut']])).toBe(
      noted.replace('[[open], [closed, shut]]', '[[open, up], [shut]]'),
    )
    const none = fieldOf(formOf('procedures.yaml', 'item: fuel'), 'states')
    expect([none.shape, none.isThere]).toEqual(['rows', false])
    expect(withField(text, none, [['on'], ['off']])).toContain('states: [["on"], ["off"]]')
  })
})

describe('values by their names', () => {
  const derived = SMALL_PACK['figures.yaml']?.replace(
    /entered: [^\n]*/,
    'derived: {by: lookUp, table: v, at: {weight: fuel}}}',
  )
  it('are one a line; a calculator is a group of its own', () => {
    const files = { ...FILES, 'figures.yaml': derived ?? '' }
    const group = fieldOf(formOf('figures.yaml', 'derived', files), 'derived')
    const at = group.fields.find(({ label }) => label === 'at')
    expect([group.shape, at?.shape, at?.value]).toEqual(['group', 'pairs', { weight: 'fuel' }])
    expect(at && withField(derived ?? '', at, { weight: 'tow', flap: 'flaps' })).toContain(
      'at: {weight: tow, flap: flaps}',
    )
  })
})

describe('a condition', () => {
  const on = (when: string) => {
    const noted = text.replace('- {item: fuel,', `- {item: fuel, when: ${when},`)
    return { noted, form: formOf('procedures.yaml', 'item: fuel', { ...FILES, 'procedures.yaml': noted }) }
  }

  it.each([
    ['{icing: "yes"}', 'icing: yes'],
    ['{runway: [wet, slippery], icing: "no"}', 'runway: wet, slippery\nicing: no'],
    ['{oat: {atLeast: -3, below: 5.5}}', 'oat: below 5.5, at least -3'],
  ])('%s is typed one demand a line, and written again as it was meant', (when, typed) => {
    const { noted, form } = on(when)
    const field = fieldOf(form, 'when')
    expect([field.shape, demandsText(field.value as Demands)]).toEqual(['condition', typed])
    const written = withField(noted, field, demandsTyped(typed.split('\n')))
    expect(parse(written ?? '')).toEqual(parse(noted))
  })

  it('is written over also where the sign of a comment stands in its value', () => {
    const { noted, form } = on('{icing: "yes # hi"}')
    const written = withField(noted, fieldOf(form, 'when'), { icing: 'no' })
    expect(written).toBe(noted.replace('{icing: "yes # hi"}', '{icing: "no"}'))
  })

  it('that joins others stands in the text alone', () => {
    const { form } = on('{any: [{icing: "yes"}, {runway: wet}]}')
    expect(form.fields.some(({ label }) => label === 'when')).toBe(false)
    expect(form.leftAlone).toEqual(['when'])
  })

  it('that is not there yet names the situations that there are, and is put in and taken out', () => {
    const pack = `${SMALL_PACK['pack.yaml']}\nsituations: {runway: {label: runway, options: {dry: {label: dry}, wet: {label: wet}}}}\n`
    const field = fieldOf(formOf('procedures.yaml', 'item: fuel', { ...FILES, 'pack.yaml': pack }), 'when')
    expect(field.shape).toBe('condition')
    expect(field.help).toMatch(/situations are runway \(dry, wet\); figures are \w+/)
    const written = withField(text, field, { runway: ['dry', 'wet'] }) ?? ''
    expect(written).toContain('when: {runway: [dry, wet]}')
    const there = fieldOf(formOf('procedures.yaml', 'item: fuel', { ...FILES, 'procedures.yaml': written }), 'when')
    expect(parse(withField(written, there, undefined) ?? '')).toEqual(parse(text))
  })

  it.each(['icing', 'icing:', ': yes', 'any: yes', 'icing: yes\nicing: no', 'oat: below 5, wet', 'runway: wet,'])(
    'is none yet: %j',
    (typed) => {
      expect(demandsTyped(typed.split('\n'))).toBeUndefined()
    },
  )
})

describe('a situation', () => {
  const pack = SMALL_PACK['pack.yaml'] ?? ''

  it('is begun with two options, to which others are added', () => {
    const begun = withTop(pack, 'pack.yaml', 'situation')
    expect(parse(begun?.text ?? '').situations.situation1.options).toEqual({
      no: { label: '', say: [''] },
      yes: { label: '', say: [''] },
    })
    const files = { ...SMALL_PACK, 'pack.yaml': begun?.text ?? '' }
    const form = formAt(files, 'pack.yaml', begun?.offset ?? 0)?.form
    expect([form?.kind, form?.name, form?.leftAlone]).toEqual(['situation', 'situation1', []])
    const option = formAt(files, 'pack.yaml', begun?.text.indexOf('yes') ?? 0)?.form
    expect([option?.kind, option?.name]).toEqual(['option', 'yes'])
    const more = option && withThing(begun?.text ?? '', 'pack.yaml', option, { beside: 'option' })
    expect(Object.keys(parse(more?.text ?? '').situations.situation1.options)).toEqual(['no', 'yes', 'option1'])
  })
})

describe('what has one of several shapes', () => {
  const figure = (rest: string) => `figures:\n  trim: {label: trim, kind: decimal, decimals: 1, ${rest}}\n`
  const form = (rest: string) => formOf('figures.yaml', 'label', { ...FILES, 'figures.yaml': figure(rest) })

  it('asks for that alone until it is told, and then for what that needs', () => {
    const needs = (rest: string) =>
      fieldOf(form(rest), 'derived')
        .fields.filter(({ isNeeded }) => isNeeded)
        .map(({ label }) => label)
    expect(fieldOf(form('derived: {}'), 'derived').fields.map(({ label }) => label)).toEqual(['by'])
    expect(needs('derived: {}')).toEqual(['by'])
    expect(needs('derived: {by: lookUp}')).toEqual(['by', 'table', 'at'])
    expect(form('derived: {by: lookUp}').fields.find(({ label }) => label === 'derived')?.fields[1]?.choices).toEqual([
      'v',
    ])
  })

  it('names the axes of the table that is looked up', () => {
    const at = form('derived: {by: lookUp, table: v}').fields.find(({ label }) => label === 'derived')?.fields[2]
    expect(at?.help).toMatch(/; axes of v: \w+/)
  })

  it('says of each what it does', () => {
    const { about, choices } = fieldOf(form('derived: {}'), 'derived').fields[0] as Field
    expect(Object.keys(about).sort()).toEqual([...choices].sort())
    expect(about.lookUp).toMatch(/^A table looked up/)
  })

  it('names what it does not have, to be taken out', () => {
    expect(form('length: 4, entered: {}').foreign).toEqual([{ path: ['figures', 'trim', 'length'], label: 'length' }])
    expect(form('entered: {}').foreign).toEqual([])
  })

  it('has a flag on where nothing else is written', () => {
    const required = fieldOf(form('entered: {}'), 'entered').fields.find(({ label }) => label === 'required')
    expect([required?.isOn, required?.value]).toEqual([true, undefined])
  })
})

describe('a thing', () => {
  const change = (
    at: string,
    what: Parameters<typeof withThing>[3],
    file: 'procedures.yaml' | 'figures.yaml' = 'procedures.yaml',
  ) => withThing(FILES[file] ?? '', file, formOf(file, at), what)
  const line = (part: string) => `${text.split('\n').find((one) => one.includes(part))}\n`

  it('is added behind the one that is shown, and the cursor stands in it', () => {
    const added = change('item: fuel', { beside: 'item' })
    const made = '          - {item: item1, challenge: "", response: ""}\n'
    expect(added?.text).toBe(text.replace('# by weight\n', `# by weight\n${made}`))
    expect(added?.text.slice(added.offset)).toMatch(/^\{item: item1/)
    const figure = change('fuel on board', { beside: 'figure' }, 'figures.yaml')
    expect(figure?.text).toContain('\n  figure1: {label: "", kind: integer, entered: {}}\n  runway')
    expect(change('item: canopy', { beside: 'item' })?.text).toContain(
      '            # The end.\n          - {item: runway'.replace('# The end.', '# The end.'),
    )
  })

  it('has what a list may hold put behind it, or into the list itself, also into an empty one', () => {
    const heading = change('item: fuel', { beside: 'heading' })
    expect(heading?.text).toBe(text.replace('# by weight\n', '# by weight\n          - {heading: ""}\n'))
    const item = change('name: before takeoff', { inside: 'item' })
    expect(item?.text.slice(item.offset)).toMatch(/^\{?item: item1/)
    expect(item?.text.indexOf('item1')).toBeGreaterThan(item?.text.indexOf('item: runway') ?? 0)
    const empty = `${text.slice(0, text.indexOf('          # The fuel'))}`.replace('entries:', 'entries: []')
    const files = { ...FILES, 'procedures.yaml': empty }
    const list = formOf('procedures.yaml', 'name: before takeoff', files)
    expect(list.inside).toEqual(['item', 'question', 'line', 'heading', 'note'])
    const first = withThing(empty, 'procedures.yaml', list, { inside: 'item' })?.text
    const made = ['', '- item: item1', '  challenge: ""', '  response: ""'].join('\n          ')
    expect(first).toBe(empty.replace('entries: []', `entries:${made}`))
  })

  it('of a kind of the file’s own is put behind the others of its kind, also in a file that is empty', () => {
    const first = withTop('', 'tables.yaml', 'table')
    expect(first?.text).toMatch(/^tables:\n {2}table1: \{label: "", unit: none, /)
    expect(first && formAt({ 'tables.yaml': first.text }, 'tables.yaml', first.offset ?? 0)?.form?.kind).toBe('table')
    const second = withTop(first?.text ?? '', 'tables.yaml', 'table')
    expect(second?.text).toMatch(/\n {2}table2: /)
    const station = withTop(FILES['figures.yaml'], 'figures.yaml', 'station')?.text ?? ''
    expect(station).toBe(FILES['figures.yaml'].replace('stations: {}', 'stations: {station1: {label: "", arm: 0}}'))
  })

  it('is taken out with its question and its comments, and moved with the comments above it', () => {
    const alone = (at: string) => change(at, 'delete')?.text
    expect(alone('item: fuel')).toBe(text.replace('          # The fuel first.\n', '').replace(line('item: fuel'), ''))
    const noted = (FILES['figures.yaml'] ?? '').replace(/\n( *)(fuel: .*)\n/, '\n$1# By weight.\n$1$2 # or by litre\n')
    const files = { ...FILES, 'figures.yaml': noted }
    const left = withThing(noted, 'figures.yaml', formOf('figures.yaml', 'fuel on board', files), 'delete')?.text
    expect(left).toBe((FILES['figures.yaml'] ?? '').replace(/\n *fuel: .*\n/, '\n'))
    expect(change('item: runway', 'delete')?.text).toBe(text.replace(line('item: runway'), ''))
    const without = change('item: canopy', 'delete')?.text ?? ''
    expect(without).not.toMatch(/canopy|line 3/)
    expect(without).toContain('# The fuel first.')
    const up = change('item: canopy', 'up')?.text ?? ''
    const before = [
      '# All of it.',
      '# ? line 3: both?',
      'item: canopy',
      '# The fuel first.',
      'item: fuel',
      'item: runway',
    ]
    expect(before.map((part) => up.indexOf(part))).toEqual(
      before.map((part) => up.indexOf(part)).toSorted((a, b) => a - b),
    )
    expect(change('fuel on board', 'down', 'figures.yaml')?.text).toMatch(/figures:\n {2}runway: .*\n {2}fuel: .*\n$/)
  })
})

describe('a table', () => {
  const table = FILES['tables.yaml']
  const grid = () => {
    const { grid } = formOf('tables.yaml', 'label: speed')
    if (!grid) throw new Error('no grid')
    return grid
  }

  it('is a grid; a block is pasted into it as a whole or not at all', () => {
    expect(grid()).toMatchObject({ down: 'weight (kg)', across: 'flap' })
    const first = grid().rows[0]?.cells[0]
    if (!first) throw new Error('no cell')
    const pasted = pastedInto(grid(), first, '91\t---\r\n96\t86\r\n')
    expect(edited(table, pasted.edits)).toBe(table.replace('[90, 80]', '[91, "---"]').replace('[95, 85]', '[96, 86]'))
    expect(pastedInto(grid(), first, '1\t2\t3')).toEqual({
      edits: [],
      left: '1 cell lies outside the table: add rows or columns first',
    })
    expect(edited(table, pastedInto(grid(), first, '1,982\t2,000.5').edits)).toBe(
      table.replace('[90, 80]', '[1982, 2000.5]'),
    )
    expect(['1,955', '12,34,567', '1,96', '\u22123'].map((typed) => cellValue(first, typed))).toEqual([
      1955,
      undefined,
      undefined,
      -3,
    ])
    expect(pastedInto(grid(), first, '1\tx')).toEqual({ edits: [], left: 'no number: x' })
    expect([cellValue(first, '-3.5'), cellValue(first, '5e9'), cellValue(first, '')]).toEqual([
      -3.5,
      undefined,
      undefined,
    ])
  })

  it('gets a row and a column more, and loses them', () => {
    const wider = edited(table, widened(grid(), 'column')) ?? ''
    expect(wider).toBe(table.replace('"15"]', '"15", "152"]').replace('80]', '80, "---"]').replace('85]', '85, "---"]'))
    const longer = edited(table, widened(grid(), 'row')) ?? ''
    expect(longer).toContain('at: [100, 200, 300]')
    expect(longer).toMatch(/\n {6}- \[95, 85\]\n {6}- \["---", "---"\]\n$/)
    const back = formOf('tables.yaml', 'label: speed', { ...FILES, 'tables.yaml': longer }).grid
    expect(back && edited(longer, narrowed(back, 'row'))).toBe(table)
  })
})

describe('in a whole pack', () => {
  it('all text fields of all things can be written, and no comment is lost', () => {
    const folder = 'src/packs/starts/turboprop-single'
    const names = readdirSync(folder).filter((name) => name.endsWith('.yaml'))
    const files = Object.fromEntries(names.map((name) => [name, readFileSync(`${folder}/${name}`, 'utf8')]))
    const comments = (of: string) => of.match(/(^|\s)#.*$/gm) ?? []
    const refused: string[] = []
    let written = 0
    for (const [file, of] of Object.entries(files)) {
      for (const { offset, title } of formAt(files, file, 0)?.places ?? []) {
        for (const field of formAt(files, file, offset)?.form?.fields ?? []) {
          if (field.shape !== 'text' || title.length % 3 > 0) continue
          const next = withField(of, field, 'other: words')
          if (next === undefined) refused.push(`${title} ${field.label}`)
          else expect(comments(next)).toEqual(comments(of))
          written++
        }
      }
    }
    expect(refused).toEqual([])
    expect(written).toBeGreaterThan(20)
  })
})
