import { describe, expect, it } from 'vitest'
import type { GradeStep } from '../../../src/kernel/pack/grading.ts'
import { STANDARD_GRADING } from '../../../src/kernel/pack/standardGrading.ts'
import { agreementWords, compared, kappaWords } from '../../../src/kernel/training/agreement.ts'
import { type Grade, gradeShape, lastGrades } from '../../../src/kernel/training/grades.ts'

let given = 0
const grade = (competency: string, step: GradeStep, more: Partial<Grade> = {}): Grade => ({
  ...{ id: `${++given}`, runId: 'run', by: 'Rook', competency, name: competency.toLowerCase(), part: '' },
  ...{ given: new Date(given * 1_000).toISOString(), grade: step, step: '', seen: [], notSeen: [], ...more },
})

/** Two instructors' grades of the same, each in a part of its own: "33 34 22". */
function pairsOf(text: string, competency = 'COM') {
  const pairs = text.split(' ').map((pair, at) => ({ pair, part: `part ${at}` }))
  const of = (which: 0 | 1) =>
    pairs.map(({ pair, part }) => grade(competency, Number(pair[which]) as GradeStep, { part }))
  return [of(0), of(1)] as const
}

describe('grades', () => {
  it('of a competency in a part, the one that was given last counts', () => {
    const grades = [grade('COM', 2), grade('SAW', 3), grade('COM', 4), grade('COM', 5, { part: 'start' })]
    expect(lastGrades(grades).map(({ competency, grade, part }) => [competency, grade, part])).toEqual([
      ['COM', 4, ''],
      ['SAW', 3, ''],
      ['COM', 5, 'start'],
    ])
  })

  it('are whole, from 1 to 5', () => {
    expect(gradeShape(grade('COM', 5))).toBeUndefined()
    expect(gradeShape({ ...grade('COM', 5), grade: 6 })).toBe('.grade is 6, not 1, 2, 3, 4, 5')
    expect(gradeShape({ ...grade('COM', 5), grade: 2.5 })).toMatch(/grade is 2.5/)
    expect(gradeShape({ ...grade('COM', 5), seen: [1] })).toBe('.seen.0 is 1, not text')
  })

  it('the list that comes along has five steps, each name and behaviour once', () => {
    const { scale, competencies } = STANDARD_GRADING
    const behaviours = competencies.flatMap((one) => one.behaviours)
    expect(scale).toHaveLength(5)
    expect(new Set(behaviours).size).toBe(behaviours.length)
    expect(new Set(competencies.map(({ id }) => id)).size).toBe(competencies.length)
  })
})

describe('two instructors', () => {
  it('are compared in what both graded, each competency and all', () => {
    const [own, other] = pairsOf('33 34 22 51')
    const { pairs, all, byCompetency, ownOnly, otherOnly } = compared(
      [...own, grade('SAW', 3), grade('WLM', 1)],
      [...other, grade('WLM', 2), grade('PRO', 2), grade('PRO', 3, { part: 'start' })],
    )
    expect(pairs).toHaveLength(5)
    expect([ownOnly, otherOnly]).toEqual([1, 2])
    expect(byCompetency.map(({ id, agreement: { n, same } }) => [id, n, same.value])).toEqual([
      ['COM', 4, 0.5],
      ['WLM', 1, 0],
    ])
    expect(all.same.value).toBe(2 / 5)
    expect(all.near.value).toBe(4 / 5)
  })

  it('the same competency of another run or another part is not the same', () => {
    const { pairs } = compared([grade('COM', 3)], [grade('COM', 3, { runId: 'other' }), grade('COM', 3, { part: 'a' })])
    expect(pairs).toEqual([])
  })

  it('weights take off less where grades are near', () => {
    const [own, other] = pairsOf('12 23 34 45 54 43 32 21')
    const { kappa, linear, quadratic } = compared(own, other).all
    // By hand: no pair is the same, so unweighted it is below chance.
    expect(kappa.value).toBeLessThan(0)
    expect(linear.value).toBeGreaterThan(kappa.value ?? 1)
    expect(quadratic.value).toBeGreaterThan(linear.value ?? 1)
  })
})

describe('in one sentence', () => {
  const words = (text: string) => agreementWords(compared(...pairsOf(text)).all)

  it('says how many are the same, kappa with its interval, and that they are few', () => {
    expect(words('11 22 33 44 32 55')).toMatch(
      /^5 of 6 grades are the same \(83 %, with 95 % between 44 and 97 %\); kappa weighted by squares is 0\.9\d, with 95 % between 0\.\d\d and 1\.00, and 6 pairs are too few to rely on it: 50 would do\.$/,
    )
  })

  it('where both gave one grade alone kappa has no value, and why is said', () => {
    expect(words('33 33 33')).toMatch(
      /as both gave nothing but 3, kappa has no value: chance alone would agree as well/,
    )
  })

  it('where one of them gave one grade throughout kappa is none, without an interval', () => {
    expect(words('33 34 32 33')).toContain(
      'kappa weighted by squares is 0.00, without an interval, as one of the two gave the same grade throughout',
    )
  })

  it('one pair alone has no kappa', () => {
    expect(words('34')).toBe(
      '0 of 1 grade is the same (0 %, with 95 % between 0 and 79 %); one pair alone has no kappa.',
    )
    expect(kappaWords(compared(...pairsOf('34')).all.kappa)).toBe('too few')
  })

  it('where no pair differs there is no interval', () => {
    expect(words('33 22 44')).toContain('kappa weighted by squares is 1.00, without an interval, as no pair differs')
  })

  it('enough pairs are not called few', () => {
    expect(words(Array.from({ length: 50 }, (_, at) => ['33', '22', '34', '45'][at % 4]).join(' '))).not.toMatch(/few/)
  })

  it('nothing in common is said to be so', () => {
    expect(agreementWords(compared([grade('COM', 3)], []).all)).toBe('There is nothing that both graded.')
  })
})
