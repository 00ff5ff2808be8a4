import { beforeAll, describe, expect, test } from 'vitest'
import { readPackDir } from '../../src/cli/packDir.ts'
import { showProblem } from '../../src/kernel/problemLine.ts'
import { responseFrom } from '../../src/kernel/response/response.ts'
import { readPack } from '../../src/packs/read.ts'

const WATCH = `
      - watch: thirdStart
        name: right engine start
        begins: [starting the right engine]
        stopWords: stop the start
        interlocks:
          - {after: "cleared:push", seconds: 5, say: wait for the ground crew}
          - {after: startFlow.crew, say: ground crew first}
        calls:
          - {call: rotation, label: rotation, say: [rotation], within: 8}
          - {call: lightUp, label: light up, say: [light up, we have light up]}
        abnormal:
          - {abnormal: hot, label: hot start, say: [hot start], stopWords: fuel off, actions: [fuel off, keep turning]}
      - list: pushAndStart`

let texts: Readonly<Record<string, string>>
beforeAll(async () => {
  texts = (await readPackDir('checklists/marram')).texts
})

function withWatch(watch: string) {
  const procedures = (texts['procedures.yaml'] ?? '').replace('\n      - list: pushAndStart', watch)
  return readPack({ ...texts, 'procedures.yaml': procedures }, '')
}

describe('a watch in a pack', () => {
  test('is read with its calls, limits, stop words and interlocks', () => {
    const { pack, problems } = withWatch(WATCH)
    expect(problems).toEqual([])
    const found = pack?.phases.flatMap(({ activities }) => activities).find(({ id }) => id === 'thirdStart')
    expect(found).toEqual({
      type: 'watch',
      id: 'thirdStart',
      name: 'right engine start',
      begins: responseFrom('starting the right engine'),
      stopWords: 'stop the start',
      interlocks: [
        { after: 'cleared:push', seconds: 5, say: 'wait for the ground crew' },
        { after: 'startFlow.crew', say: 'ground crew first' },
      ],
      calls: [
        { id: 'rotation', label: 'rotation', say: responseFrom('rotation'), within: 8 },
        { id: 'lightUp', label: 'light up', say: responseFrom('light up | we have light up') },
      ],
      abnormal: [
        {
          id: 'hot',
          label: 'hot start',
          say: responseFrom('hot start'),
          stopWords: 'fuel off',
          actions: ['fuel off', 'keep turning'],
        },
      ],
    })
  })

  const CALLS = `
          - {call: rotation, label: rotation, say: [rotation], within: 8}
          - {call: lightUp, label: light up, say: [light up, we have light up]}`
  const withCalls = (...calls: string[]) =>
    withWatch(WATCH.replace(CALLS, calls.map((call) => `\n          - {label: any, ${call}}`).join('')))

  test('has the speed with fuel on, what comes too soon, and calls in any order', () => {
    const { pack, problems } = withCalls(
      'call: fuel, say: ["<value> fuel on"], group: up, notBefore: 4, within: 8, value: {kind: integer, min: 23, label: speed, stopWords: fuel off}',
      'call: oil, say: [oil], group: up, after: fuel',
      'call: peak, say: ["peak <value>"], value: {kind: integer, max: 765}',
    )
    expect(problems).toEqual([])
    const found = pack?.phases.flatMap(({ activities }) => activities).find(({ id }) => id === 'thirdStart')
    const value = { spec: { kind: 'integer' }, min: 23, label: 'speed', stopWords: 'fuel off' }
    expect(found?.type === 'watch' && found.calls).toEqual([
      {
        ...{ id: 'fuel', label: 'any', say: responseFrom('<value> fuel on'), group: 'up' },
        ...{ notBefore: 4, within: 8, value },
      },
      { id: 'oil', label: 'any', say: responseFrom('oil'), group: 'up', after: 'fuel' },
      { id: 'peak', label: 'any', say: responseFrom('peak <value>'), value: { spec: { kind: 'integer' }, max: 765 } },
    ])
  })

  test.each<[string, string[], string]>([
    [
      'a call that could never be in time',
      ['call: a, say: [a], notBefore: 8, within: 8'],
      'notBefore 8 leaves no time until within 8; it must be less',
    ],
    [
      'a value without a limit',
      ['call: a, say: ["a <value>"], value: {kind: integer}'],
      'value has no limit; give min, max or both',
    ],
    [
      'limits that leave nothing',
      ['call: a, say: ["a <value>"], value: {kind: integer, min: 5, max: 5}'],
      'the range from 5 to 5 is empty; min must be less than max',
    ],
    [
      'a group that another call breaks',
      ['call: a, say: [a], group: up', 'call: b, say: [b]', 'call: c, say: [c], group: up'],
      'group "up" is broken by another call; its calls must stand side by side',
    ],
    [
      'a group that another group breaks',
      [
        'call: a, say: [a], group: up',
        'call: b, say: [b], group: on',
        'call: d, say: [d], group: on',
        'call: c, say: [c], group: up',
      ],
      'group "up" is broken by another call; its calls must stand side by side',
    ],
    [
      'a group of one',
      ['call: a, say: [a], group: up', 'call: b, say: [b]'],
      'group "up" has one call; any order needs at least two',
    ],
    [
      'a difference of calls that come after it, or read out nothing',
      [
        'call: a, say: ["a <value>"], value: {kind: integer, min: 5}',
        'call: b, say: [b]',
        'call: c, say: ["c <value>"], value: {kind: integer, min: 0, between: [a, b]}',
      ],
      'no call before this one that reads out a value is called "b"; did you mean "a"?',
    ],
    ['no time before it', ['call: a, say: [a], notBefore: 0'], 'notBefore 0 is too small; it should be more than 0'],
    [
      'a field that there is not',
      ['call: a, say: ["a <value>"], value: {kind: integer, min: 5, stopWord: fuel off}'],
      '"stopWord" is not known here; did you mean "stopWords"?',
    ],
  ])('with %s is refused', (_, calls, message) => {
    const { problems } = withCalls(...calls)
    expect(problems.map((problem) => problem.message)).toEqual([message])
    expect(showProblem(problems[0] as never)).toMatch(/^procedures\.yaml:\d+:\d+: /)
  })

  test('with a time that is just long enough, and limits that are just apart, is taken', () => {
    const { problems } = withCalls(
      'call: a, say: ["a <value>"], notBefore: 7.9, within: 8, value: {kind: integer, min: 5, max: 6}',
    )
    expect(problems).toEqual([])
  })

  test.each([
    [
      'an interlock after nothing that there is',
      'startFlow.crew, say',
      'startFlow.crews, say',
      'startFlow has nothing called "crews"; did you mean "crew"?',
    ],
    [
      'a call that stands twice',
      'call: lightUp',
      'call: rotation',
      'call "rotation" stands twice; each must be its own',
    ],
    [
      'an id that a flow has',
      'watch: thirdStart',
      'watch: startFlow',
      'watch "startFlow" stands twice; each must be its own',
    ],
    ['no stop words', '        stopWords: stop the start\n', '', 'stopWords is missing; it should be a text'],
    [
      'words that begin it in brackets of which one is open',
      'begins: [starting the right engine]',
      'begins: ["[starting the right engine"]',
      'begins: "[" is not closed by "]"',
    ],
    [
      'an abnormal call with a value in it',
      'say: [hot start]',
      'say: [hot start <engineTemperature>]',
      'say: <engineTemperature> is not compared with anything here; use words',
    ],
    ['a limit of no time', 'within: 8', 'within: 0', 'within 0 is too small; it should be more than 0'],
  ])('with %s is refused', (_, from, to, message) => {
    const { problems } = withWatch(WATCH.replace(from, to))
    expect(problems.map((problem) => problem.message)).toEqual([message])
    expect(showProblem(problems[0] as never)).toMatch(/^procedures\.yaml:\d+:\d+: /)
  })
})
