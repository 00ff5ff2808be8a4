/** The author's own list to grade by: read, kept with the pack, and each mistake in it told where it stands. */

import { describe, expect, it, test } from 'vitest'
import { gradingOf, STANDARD_GRADING } from '../../src/kernel/pack/standardGrading.ts'
import { differencesOf } from '../../src/packs/differences/differences.ts'
import { readPack } from '../../src/packs/read.ts'
import { SMALL_PACK } from '../fakes/smallPack.ts'

const LIST = `source: Wren Air, training manual, edition 4
scale: [poor, weak, sound, good, fine]
competencies:
  COM:
    name: Communication
    behaviours:
      - Reads back all of it
      - Asks where it is unclear
  RAD: {name: Radio, behaviours: [Listens before speaking]}
`
const { 'inputs/today.yaml': _sheet, ...PACK } = SMALL_PACK
const read = (text: string) => readPack({ ...PACK, 'grading.yaml': text }, '')
const told = (text: string) =>
  read(text).problems.map(({ message, place }) => `${place?.file}:${place?.line}:${place?.column}: ${message}`)

it('a pack is graded by its own list, and by that of Otherseat where it has none', () => {
  const { pack, problems } = read(LIST)
  expect(problems).toEqual([])
  expect(pack && gradingOf(pack)).toEqual({
    source: 'Wren Air, training manual, edition 4',
    scale: ['poor', 'weak', 'sound', 'good', 'fine'],
    competencies: [
      { id: 'COM', name: 'Communication', behaviours: ['Reads back all of it', 'Asks where it is unclear'] },
      { id: 'RAD', name: 'Radio', behaviours: ['Listens before speaking'] },
    ],
  })
  const { pack: plain } = readPack(PACK, '')
  expect(plain && gradingOf(plain)).toBe(STANDARD_GRADING)
})

it('the grades say what they say elsewhere where the list does not word them', () => {
  const { pack } = read(LIST.replace(/scale.*\n/, ''))
  expect(pack?.grading?.scale).toBe(STANDARD_GRADING.scale)
})

describe('what is wrong in it is told at its place', () => {
  test.each([
    ['no source', LIST.replace(/source.*\n/, ''), 'grading.yaml:1:1: source is missing; it should be a text'],
    [
      'four grades',
      LIST.replace(', fine', ''),
      'grading.yaml:2:1: scale is too short; it should be a list of at least 5',
    ],
    [
      'a competency without behaviours',
      LIST.replace('[Listens before speaking]', '[]'),
      'grading.yaml:9:22: behaviours is too short; it should be a list of at least 1',
    ],
    [
      'behaviours that are no list',
      LIST.replace('[Listens before speaking]', 'Listens'),
      'grading.yaml:9:34: behaviours should be a list, also of one: [Listens]',
    ],
    [
      'a slip in a key',
      LIST.replace('behaviours:\n', 'behaviors:\n'),
      'grading.yaml:6:5: "behaviors" is not known here; did you mean "behaviours"?',
    ],
    [
      'a behaviour that stands twice',
      LIST.replace('Asks where it is unclear', 'reads back all of it'),
      'grading.yaml:8:9: "reads back all of it" stands here twice; say it once, or say what is different',
    ],
    [
      'a name that stands twice',
      LIST.replace('name: Radio', 'name: Communication'),
      'grading.yaml:9:15: "Communication" stands here twice; say it once, or say what is different',
    ],
    [
      'no competency at all',
      'source: Wren Air\ncompetencies: {}\n',
      'grading.yaml:2:1: competencies is empty; name one at least, or leave the file out',
    ],
  ])('%s', (_, text, line) => {
    expect(told(text)).toContain(line)
  })
})

it('another version of the list is told in its terms', () => {
  const before = { ...PACK, 'grading.yaml': LIST }
  const after = { ...PACK, 'grading.yaml': LIST.replace('Asks where it is unclear', 'Asks again') }
  expect(differencesOf(before, after)).toEqual([
    {
      part: 'grading',
      words: 'competency “COM”: behaviours: also “Asks again”, no longer “Asks where it is unclear”',
    },
  ])
})
