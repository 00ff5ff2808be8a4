/** One slip of the pen in a pack: one message, at its place, that says what would be right. */

import { beforeAll, describe, expect, test } from 'vitest'
import { readPackDir } from '../../src/cli/packDir.ts'
import { showProblem } from '../../src/kernel/problemLine.ts'
import { readPack } from '../../src/packs/read.ts'
import { parseSource } from '../../src/packs/source.ts'

describe('a slip in YAML is told once, where it was made', () => {
  const BELOW =
    'the line below is indented as if it belonged to this value; begin it in the column of its neighbours, or leave nothing behind the colon'
  const NO_COLON = 'a name needs a colon and a space behind it: "name: value"'
  const IN_QUOTES = 'a text that begins with "&", "*" or "!" belongs in quotes'

  test.each<[string, string, string]>([
    ['no colon', 'name\nid: x\n', `1:1: ${NO_COLON}`],
    ['no space behind a colon', 'name:x\nid: x\n', `1:1: ${NO_COLON}`],
    [
      'a colon in a text',
      'a: 1\nname: one: two\nb: 2\n',
      '2:7: a text with a colon and a space in it belongs in quotes',
    ],
    ['a quote never closed', 'name: "one\nid: two\nb: "3"\n', '1:7: the text that begins here is not closed by "'],
    [
      'an apostrophe in single quotes',
      "name: 'it's'\nid: x\n",
      '1:11: nothing may follow a closing quote or bracket; put the whole text in quotes',
    ],
    [
      'words behind a quoted text',
      'say: "set" now\nid: x\n',
      '1:12: nothing may follow a closing quote or bracket; put the whole text in quotes',
    ],
    [
      'a response without quotes',
      'response: [set] <trim>\nid: x\n',
      '1:17: nothing may follow a closing quote or bracket; put the whole text in quotes',
    ],
    ['a list never closed', 'say: [a, b\nid: x\nmore: [c]\n', '1:6: "[" is not closed by "]"'],
    ['a set never closed', 'when: {a: b\nid: x\n', '1:7: "{" is not closed by "}"'],
    ['a bracket closed by another', 'when: {a: [b}\nid: x\n', '1:11: "[" is not closed by "]"'],
    [
      'a bracket never opened',
      `id: x\n}\n${'more: y\n'.repeat(50)}`,
      '2:1: "}" closes a bracket that was never opened',
    ],
    ['a comma too many', 'say: [a, , b]\n', '1:10: a comma is missing here, or one too many'],
    ['a tab for indentation', 'a:\n\tb: c\n', '2:1: a tab indents this line; use spaces'],
    ['a value with lines below it', `steps: x\n${'  - step: a\n    text: b: c\n'.repeat(50)}`, `1:8: ${BELOW}`],
    ['a line indented too far', 'id: x\n name: y\nb: 1\n', `1:5: ${BELOW}`],
    [
      'a line indented too little',
      'l:\n  - item: 1\n    x: 2\n   y: 3\n',
      '4:1: this line begins in a column of its own; names and dashes that belong together begin in the same one',
    ],
    [
      'a dash without its space',
      'l:\n  -item: a\n   name: b\n  - item: c\n',
      '2:10: a line of a list begins with a dash and a space: "- value"',
    ],
    [
      'a list beside its name',
      'l: - a\n',
      '1:4: a list ("- ...") cannot begin here; write it on lines of its own, under the name that it belongs to',
    ],
    ['a sign that YAML keeps to itself', 'name: @here\n', '1:7: a text that begins with "@" belongs in quotes'],
    ['an alias of nothing', 'id: x\nname: *here\n', '2:7: nothing before this is called "&here"'],
    [
      'an alias inside its own anchor',
      'a: &a\n  - x\n  - *a\n',
      '3:5: "*a" would hold itself; write out what is meant',
    ],
    [
      'another YAML, in which numbers read otherwise',
      '%YAML 1.1\n---\nname: 071\n',
      '1:1: a line that begins with "%" is no part of a pack or sheet; leave it out',
    ],
    ['a tag', 'name: !here x\n', `1:7: ${IN_QUOTES}`],
    [
      'an escape that means nothing',
      'name: "a\\qb"\n',
      '1:9: "\\q" means nothing inside double quotes; write "\\\\" for a backslash, or use single quotes',
    ],
    ['a second document', 'id: x\n---\nid: y\n', '2:1: a second document ("---") begins here; a file holds one'],
    [
      'a list for a name',
      'id: x\n[a, b]: c\n',
      '2:1: a name should stand before this colon, not a list, a set of names or nothing',
    ],
    [
      'a set for a name',
      '? {a: b}\n: c\n',
      '1:3: a name should stand before this colon, not a list, a set of names or nothing',
    ],
    [
      'nothing for a name',
      'id: x\n: c\n',
      '2:1: a name should stand before this colon, not a list, a set of names or nothing',
    ],
    ['a name twice', 'id: x\nname: y\nid: z\n', '3:1: this name stands here twice; each may stand once'],
    ['a name that every object has', 'id: x\n__proto__: y\n', '2:1: "__proto__" cannot be a name here; choose another'],
    [
      'a character that cannot be seen',
      'id: x\nname: a\u0007b\n',
      '2:8: a control character, "\\u{7}", stands here; take it out',
    ],
  ])('%s', (_, text, told) => {
    expect(parseSource('a.yaml', text).problems.map(showProblem)).toEqual([`a.yaml:${told}`])
  })

  test('names twice are each a slip of their own', () => {
    const { problems } = parseSource('a.yaml', 'a: 1\na: 2\nb: 1\nb: 2\n')
    expect(problems.map(({ place }) => place?.line)).toEqual([2, 4])
  })
})

describe('a slip in what a pack says is told once, with what would be right', () => {
  let texts: Readonly<Record<string, string>>
  beforeAll(async () => {
    texts = (await readPackDir('checklists/marram')).texts
  })

  test.each<[string, string, string, string, RegExp]>([
    [
      'a name misspelt',
      'pack.yaml',
      'aircraft:',
      'aircaft:',
      /^\d+:1: "aircaft" is not known here; did you mean "aircraft"\?$/,
    ],
    [
      'a name misspelt in a set',
      'pack.yaml',
      '{weight: kg',
      '{weights: kg',
      /^11:9: "weights" is not known here; did you mean "weight"\?$/,
    ],
    [
      'the word that says what it is misspelt',
      'procedures.yaml',
      '- flow: ',
      '- flwo: ',
      /^6:9: "flwo" is not known here; did you mean "flow"\?$/,
    ],
    ['a value left out', 'pack.yaml', 'initial: push', 'initial:', /^15:5: initial is empty; it should be a text$/],
    [
      'a number for a text',
      'pack.yaml',
      'initial: push',
      'initial: 1',
      /^15:14: initial is the number 1; it should be a text, in quotes$/,
    ],
    [
      'yes for a text',
      'pack.yaml',
      'initial: push',
      'initial: true',
      /^15:14: initial is true; it should be a text, in quotes$/,
    ],
    [
      'a list for a text',
      'pack.yaml',
      'initial: push',
      'initial: [push]',
      /^15:5: initial is a list; it should be a text$/,
    ],
    [
      'a number with a comma',
      'figures.yaml',
      'min: 15000',
      'min: 15,000',
      /^\d+:10: min is the text "15,000"; it should be a number$/,
    ],
    [
      'a number in quotes',
      'figures.yaml',
      'min: 15000',
      'min: "15000"',
      /^\d+:10: min is the text "15000"; it should be a number$/,
    ],
    [
      'infinity',
      'figures.yaml',
      'min: 15000',
      'min: -.inf',
      /^\d+:10: min is beyond all numbers; it should be a number$/,
    ],
    [
      'no number at all',
      'figures.yaml',
      'min: 15000',
      'min: .nan',
      /^\d+:10: min is beyond all numbers; it should be a number$/,
    ],
    [
      'a number beyond any aircraft',
      'figures.yaml',
      'min: 15000',
      'min: -1e300',
      /^\d+:10: min -1e\+300 is too small; it should be at least -1,000,000,000,000$/,
    ],
    [
      'a part of a number that must be whole',
      'figures.yaml',
      'decimals: 2',
      'decimals: 2.5',
      /^\d+:\d+: decimals is the number 2.5; it should be a whole number$/,
    ],
    [
      'a step too fine for any number',
      'figures.yaml',
      'step: 100,',
      'step: 1e-101,',
      /^\d+:\d+: step 1e-101 is too small; it should be at least 0.000001$/,
    ],
    [
      'two numbers in one cell',
      'tables.yaml',
      '[4.1, 3.5, 2.9]',
      '[4.1 3.5, 2.9]',
      /^16:10: entry 1 of entry 5 of "cells" is the text "4.1 3.5"; it should be a number$/,
    ],
    [
      'a text that is nothing',
      'procedures.yaml',
      'challenge: V two',
      'challenge: ""',
      /^\d+:\d+: challenge is empty; it should be some text$/,
    ],
    [
      'a list with nothing in it',
      'figures.yaml',
      'sources: [takeoffData, flightComputer]',
      'sources: []',
      /^\d+:\d+: sources is too short; it should be a list of at least 1$/,
    ],
    [
      'a name with a space',
      'figures.yaml',
      'taxiFuel:',
      'taxi fuel:',
      /^\d+:3: "taxi fuel" should be a name of letters and digits without spaces: takeoffTrim/,
    ],
    [
      'an id that every object has',
      'procedures.yaml',
      '- item: v2',
      '- item: toString',
      /^\d+:\d+: item "toString" cannot be a name here; choose another$/,
    ],
    [
      'an id of 300 letters',
      'procedures.yaml',
      '- item: v2',
      `- item: ${'v'.repeat(300)}`,
      /^\d+:\d+: item is too long; it should have at most 100 letters$/,
    ],
    [
      'a figure declared under another name',
      'figures.yaml',
      '  takeoffFlap:',
      '  takeofFlap:',
      /^\d+:\d+: no figure is called "takeoffFlap"; did you mean "takeofFlap"\? \(also on lines/,
    ],
  ])('%s', (_, file, from, to, told) => {
    const before = texts[file] ?? ''
    expect(before).toContain(from)
    const { problems } = readPack({ ...texts, [file]: before.replace(from, () => to) }, '')
    const own = problems.filter(({ place }) => place?.file === file).map(showProblem)
    expect(own).toEqual([expect.stringMatching(told.source.replace('^', `^${file}:`))])
  })
})
