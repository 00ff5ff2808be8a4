/** What is far too large is refused with a clear message, soon; what is as large as it may be is read. */

import { beforeAll, describe, expect, test } from 'vitest'
import { readPackDir } from '../../src/cli/packDir.ts'
import {
  DEEPEST,
  MOST_CHARACTERS,
  MOST_ENTRIES,
  MOST_PATHS,
  MOST_TOLD,
  MOST_WORDINGS,
} from '../../src/kernel/bounds.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import { showProblem } from '../../src/kernel/problemLine.ts'
import { responseFrom } from '../../src/kernel/response/response.ts'
import { readInputs } from '../../src/packs/inputs.ts'
import { readPack } from '../../src/packs/read.ts'

let texts: Readonly<Record<string, string>>
let pack: Pack
beforeAll(async () => {
  const read = await readPackDir('checklists/marram')
  texts = read.texts
  pack = read.pack as Pack
})

const many = (count: number, make: (index: number) => string, between = '\n') =>
  Array.from({ length: count }, (_, index) => make(index)).join(between)

/** All problems of the demo pack with one file changed. */
function toldOf(file: string, change: (text: string) => string): readonly string[] {
  return readPack({ ...texts, [file]: change(texts[file] ?? '') }, '').problems.map(showProblem)
}

const withFigures = (figures: string) => (text: string) => text.replace('\ndeal:', `\n${figures}\ndeal:`)
const figure = (index: number, under: string) =>
  `  c${index}: {label: c, kind: weight, unit: kg, derived: {by: sum, of: [${under}]}}`
const withResponse = (response: string) => (text: string) => text.replace('"<takeoffTrim> [set]"', `"${response}"`)
const listOf = (items: string) =>
  `phases:\n  - phase: p\n    name: p\n    activities:\n      - list: l\n        name: l\n        entries:\n${items}`

describe('a pack that is too large in one thing is refused with one message', () => {
  test.each<[string, string, (text: string) => string, RegExp]>([
    [
      'a file',
      'pack.yaml',
      () => 'a'.repeat(MOST_CHARACTERS + 1),
      /1:1: the file has 300001 characters; at most 300000 can be read/,
    ],
    [
      '20,000 chained figures',
      'figures.yaml',
      withFigures(many(20_000, (at) => figure(at, `c${at - 1}`))),
      /1:1: the file has \d+ characters; at most/,
    ],
    [
      'entries of one list',
      'pack.yaml',
      (text) => `${text}\nx: [${many(MOST_ENTRIES + 1, () => '1', ',')}]`,
      /:4: 2001 entries in one place; at most 2000/,
    ],
    [
      'names of one set',
      'pack.yaml',
      () => many(MOST_ENTRIES + 1, (at) => `k${at}: 1`),
      /1:1: 2001 entries in one place; at most 2000/,
    ],
    [
      'brackets in one another',
      'pack.yaml',
      () => '['.repeat(100_000),
      /1:\d+: more than 24 lists and names inside one another/,
    ],
    [
      'dashes in one another',
      'pack.yaml',
      () => '- '.repeat(100_000),
      /1:\d+: more than 24 lists and names inside one another/,
    ],
    [
      'indentation',
      'pack.yaml',
      () => many(DEEPEST + 1, (at) => `${' '.repeat(at)}a:`),
      /\d+:\d+: more than 24 lists and names inside/,
    ],
    [
      'brackets closed',
      'pack.yaml',
      () => `a: 1\n${'}'.repeat(200_000)}`,
      /2:1: "}" closes a bracket that was never opened/,
    ],
    [
      'aliases of one text',
      'pack.yaml',
      () => `a: &a [${many(500, () => 'x', ',')}]\nb: [${many(500, () => '*a', ',')}]`,
      /unfolds to too much/,
    ],
    [
      '100,000 alternatives',
      'procedures.yaml',
      withResponse(`(${many(100_000, (at) => `a${at}`, '|')})`),
      /1:1: the file has \d+ characters/,
    ],
    [
      'axes of a table',
      'tables.yaml',
      (text) =>
        text.replace(
          /axes:\n/,
          `axes:\n${many(5, (at) => `      - {name: x${at}, label: x, unit: kg, at: [1, 2]}`)}\n`,
        ),
      /axes is too long; it should be a list of at most 4/,
    ],
    [
      'a response',
      'procedures.yaml',
      withResponse(`(${many(1_000, (at) => `a${at}`, '|')})`),
      /response is too long; it should have at most 1000 letters/,
    ],
    [
      'wordings of a response',
      'procedures.yaml',
      withResponse(`(${many(MOST_WORDINGS + 1, () => 'a', '|')})`),
      /response: some of its words can be said in 201 ways; at most 200/,
    ],
    [
      'ways through its figures',
      'procedures.yaml',
      withResponse(many(30, () => '(<v1>|<v2>)', ' ')),
      /response: its figures can be said in more than a million ways; at most 64/,
    ],
  ])('%s', (_, file, change, told) => {
    expect(toldOf(file, change)).toEqual([expect.stringMatching(told)])
  })

  test('of 1,900 names that are not known a few are told, and how many more there are', () => {
    const told = toldOf('pack.yaml', (text) => `${text}\n${many(1_900, (at) => `unknown${at}: 1`)}`)
    expect(told).toHaveLength(6)
    expect(told[0]).toMatch(/"unknown0" is not known here/)
    expect(told[5]).toMatch(/and 1895 more names from here on are not known$/)
  })

  test('of thousands of mistakes as many are told as can be read', () => {
    const told = toldOf('figures.yaml', withFigures(many(1_900, (at) => figure(at, `x${at}, y${at}, z${at}`))))
    expect(told).toHaveLength(MOST_TOLD + 1)
    expect(told.at(-1)).toMatch(/and 50 more; what stands above may be the cause of many$/)
  })
})

describe('a pack that is as large as it may be is read', () => {
  test.each([
    [
      '1,900 figures in one chain, each twice under the next',
      withFigures(many(1_900, (at) => figure(at, at === 0 ? 'blockFuel' : `c${at - 1}, c${at - 1}`))),
    ],
    [
      'the same, each before the one under it',
      withFigures(many(1_900, (at) => figure(at, at === 1_899 ? 'blockFuel' : `c${at + 1}, c${at + 1}`))),
    ],
  ])('%s', (_, change) => {
    expect(toldOf('figures.yaml', change)).toEqual([])
  })

  test('1,900 figures that rest on each other are one cycle, shortened', () => {
    const told = toldOf(
      'figures.yaml',
      withFigures(many(1_900, (at) => figure(at, `c${(at + 1) % 1_900}, c${(at + 2) % 1_900}`))),
    )
    expect(told).toEqual([
      expect.stringMatching(/rest on each other: c0 -> c1 .* -> c7 -> \.\.\. \(1900 figures\) -> c0; one of them/),
    ])
  })

  test('1,900 turns that wait for each other, in a free order', () => {
    const turn = (at: number) =>
      `          - {turn: t${at}, label: t, opens: "<runway>", interlocks: [{after: e.t${(at + 1) % 1_900}, say: wait}]}`
    const exchange =
      'phases:\n  - phase: p\n    name: p\n    activities:\n      - exchange: e\n        name: e\n        order: free\n' +
      `        with: {role: groundCrew, name: g}\n        turns:\n${many(1_900, turn)}`
    expect(toldOf('procedures.yaml', () => exchange)).toEqual([])
  })

  test('a list of 1,900 items', () => {
    const items = many(1_900, (at) => `          - {item: i${at}, challenge: a, response: checked}`)
    expect(toldOf('procedures.yaml', () => listOf(items))).toEqual([])
  })

  test('cases of many situations are told apart without trying all of them', () => {
    const names = Array.from({ length: 20 }, (_, at) => `s${at}`)
    const situations = names.map(
      (name) => `  ${name}: {label: s, initial: a, options: {a: {label: a, say: [a]}, b: {label: b, say: [b]}}}`,
    )
    const all = (value: string) => `{${names.map((name) => `${name}: ${value}`).join(', ')}}`
    const item = `          - {item: i, challenge: a, response: [{when: ${all('a')}, say: ok}, {when: {s0: b}, say: ok}]}`
    const { problems } = readPack(
      {
        ...texts,
        'pack.yaml': (texts['pack.yaml'] ?? '').replace('situations:', `situations:\n${situations.join('\n')}`),
        'procedures.yaml': listOf(item),
      },
      '',
    )
    expect(problems.map(({ message }) => message)).toEqual(['item i has no response for s0 a, s1 b'])
  })

  test('a response with as many ways as may be is unfolded whole', () => {
    expect(responseFrom(`(${many(MOST_PATHS, (at) => `a${at} <v1>`, '|')})`).paths).toHaveLength(MOST_PATHS)
    expect(responseFrom(`(${many(MOST_WORDINGS, (at) => `a${at}`, '|')})`).wordings).toHaveLength(MOST_WORDINGS)
  })
})

describe('a sheet that is too large is refused with one message', () => {
  test.each<[string, string, string, string]>([
    [
      'of CSV',
      'a.csv',
      `status,final\n${'x'.repeat(MOST_CHARACTERS)},1`,
      'a.csv:1:1: 300015 characters; at most 300000 can be read',
    ],
    [
      'of rows',
      'a.csv',
      `status,final\n${many(MOST_ENTRIES, (at) => `f${at},1`)}`,
      'a.csv:1:1: 2001 rows; at most 2000 can be read',
    ],
    [
      'of YAML',
      'a.yaml',
      `status: final\nlabel: ${'x'.repeat(MOST_CHARACTERS)}`,
      'a.yaml:1:1: the file has 300021 characters; at most 300000 can be read',
    ],
    [
      'of values',
      'a.yaml',
      `status: final\nvalues:\n${many(MOST_ENTRIES + 1, (at) => `  f${at}: 1`)}`,
      'a.yaml:3:3: 2001 entries in one place; at most 2000',
    ],
    [
      'of one text',
      'a.yaml',
      `status: final\nlabel: ${'x'.repeat(2_000)}`,
      'a.yaml:2:8: label is too long; it should have at most 1000 letters',
    ],
  ])('%s', (_, file, text, told) => {
    expect(readInputs(text, file, pack).problems.map(showProblem)).toEqual([told])
  })

  test('of many rows that name nothing a few are told', () => {
    const { problems } = readInputs(`status,final\n${many(1_900, (at) => `stranger${at},1`)}`, 'a.csv', pack)
    expect(problems).toHaveLength(6)
    expect(problems.at(-1)?.message).toBe('and 1895 more rows from here on name nothing that the pack has')
  })
})

test('a name that another form of the same thing has is said not to go with the others', () => {
  const told = toldOf('tables.yaml', (text) => text.replace(/(choices: \[[^\]]*\])/, '$1, at: [1, 2]'))
  expect(told).toEqual([expect.stringMatching(/: "at" does not go with the other names here$/)])
})
