/** All that a judgement of a read-back tells of its parts. */

import { describe, expect, it } from 'vitest'
import type { Figures } from '../../../src/kernel/kinds/kind.ts'
import { transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import {
  judgeReadBack,
  partNames,
  statesOf,
  wholeResponse,
  withoutAddress,
} from '../../../src/kernel/response/readBack.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import type { SpokenElement } from '../../../src/kernel/response/spokenElement.ts'

const ELEMENTS: readonly SpokenElement[] = [
  { id: 'level', response: responseFrom('[climb] [to] <level>') },
  { id: 'squawk', response: responseFrom('[squawk] <squawk>') },
  { id: 'hold', response: responseFrom('hold short {hold} [of] [runway] <runway>') },
]
const FIGURES: Figures = {
  level: { kind: 'altitude', unit: 'ft', value: 5000 },
  squawk: { kind: 'digits', length: 4, value: '4271' },
  runway: { kind: 'runway', value: '22L' },
}
const REST = 'squawk missing, hold missing, runway missing'

/** "incomplete missing: level ok "five thousand", squawk missing". */
function told(heard: string, held: readonly string[] = []): string {
  const { verdict, command, because, parts } = judgeReadBack(ELEMENTS, {
    ...{ figures: FIGURES, heard: transcriptOf(heard), held },
  })
  const reason = [verdict, command, because].filter((word) => word !== undefined).join(' ')
  return `${reason}: ${parts.map((part) => `${part.name} ${part.state}${part.heard === undefined ? '' : ` "${part.heard}"`}`).join(', ')}`
}

describe('a read-back tells of its parts', () => {
  it.each([
    ['roger', `sayAgain notUnderstood: level missing, ${REST}`],
    ['uh', `sayAgain notUnderstood: level missing, ${REST}`],
    ['climb five thousand', `incomplete missing: climb ok "climb", level ok "five thousand", ${REST}`],
    [
      'climb five thousand climb five thousand',
      `incomplete missing: climb ok "climb", level ok "five thousand", ${REST}`,
    ],
    ['climb six thousand climb five thousand', `negative value: climb ok "climb", level wrong "six thousand", ${REST}`],
    ['climb five thousand climb five', `negative value: climb ok "climb", level wrong "five", ${REST}`],
    [
      'climb five thousand hold short of two two left',
      'incomplete missing: climb ok "climb", level ok "five thousand", hold ok "hold short", of ok "of", runway ok "two two left", squawk missing',
    ],
    [
      'hold short of two two left hold short of two two',
      'incomplete missing: hold ok "hold short", of ok "of", runway missing "two two", level missing, squawk missing',
    ],
    [
      'climb five thousand four two seven one hold short two two left',
      'correct: climb ok "climb", level ok "five thousand", squawk ok "four two seven one", hold ok "hold short", runway ok "two two left"',
    ],
    [
      'climb five thousand four two seven two hold short two two left',
      'negative value: climb ok "climb", level ok "five thousand", squawk wrong "four two seven two", hold ok "hold short", runway ok "two two left"',
    ],
    ['climb five thousand banana', `incomplete missing: climb ok "climb", level ok "five thousand", ${REST}`],
    [
      'climb negative five thousand',
      `sayAgain ambiguous: climb missing "climb", level missing "five thousand", ${REST}`,
    ],
    ['negative', 'negative refused: '],
    ['say again', 'command sayAgain: '],
    ['climb five thousand disregard', 'command disregard: '],
  ])('"%s": %s', (heard, parts) => {
    expect(told(heard)).toBe(parts)
  })

  it('with what an earlier transmission said', () => {
    expect(told('squawk four two seven one', ['level', 'hold', 'runway'])).toBe(
      'correct: squawk ok "four two seven one", level ok, hold ok, runway ok',
    )
    expect(told('squawk four two seven one', ['level'])).toBe(
      'incomplete missing: squawk ok "four two seven one", level ok, hold missing, runway missing',
    )
  })
})

describe('an element', () => {
  const states = (...parts: readonly (readonly [string, 'ok' | 'wrong' | 'missing'])[]) =>
    statesOf(ELEMENTS, {
      ...{ verdict: 'incomplete', parts: parts.map(([name, state]) => ({ name, state, kind: 'word' as const })) },
    })

  it('is right where all that must be said of it is, and nothing of it is open', () => {
    expect(states(['hold', 'ok'], ['runway', 'ok'])).toMatchObject({ hold: 'ok', level: 'missing' })
    expect(states(['hold', 'ok'])).toMatchObject({ hold: 'missing' })
    expect(states(['hold', 'ok'], ['runway', 'ok'], ['of', 'missing'])).toMatchObject({ hold: 'missing' })
  })

  it('is wrong where a part of it is', () => {
    expect(states(['hold', 'ok'], ['runway', 'wrong'])).toMatchObject({ hold: 'wrong', squawk: 'missing' })
  })

  it('has parts that must be said and others', () => {
    const [, , hold] = ELEMENTS as [SpokenElement, SpokenElement, SpokenElement]
    expect(partNames(hold)).toEqual({ all: new Set(['hold', 'of', 'runway']), required: new Set(['hold', 'runway']) })
  })

  it('is one after the other in the whole response', () => {
    expect(wholeResponse(ELEMENTS).figures).toEqual(['level', 'squawk', 'runway'])
  })
})

it.each([
  ['marram ground', 'marram ground roger', 'roger'],
  ['marram ground', 'marram tower roger', 'marram tower roger'],
  ['marram ground', 'roger marram ground', 'roger marram ground'],
  ['marram ground', 'marram', 'marram'],
  ['', 'roger', 'roger'],
])('the name of the station "%s" is taken off the front: "%s"', (name, heard, rest) => {
  const { tokens } = withoutAddress(transcriptOf(heard), name)
  expect(tokens.map(({ text }) => text).join(' ')).toBe(rest)
})
