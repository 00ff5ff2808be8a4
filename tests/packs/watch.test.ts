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

  test.each([
    [
      'an interlock after nothing that there is',
      'startFlow.crew, say',
      'startFlow.crews, say',
      'nothing is called "startFlow.crews"; did you mean "startFlow.crew"?',
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
