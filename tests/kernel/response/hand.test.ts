import { describe, expect, it } from 'vitest'
import type { Judgement } from '../../../src/kernel/response/model.ts'
import { HAND_GROUPS } from '../../corpus/hand.ts'
import { judgeText } from '../../corpus/judgeText.ts'

/** The judgement in the short form of the lines, as far as the line says. */
function short(judgement: Judgement, expected: string): string {
  const { verdict, because, command, parts } = judgement
  if (!expected.includes(':')) return verdict
  const lacks = parts.find((part) => part.lacks !== undefined)?.lacks
  return `${verdict}:${verdict === 'command' ? command : verdict === 'incomplete' ? lacks : because}`
}

describe.each(HAND_GROUPS)('$item.challenge: $item.response ($item.phraseology)', ({ item, lines }) => {
  it.each(lines.map((line) => [...line]))('"%s" is %s', (heard, expected) => {
    expect(short(judgeText({ ...item, heard }), expected)).toBe(expected)
  })
})

describe('the lines by hand', () => {
  it('are more than four hundred', () => {
    expect(HAND_GROUPS.flatMap(({ lines }) => lines).length).toBeGreaterThan(400)
  })
})
