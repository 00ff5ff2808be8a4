/** Yes and no as people answer a question with them; common practice, no source. */

import { describe, expect, test } from 'vitest'
import { transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import { readCommand } from '../../../src/kernel/response/commands.ts'
import { yesOrNo } from '../../../src/kernel/response/yesNo.ts'

describe('a question', () => {
  test.each([
    ...['yes', 'affirm', 'yeah affirm', "yes, let's do that first", 'uh yes please', 'okay yes go ahead', 'yep'],
    ...['affirmative, do it', 'sure'],
  ])('is answered yes by "%s"', (text) => expect(yesOrNo(transcriptOf(text))).toBe('yes'))

  test.each(['no', 'negative', 'no, leave it', 'negative, not yet', 'nope', 'no no', 'well no, later'])(
    'is answered no by "%s"',
    (text) => expect(yesOrNo(transcriptOf(text))).toBe('no'),
  )

  test.each([
    ...[
      'yes but two four',
      'yes no',
      'no yes',
      'yes not yet',
      'right',
      'okay',
      '',
      'no, do that first',
      'affirm flap twelve',
    ],
    ...['negative five eight percent', 'yes the other one', 'yes, later', 'no problem', 'yes, flaps up'],
  ])('is not answered by "%s"', (text) => expect(yesOrNo(transcriptOf(text))).toBeUndefined())

  test.each([
    ['that is correct', 'affirm'],
    ["let's do that first", 'affirm'],
    ['right, confirmed', 'affirm'],
    ['yes, sir', 'affirm'],
    ['not yet', 'negative'],
  ])('takes "%s" for %s, and nothing of it where none is asked', (text, command) => {
    expect(readCommand(transcriptOf(text), { yesNo: true })).toEqual({ command })
    expect(readCommand(transcriptOf(text))).toBeUndefined()
  })
})
