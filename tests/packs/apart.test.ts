import { expect, test } from 'vitest'
import { isError } from '../../src/kernel/problem.ts'
import { showProblem } from '../../src/kernel/problemLine.ts'
import { readPack } from '../../src/packs/read.ts'

const PACK = `
id: apart
name: Apart
version: "1"
aircraft: none
operator: none
caution: For tests only.
units: {weight: kg, arm: m}
`
const FIGURES = `
figures:
  from: {label: first taxiway, kind: identifier, entered: {}}
  to: {label: second taxiway, kind: identifier, entered: {}}
  gate: {label: gate, kind: identifier, form: letter, entered: {}}
  way: {label: taxi route, kind: route, entered: {}}
  speed: {label: speed, kind: speed, entered: {}}
`
const procedures = (response: string) => `
phases:
  - phase: taxi
    name: Taxi
    activities:
      - list: taxi
        name: taxi
        entries:
          - {item: route, challenge: taxiways, response: "${response}"}
`
const problemsOf = (response: string) =>
  readPack({ 'pack.yaml': PACK, 'figures.yaml': FIGURES, 'procedures.yaml': procedures(response) }, '')
    .problems.filter(isError)
    .map(showProblem)

test.each(['via <from> <to>', '[via] <from> [<to>]', '<way> <from>', '(on | off) <from> <to>'])(
  'two figures that are spelled, side by side in "%s", are refused with the remedy',
  (response) => {
    const [problem, ...others] = problemsOf(response)
    expect(others).toEqual([])
    expect(problem).toMatch(
      /^procedures\.yaml:9:\d+: .*response: nobody hears where <\w+> ends and <\w+> begins; make them one figure of the kind route, or put a word between them/,
    )
  },
)

test.each([
  'via <from> then <to>',
  '<from> [and] <to>',
  '<gate> <gate>',
  '<from> <gate>',
  '<way> <speed>',
  '<from> | <to>',
])('figures that can be told apart, as in "%s", are accepted', (response) => {
  expect(problemsOf(response)).toEqual([])
})
