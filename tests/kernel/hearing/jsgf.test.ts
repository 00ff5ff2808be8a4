import { describe, expect, it } from 'vitest'
import {
  alternatives,
  anyPhrase,
  group,
  NOTHING,
  optional,
  type RuleExpansion,
  rule,
  sequence,
  weighted,
} from '../../../src/kernel/grammarRules.ts'
import { grammarOf } from '../../../src/kernel/hearing/grammar.ts'
import { jsgfOf } from '../../../src/kernel/hearing/jsgf.ts'
import { vocabularyOfItems } from '../../../src/kernel/hearing/vocabulary.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'

const written = (expansion: RuleExpansion) =>
  jsgfOf({ start: 'heard', rules: [{ name: 'heard', expansion }] }).match(/<heard> = (.*);/)?.[1]

// JSpeech Grammar Format, W3C note of June 2000 (from memory).
describe('a grammar as text', () => {
  it.each<[RuleExpansion, string]>([
    ['set', 'set'],
    [NOTHING, '<NULL>'],
    [alternatives(), '<NULL>'],
    [rule('digit'), '<digit>'],
    [anyPhrase(['closed and locked', 'open']), 'closed and locked | open'],
    [sequence(alternatives('on', 'off'), optional('set')), '(on | off) [set]'],
    [optional(alternatives('via', 'then')), '[via | then]'],
    [optional(group(alternatives('via', 'then'))), '[(via | then)]'],
    [alternatives(weighted(1, 'on'), weighted(2e-5, alternatives('off', 'out'))), '/1/ on | /0.00002/ (off | out)'],
    [alternatives(weighted(1e-7, sequence('brake', 'set')), 'set'), '/1e-7/ brake set | set'],
  ])('%j is "%s"', (expansion, text) => {
    expect(written(expansion)).toBe(text)
  })

  it('names itself, and its public rule', () => {
    const rules = [
      { name: 'state', expansion: alternatives('on', 'off') },
      { name: 'heard', expansion: sequence('brake', rule('state')) },
    ]
    expect(jsgfOf({ start: 'heard', rules })).toBe(
      '#JSGF V1.0;\ngrammar ear;\n<state> = on | off;\npublic <heard> = brake <state>;\n',
    )
  })

  it('of a speed is what it was when the recogniser was measured', () => {
    const vocabulary = vocabularyOfItems(
      [{ challenge: 'rotate speed', responses: [{ response: responseFrom('<vr> [knots]') }] }],
      [],
    )
    const lines = jsgfOf(grammarOf({ shapes: [{ kind: 'speed' }], yesNo: false }, vocabulary)).split('\n')
    expect(lines.find((line) => line.startsWith('<answer>'))).toBe(
      '<answer> = (/0.01/ both | checked | correction | knots | not | set | /50/ ' +
        '(<digit> [(<digit> [(<digit>)] | /0.2/ <teen> | /0.2/ <tens> [(<digit>)] | <hundred> ' +
        '[(<digit> | /0.2/ <teen> | /0.2/ <tens> [(<digit>)] | <and> (<digit> | /0.2/ <teen> | /0.2/ <tens> [(<digit>)]))])] ' +
        '| /0.2/ <teen> | /0.2/ <tens> [(<digit>)]) | /0.0002/ <numeral>) (/1/ <NULL> | /0.03/ <answer>);',
    )
  })
})
