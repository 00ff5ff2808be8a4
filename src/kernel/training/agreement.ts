/** How far two instructors who graded the same runs by themselves agree: per competency and over all. */

import { GRADES } from '../pack/grading.ts'
import { type Estimate, shareOf } from '../statistics/intervals.ts'
import { type Kappa, kappaOf, LINEAR, QUADRATIC, ratingTable, UNWEIGHTED } from '../statistics/kappa.ts'
import { type Grade, lastGrades, unitOf } from './grades.ts'

/** What both graded. */
export interface GradedByBoth {
  readonly own: Grade
  readonly other: Grade
}

export interface Agreement {
  /** Pairs of grades. */
  readonly n: number
  /** Share of those that are the same; of those at most one step apart. */
  readonly same: Estimate
  readonly near: Estimate
  readonly kappa: Kappa
  readonly linear: Kappa
  readonly quadratic: Kappa
  /** The one grade that both always gave, if so. */
  readonly onlyGrade: number | undefined
}

export interface Comparison {
  readonly pairs: readonly GradedByBoth[]
  readonly all: Agreement
  readonly byCompetency: readonly { readonly id: string; readonly name: string; readonly agreement: Agreement }[]
  /** What one of the two alone graded: it counts for nothing here. */
  readonly ownOnly: number
  readonly otherOnly: number
}

/** Pairs from which the large-sample interval holds: twice the square of the steps (Cicchetti 1981, from memory). */
export const ENOUGH_PAIRS = 2 * GRADES.length ** 2

export function agreementOf(pairs: readonly GradedByBoth[]): Agreement {
  const steps = pairs.map(({ own, other }) => [own.grade - 1, other.grade - 1] as const)
  const table = ratingTable(steps, GRADES.length)
  const within = (apart: number) => steps.filter(([one, other]) => Math.abs(one - other) <= apart).length
  const given = new Set(steps.flat())
  const [only] = given
  return {
    n: pairs.length,
    same: shareOf(within(0), pairs.length),
    near: shareOf(within(1), pairs.length),
    kappa: kappaOf(table, UNWEIGHTED),
    linear: kappaOf(table, LINEAR),
    quadratic: kappaOf(table, QUADRATIC),
    onlyGrade: given.size === 1 && only !== undefined ? only + 1 : undefined,
  }
}

/** Of each unit what either gave last. */
export function compared(own: readonly Grade[], other: readonly Grade[]): Comparison {
  const [mine, theirs] = [lastGrades(own), new Map(lastGrades(other).map((grade) => [unitOf(grade), grade]))]
  const pairs = mine.flatMap((grade) => {
    const counterpart = theirs.get(unitOf(grade))
    return counterpart ? [{ own: grade, other: counterpart }] : []
  })
  const names = new Map(pairs.map(({ own: { competency, name } }) => [competency, name]))
  return {
    pairs,
    all: agreementOf(pairs),
    byCompetency: [...names].map(([id, name]) => ({
      ...{ id, name },
      agreement: agreementOf(pairs.filter(({ own: { competency } }) => competency === id)),
    })),
    ownOnly: mine.length - pairs.length,
    otherOnly: theirs.size - pairs.length,
  }
}

/** One sentence with its limits: how many are the same, what kappa by squares is, and how sure that is. */
export function agreementWords({ n, same, quadratic, onlyGrade }: Agreement): string {
  if (n === 0) return 'There is nothing that both graded.'
  const right = Math.round((same.value ?? 0) * n)
  const head = `${right} of ${n === 1 ? '1 grade is' : `${n} grades are`} the same (${percentWords(same)})`
  if (onlyGrade !== undefined)
    return `${head}; as both gave nothing but ${onlyGrade}, kappa has no value: chance alone would agree as well.`
  if (n === 1) return `${head}; one pair alone has no kappa.`
  const few = n < ENOUGH_PAIRS ? `, and ${n} pairs are too few to rely on it: ${ENOUGH_PAIRS} would do` : ''
  const kappa = `kappa weighted by squares is ${shown(quadratic.value)}`
  const why = same.value === 1 ? 'no pair differs' : 'one of the two gave the same grade throughout'
  if (quadratic.low === undefined) return `${head}; ${kappa}, without an interval, as ${why}${few}.`
  return `${head}; ${kappa}, with 95 % between ${shown(quadratic.low)} and ${shown(quadratic.high)}${few}.`
}

/** "75 %, 47 to 91". */
export function percentWords({ value, low, high }: Estimate): string {
  const of = (share: number | undefined) => Math.round((share ?? 0) * 100)
  return value === undefined ? 'none' : `${of(value)} %, with 95 % between ${of(low)} and ${of(high)} %`
}

/** "0.62", "none". */
export const shown = (kappa: number | undefined): string =>
  kappa === undefined ? 'none' : (Math.round(kappa * 100) / 100 + 0).toFixed(2)

/** "0.62, 0.21 to 0.93"; of one pair it would be 0 or nothing whatever the grades. */
export const kappaWords = ({ n, value, low, high }: Kappa): string =>
  n < 2 ? 'too few' : low === undefined ? shown(value) : `${shown(value)}, ${shown(low)} to ${shown(high)}`
