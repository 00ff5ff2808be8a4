import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readJudgeLine } from '../../../src/cli/judgeLine.ts'
import { judge } from '../../../src/kernel/response/judge.ts'
import { cases } from '../../cases.ts'
import { judgeWording, madeWrong, wordingsOf } from '../../corpus/wordings/wordings.ts'

const TUNING = wordingsOf('tuning')
const EARLIER = wordingsOf('earlier')
const LATER = wordingsOf('later')
const CHECK = wordingsOf('check')
const AUTHOR = wordingsOf('author')
const LAST = wordingsOf('last')
const NEXT = wordingsOf('next')
const FURTHER = wordingsOf('further')
const ALL = [...TUNING, ...EARLIER, ...LATER, ...CHECK, ...AUTHOR]

describe('what pilots say', () => {
  it('is never accepted where it is wrong, half or without its value', () => {
    const lines = [...TUNING, ...EARLIER, ...AUTHOR]
    const accepted = lines.filter((one) => one.truth !== 'right' && judgeWording(one).verdict === 'correct')
    expect(accepted).toEqual([])
    expect(lines.length).toBeGreaterThan(2_000)
  })

  it.each([
    ['tuning', TUNING, 0.15],
    ['earlier', EARLIER, 0.15],
    ['later', LATER, 0.17],
    ['check', CHECK, 0.17],
    ['author', AUTHOR, 0.25],
  ] as const)('is understood where it is right (%s, tuning data)', (_, lines, most) => {
    const right = lines.filter(({ truth }) => truth === 'right')
    const refused = right.filter((one) => judgeWording(one).verdict !== 'correct')
    expect(refused.length / right.length, JSON.stringify(refused.map(({ text }) => text))).toBeLessThan(most)
  })
})

describe('what four strangers said to items that nobody had seen, tuning data since', () => {
  const understood = (truth: string) =>
    LAST.filter((one) => one.truth === truth && judgeWording(one).verdict === 'correct')

  it('is mostly understood, and accepted nowhere where it is wrong', () => {
    expect(LAST.filter(({ truth }) => truth === 'right')).toHaveLength(288)
    expect(understood('right').length).toBeGreaterThanOrEqual(245)
    expect(understood('wrong')).toEqual([])
    // "Push approved": the response itself lets the start be left out.
    expect(understood('half').map(({ item }) => item)).toEqual(['y22', 'y22'])
  })
})

// Five more, with items that nobody had seen; judged unseen once (`wordings.ts` has the figures), tuning data since.
describe.each([
  ['next', NEXT, 312, 243],
  ['further', FURTHER, 160, 136],
] as const)('what strangers said later (%s)', (_, lines, all, least) => {
  const understood = (truth: string) =>
    lines.filter((one) => one.truth === truth && judgeWording(one).verdict === 'correct')

  it('is mostly understood, and accepted nowhere where it is wrong or half', () => {
    expect(lines.filter(({ truth }) => truth === 'right')).toHaveLength(all)
    expect(understood('right').length).toBeGreaterThanOrEqual(least)
    expect([...understood('wrong'), ...understood('half')]).toEqual([])
  })
})

describe('a right answer made wrong in one place, with all that was said beside it', () => {
  it('is never accepted', () => {
    let tried = 0
    const accepted: string[] = []
    const every = Math.round(1_000 / cases(1_000))
    let made = 0
    for (const wording of ALL.filter(({ truth }) => truth === 'right')) {
      for (const text of madeWrong(wording)) {
        if (made++ % every !== 0) continue
        tried++
        if (judgeWording(wording, text).verdict === 'correct') accepted.push(`${wording.item}: ${text}`)
      }
    }
    expect(accepted).toEqual([])
    expect(tried).toBeGreaterThan(cases(30_000))
  })
})

describe('what sounds like an answer and is none', () => {
  // By a stranger, who tried to have wrong and half answers accepted by what was said beside them.
  it('is not accepted', () => {
    const lines = readFileSync('tests/corpus/wordings/misleading.jsonl', 'utf8').trim().split('\n')
    const accepted = lines.filter((line) => {
      const read = readJudgeLine(line)
      return !('input' in read) || judge(read.input).verdict === 'correct'
    })
    expect(accepted).toEqual([])
    expect(lines.length).toBeGreaterThan(500)
  })

  // By two more, who knew the items and what is true. What still gets by hangs on what an order or another unit is.
  it('is hardly ever accepted from those who know the items', () => {
    const lines = wordingsOf('tricky')
    const accepted = lines.filter((line) => judgeWording(line).verdict === 'correct')
    expect(accepted.length, JSON.stringify(accepted.map(({ text }) => text))).toBeLessThanOrEqual(9)
    expect(lines.length).toBeGreaterThan(500)
  })
})
