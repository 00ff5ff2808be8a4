import { describe, expect, it } from 'vitest'
import type { Figures } from '../../../src/kernel/kinds/kind.ts'
import { transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import { hypothesesOf } from '../../../src/kernel/response/hypotheses.ts'
import { judgeReadBack, statesOf } from '../../../src/kernel/response/readBack.ts'
import { readOff } from '../../../src/kernel/response/readOff.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import { topicsIn } from '../../../src/kernel/response/topics.ts'
import { judgeText } from '../../corpus/judgeText.ts'

/** What every object has in JavaScript, and a text from outside may hold. */
const NAMES = ['constructor', 'toString', 'valueOf', 'hasOwnProperty', '__proto__']

describe.each(NAMES)('"%s" is a word like others', (name) => {
  const code = { kind: 'digits', length: 4, value: '4271' } as const

  it('where it is heard', () => {
    expect(
      judgeText({ response: '<code> [set]', figures: { code }, heard: `${name} four two seven one` }).verdict,
    ).toBe('sayAgain')
    expect(judgeText({ response: 'armed', figures: {}, heard: name }).verdict).toBe('sayAgain')
  })

  it('where it is the answer, a label or the challenge', () => {
    const word = name.replaceAll('_', '')
    expect(judgeText({ response: word, figures: {}, heard: word, challenge: name }).verdict).toBe('correct')
    const labelled = { response: `${word} <code> then <next>`, figures: { code, next: { ...code, value: '0123' } } }
    const heard = `${word} four two seven one then zero one two three`
    expect(judgeText({ ...labelled, heard }).verdict).toBe('correct')
  })

  it('where it is a state, or what an item or a figure is called', () => {
    expect(judgeText({ response: 'on', states: [['on'], [name]], figures: {}, heard: name }).verdict).toBe('negative')
    const figures: Figures = Object.fromEntries([[name, code]])
    const input = { response: `<${name}>`, figures, implausibleBefore: {}, begun: {} }
    expect(judgeText({ ...input, heard: 'four two seven one' }).verdict).toBe('correct')
    expect(judgeText({ ...input, figures: {}, heard: 'four two seven one' }).verdict).toBe('sayAgain')
  })

  it('where it is what is lacking, and nothing of it was said in the breath before', () => {
    const trim = { kind: 'trim', decimals: 1, value: 5.2 } as const
    const figures: Figures = Object.fromEntries([[name, trim]])
    expect(judgeText({ response: `<${name}>`, figures, begun: {}, heard: 'up' })).toMatchObject({
      verdict: 'incomplete',
    })
  })

  it('in a read-back, a briefing and a value read aloud', () => {
    const elements = [{ id: name, response: responseFrom('[squawk] <code>') }]
    const heard = transcriptOf(`squawk ${name} four two seven one`)
    const judgement = judgeReadBack(elements, { figures: { code }, heard })
    expect(statesOf(elements, judgement)).toEqual(Object.fromEntries([[name, 'missing']]))
    const topics = [{ id: 'topic', say: [responseFrom(`runway <${name}>`)] }]
    expect(topicsIn(topics, {}, transcriptOf(`runway ${name}`)).topics).toEqual({})
    expect(readOff({ kind: 'weight', unit: 'kg' }, [name], hypothesesOf({ text: name }))).toBeUndefined()
  })
})
