import { describe, expect, it } from 'vitest'
import { cases } from '../../cases.ts'
import { type Case, outcomeOf } from '../../corpus/case.ts'
import { checkingCases } from '../../corpus/checking.ts'
import { judgeText } from '../../corpus/judgeText.ts'
import { tuningCases } from '../../corpus/tuning.ts'

/** Enough of what went otherwise to see it, and how many of how many. */
function run(cases: Iterable<Case>) {
  const off = { wrongAccepted: [] as unknown[], rightRefused: [] as unknown[], notNegative: [] as unknown[] }
  let tried = 0
  let clear = 0
  for (const each of cases) {
    tried++
    if (each.part !== undefined) clear++
    const judgement = judgeText(each.input)
    const outcome = outcomeOf(each, judgement)
    if (outcome !== 'asItShould')
      off[outcome].push({ why: each.why, heard: each.input.heard, figures: each.input.figures, judgement })
  }
  return { ...off, tried, clear }
}

describe.each([
  ['tuning', tuningCases, 20_000],
  ['checking', checkingCases, 180_000],
] as const)('the %s corpus', (_name, corpus, usual) => {
  const count = cases(usual)

  it('no wrong answer is accepted, and clear ones are negative for their part', () => {
    const { wrongAccepted, notNegative, tried, clear } = run(corpus('wrong', count))
    expect(wrongAccepted).toEqual([])
    expect(tried).toBe(count)
    expect(clear).toBeGreaterThan(count / 4)
    expect(notNegative.length / clear, JSON.stringify(notNegative.slice(0, 3))).toBeLessThanOrEqual(0.005)
  })

  it('hardly a right answer is refused for its wording', () => {
    const { rightRefused, tried } = run(corpus('right', count))
    expect(tried).toBe(count)
    expect(rightRefused.length / tried, JSON.stringify(rightRefused.slice(0, 3))).toBeLessThan(0.001)
  })
})
