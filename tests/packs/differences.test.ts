/** Two versions of a pack, side by side, in an author's terms. */

import { expect, it } from 'vitest'
import { differencesOf } from '../../src/packs/differences/differences.ts'
import { SMALL_PACK } from '../fakes/smallPack.ts'

const before: Readonly<Record<string, string>> = {
  ...SMALL_PACK,
  'tables.yaml': `tables:
  v: {label: speed, unit: kt, axes: [{name: weight, unit: kg, at: [100, 200]}, {name: flap, choices: ["5", "15"]}], cells: [[90, 80], [95, 85]]}
`,
}
function told(file: string, ...changes: readonly (readonly [string | RegExp, string])[]): string[] {
  const text = before[file] ?? ''
  const changed = changes.reduce((now, [from, to]) => {
    const next = now.replace(from, to)
    expect(next).not.toBe(now)
    return next
  }, text)
  return differencesOf(before, { ...before, [file]: changed }).map(({ part, words }) => `${part}: ${words}`)
}

it('comments, layout and the order of names are no difference', () => {
  expect(
    told(
      'procedures.yaml',
      ['# One list.', '# Two.'],
      ['{item: canopy, challenge: canopy', '{challenge: canopy, item: canopy'],
    ),
  ).toEqual([])
})

it.each([
  [
    'before takeoff: item “canopy” now answers with the figure “fuel on board”: “<fuel>” (was “closed and locked”)',
    'closed and locked',
    '<fuel>',
  ],
  [
    'before takeoff: item “fuel on board” now answers in words, without the figure “fuel on board”: “full” (was “<fuel> [kilograms]”)',
    '"<fuel> [kilograms]"',
    'full',
  ],
  [
    'before takeoff: item “runway”: look is new: [left, right]',
    '"[runway] <runway>"',
    '"[runway] <runway>", look: [left, right]',
  ],
  ['before takeoff: item “hood”: challenge is now “hood” (was “canopy”)', 'challenge: canopy', 'challenge: hood'],
  ['before takeoff: item “canopy” is gone', / {10}- \{item: canopy.*\n/, ''],
  [
    'before takeoff: item “lights” is new, behind item “canopy”: “on”',
    /(item: canopy.*\n)/,
    '$1          - {item: lights, challenge: lights, response: "on"}\n',
  ],
  ['before takeoff: item “fuel on board” was moved behind item “canopy”', /( +- .*fuel.*\n)( +- .*canopy.*\n)/, '$2$1'],
  [
    'Before takeoff: list “before takeoff”: also called: also “takeoff”, no longer “before takeoff list”',
    '[before takeoff list]',
    '[takeoff]',
  ],
])('procedures: %s', (words, from, to) => {
  expect(told('procedures.yaml', [from, to])).toEqual([words.replace(/^Before takeoff/, 'procedures')])
})

it('figures: a new one, one gone, another origin, another limit', () => {
  expect(told('figures.yaml', ['max: 60', 'max: 70'])).toEqual([
    'figures: figure “fuel on board”: entered: plausible: max is now 70 (was 60)',
  ])
  expect(told('figures.yaml', ['entered: {group: Field}', 'constant: "09"'])).toEqual([
    'figures: figure “runway” is now a constant: “09” (was entered)',
  ])
  expect(told('figures.yaml', ['runway:', 'strip:'])).toEqual([
    'figures: figure “runway” is gone',
    'figures: figure “runway” is new: {label: runway, kind: runway, entered: {group: Field}}',
  ])
})

it('tables: the cells that are others, by their axes, and further rows', () => {
  expect(told('tables.yaml', ['[90, 80]', '[91, 80]'], ['85]', '84]'])).toEqual([
    'tables: table “speed” has 2 other cells: weight 100, flap 5: 91 (was 90); weight 200, flap 15: 84 (was 85)',
  ])
  expect(told('tables.yaml', ['200]', '200, 300]'], ['[95, 85]', '[95, 85], [99, 89]'])).toEqual([
    'tables: table “speed” has weight 300 besides',
  ])
})

it('what cannot be read is said, and the rest is compared', () => {
  const broken = {
    ...before,
    'figures.yaml': 'figures: [',
    'pack.yaml': before['pack.yaml']?.replace('1.0.0', '1.1.0') ?? '',
  }
  expect(differencesOf(before, broken)).toEqual([
    { part: 'pack', words: 'version is now “1.1.0” (was “1.0.0”)' },
    { part: 'figures.yaml', words: 'cannot be compared: it cannot be read in the second' },
  ])
  expect(differencesOf(before, SMALL_PACK)).toEqual([{ part: 'tables', words: 'table “speed” is gone' }])
})
