import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readJudgeLine } from '../../../src/cli/judgeLine.ts'
import { judge } from '../../../src/kernel/response/judge.ts'
import { judgeWording, madeWrong, wordingsOf } from '../../corpus/wordings/wordings.ts'

const TUNING = wordingsOf('tuning')
const CHECK = wordingsOf('check')
const ALL = [...TUNING, ...CHECK]

describe('what pilots say', () => {
  it('is a third for tuning and two thirds for checking', () => {
    expect(ALL.filter(({ truth }) => truth === 'right').length).toBeGreaterThan(800)
    expect(ALL.filter(({ truth }) => truth !== 'right').length).toBeGreaterThan(600)
    expect(CHECK.length / ALL.length).toBeGreaterThan(0.6)
  })

  it('is never accepted where it is wrong, half or without its value', () => {
    const accepted = TUNING.filter((one) => one.truth !== 'right' && judgeWording(one).verdict === 'correct')
    expect(accepted).toEqual([])
  })

  it('is understood where it is right (tuning data)', () => {
    const right = TUNING.filter(({ truth }) => truth === 'right')
    const refused = right.filter((one) => judgeWording(one).verdict !== 'correct')
    expect(refused.length / right.length, JSON.stringify(refused.map(({ text }) => text))).toBeLessThan(0.25)
  })
})

describe('a right answer made wrong in one place, with all that was said beside it', () => {
  it('is never accepted', { timeout: 120_000 }, () => {
    let tried = 0
    const accepted: string[] = []
    for (const wording of ALL.filter(({ truth }) => truth === 'right')) {
      for (const text of madeWrong(wording)) {
        tried++
        if (judgeWording(wording, text).verdict === 'correct') accepted.push(`${wording.item}: ${text}`)
      }
    }
    expect(accepted).toEqual([])
    expect(tried).toBeGreaterThan(20_000)
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
})
