/** What may be written where, and what a word means: `|` is the cursor. */

import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { helpAt, hintsAt } from '../../../src/packs/hints/hints.ts'
import { pathAt } from '../../../src/packs/hints/spot.ts'
import { SMALL_PACK } from '../../fakes/smallPack.ts'

const PROCEDURES = (entry: string) => `phases:
  - phase: before
    name: Before takeoff
    activities:
      - list: takeoff
        name: before takeoff
        entries:
${entry}
`

function at(file: string, marked: string, files = SMALL_PACK) {
  const offset = marked.indexOf('|')
  const text = marked.replace('|', '')
  const pack = { ...files, [file]: text }
  return { offset, text, hints: hintsAt(pack, file, offset), help: helpAt(pack, file, offset) }
}

const words = (file: string, marked: string, files = SMALL_PACK) =>
  at(file, marked, files).hints?.hints.map(({ text }) => text) ?? []

describe('what may be written', () => {
  it('is no reading of a gauge where something is computed: it has no value', () => {
    const figures =
      'figures:\n  fuel: {label: fuel, kind: weight, entered: {}}\n  volts: {label: volts, kind: integer, read: {}}\n'
    const sum = `${figures}  both: {label: both, kind: weight, derived: {by: sum, of: [|]}}\n`
    expect(words('figures.yaml', sum)).toEqual(['fuel', 'both'])
  })

  it('is a key that is not there yet, the needed ones known as such', () => {
    const { hints } = at('procedures.yaml', PROCEDURES('          - {item: fuel, ch|}'))
    expect(hints?.hints.map(({ text }) => text)).toEqual(
      expect.arrayContaining(['challenge', 'response', 'states', 'critical']),
    )
    expect(hints?.hints.map(({ text }) => text)).not.toContain('item')
    expect(hints?.hints.filter(({ isNeeded }) => isNeeded).map(({ text }) => text)).toEqual(['challenge', 'response'])
    expect(hints && { from: hints.from, to: hints.to }).toMatchObject({ from: expect.any(Number) })
  })

  it('is found on a line of its own, in a line with an open bracket, and above a mistake', () => {
    expect(words('pack.yaml', `${SMALL_PACK['pack.yaml']}si|`)).toEqual(
      expect.arrayContaining(['situations', 'quirks']),
    )
    expect(words('procedures.yaml', PROCEDURES('          - {item: fuel, ch|'))).toContain('challenge')
    expect(
      words('procedures.yaml', PROCEDURES('          - item: fuel\n            |\n          - item: [}')),
    ).toContain('challenge')
  })

  it('is a kind, a calculator with what it is, a unit, a choice of two', () => {
    expect(words('figures.yaml', 'figures:\n  fuel: {label: fuel, kind: we|}')).toEqual(
      expect.arrayContaining(['weight', 'trim', 'choice']),
    )
    const { hints } = at('figures.yaml', 'figures:\n  gross: {label: gross, kind: weight, derived: {by: s|}}')
    expect(hints?.hints.find(({ text }) => text === 'sum')?.about).not.toBe('')
    expect(words('pack.yaml', 'units: {weight: |}')).toEqual(['kg', 'lb'])
    expect(words('procedures.yaml', PROCEDURES('          - {item: fuel, critical: |}'))).toEqual(['true', 'false'])
  })

  it('is a name that the pack has given: a figure in a response or a calculator, a situation and its values', () => {
    expect(words('procedures.yaml', PROCEDURES('          - {item: fuel, response: "<f|> [kilograms]"}'))).toEqual([
      'fuel',
      'runway',
    ])
    expect(
      words('figures.yaml', 'figures:\n  fuel: {label: fuel, kind: weight, derived: {by: sum, of: [f|]}}'),
    ).toContain('fuel')
    const pack = { ...SMALL_PACK, 'pack.yaml': 'situations: {power: {label: power, options: {cart: {}, battery: {}}}}' }
    expect(words('procedures.yaml', PROCEDURES('          - {item: fuel, when: {p|}}'), pack)).toEqual([
      'any',
      'all',
      'not',
      'power',
    ])
    expect(words('procedures.yaml', PROCEDURES('          - {item: fuel, when: {power: |}}'), pack)).toEqual([
      'cart',
      'battery',
    ])
  })

  it('is nothing inside a comment, in a text, behind a mistake, or in a file that is no part of a pack', () => {
    expect(words('pack.yaml', '# un|')).toEqual([])
    expect(words('pack.yaml', 'name: "un|"')).toEqual([])
    expect(words('pack.yaml', 'name: "a\nun|')).toEqual([])
    expect(words('letter.yaml', 'un|')).toEqual([])
    expect(words('pack.yaml', `${'['.repeat(50_000)}|`)).toEqual([])
  })
})

describe('what a word means', () => {
  it('is told of a key with what it takes, of a value, of a name', () => {
    expect(at('pack.yaml', 'pronun|ciations: {}').help).toMatchObject({
      text: 'pronunciations',
      about: expect.stringContaining('no dictionary has'),
      takes: 'names with values',
    })
    expect(at('pack.yaml', 'units: {wei|ght: kg}').help).toMatchObject({ takes: 'one of kg, lb', isNeeded: true })
    expect(at('procedures.yaml', PROCEDURES('          - {item: a, response: "<fu|el>"}')).help?.about).toBe(
      'fuel on board, weight',
    )
    expect(at('pack.yaml', 'nothing| of ours: 1').help).toBeUndefined()
  })
})

it('every key of the packs that come with the app is one that would have been offered', () => {
  for (const file of ['pack.yaml', 'figures.yaml', 'procedures.yaml', 'tables.yaml']) {
    const text = readFileSync(`checklists/marram/${file}`, 'utf8')
    const keys = [...text.matchAll(/^ *(?:- \{?)?([a-zA-Z]+):/gm)].filter((_, index) => index % 150 === 0)
    for (const { index, 0: whole, 1: key = '' } of keys) {
      const offset = index + whole.length - 2
      const help = helpAt({ [file]: text }, file, offset)
      const offered = hintsAt({ [file]: text }, file, offset)?.hints.map(({ text }) => text)
      // A name that the pack gives is nobody's to offer.
      if (offered) expect([key, help?.text]).toEqual([key, key])
    }
  }
})

it('the way to the cursor leads to the item there, from its dash to its last line', () => {
  const text = PROCEDURES('          - item: fuel\n            challenge: fuel\n          - {item: runway}')
  const path = ['phases', 0, 'activities', 0, 'entries']
  expect(pathAt(text, text.indexOf('- item')).slice(0, 6)).toEqual([...path, 0])
  expect(pathAt(text, text.indexOf('challenge: fuel') + 14).slice(0, 6)).toEqual([...path, 0])
  expect(pathAt(text, text.indexOf('{item: runway') + 5).slice(0, 6)).toEqual([...path, 1])
  expect(pathAt('', 0)).toEqual([])
})
