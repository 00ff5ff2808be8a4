/**
 * Benchmark of judging: over the check corpus and the tuning corpus, how often what was said is taken for what it was,
 * how long a verdict takes and whether memory stays flat. Beside it the baseline: one-string similarity.
 */

import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { VERDICTS } from '../../src/kernel/response/model.ts'
import { type Case, outcomeOf } from '../corpus/case.ts'
import { checkingCases } from '../corpus/checking.ts'
import { HAND_GROUPS } from '../corpus/hand.ts'
import { judgeText } from '../corpus/judgeText.ts'
import { tuningCases } from '../corpus/tuning.ts'
import { measureBaseline } from './similarity.ts'

/** Of each truth from the check corpus; the tuning corpus is counted apart. */
const CHECKED = 200_000
const TUNED = 20_000
const INCOMPLETE = 20_000
/** Neither corpus was looked at with this seed. */
const SEED = 20_261_125

type Row = 'correct' | 'negative' | 'notRight' | 'incomplete'
const ROWS: Readonly<Record<Row, string>> = {
  correct: 'right answer',
  negative: 'clearly another value, direction or state',
  notRight: 'not right in another way (negated, two values, truncated, other item)',
  incomplete: 'right, but a part lacks',
}

interface Tally {
  tried: number
  clear: number
  wrongAccepted: number
  rightRefused: number
  notNegative: number
  readonly micros: number[]
  readonly refused: string[]
  readonly confusion: Record<string, number>
}

function emptyTally(): Tally {
  return {
    tried: 0,
    clear: 0,
    wrongAccepted: 0,
    rightRefused: 0,
    notNegative: 0,
    micros: [],
    refused: [],
    confusion: {},
  }
}

function rowOf({ truth, part }: Case): Row {
  if (truth === 'right') return 'correct'
  if (truth === 'incomplete') return 'incomplete'
  return part === undefined ? 'notRight' : 'negative'
}

function count(tally: Tally, cases: Iterable<Case>): Tally {
  for (const each of cases) {
    const begin = performance.now()
    const judgement = judgeText(each.input)
    tally.micros.push((performance.now() - begin) * 1000)
    tally.tried++
    if (each.part !== undefined) tally.clear++
    const cell = `${rowOf(each)}.${judgement.verdict}`
    tally.confusion[cell] = (tally.confusion[cell] ?? 0) + 1
    const outcome = outcomeOf(each, judgement)
    if (outcome === 'wrongAccepted') tally.wrongAccepted++
    if (outcome === 'notNegative') tally.notNegative++
    if (outcome === 'rightRefused') {
      tally.rightRefused++
      tally.refused.push(`${each.input.heard} (${each.why}: ${judgement.verdict}, ${judgement.because})`)
    }
  }
  return tally
}

const at = (sorted: readonly number[], share: number) =>
  sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? 0

/** Refused right answers of the last measurement, for the printed table. */
let refused: readonly string[] = []

export async function measure(seed = SEED): Promise<Record<string, number>> {
  const tuning = count(count(emptyTally(), tuningCases('right', TUNED)), tuningCases('wrong', TUNED))
  const wrong = count(emptyTally(), checkingCases('wrong', CHECKED, seed))
  const right = count(emptyTally(), checkingCases('right', CHECKED, seed))
  const incomplete = count(emptyTally(), checkingCases('incomplete', INCOMPLETE, seed))
  refused = right.refused
  const micros = [...right.micros, ...wrong.micros].sort((a, b) => a - b)
  const confusion = { ...wrong.confusion, ...right.confusion, ...incomplete.confusion }
  return {
    'readback.wrongAccepted': wrong.wrongAccepted + incomplete.wrongAccepted + tuning.wrongAccepted,
    'readback.wrongTried': wrong.tried + incomplete.tried + TUNED,
    'readback.clearTried': wrong.clear,
    'readback.wrongNotNegative': wrong.notNegative,
    'readback.rightRefused': right.rightRefused,
    'readback.rightTried': right.tried,
    'readback.tuning.rightRefused': tuning.rightRefused,
    'readback.tuning.wrongNotNegative': tuning.notNegative,
    'readback.handLines': HAND_GROUPS.flatMap(({ lines }) => lines).length,
    'readback.usPerVerdict.p50': at(micros, 0.5),
    'readback.usPerVerdict.p99': at(micros, 0.99),
    ...measureLengths(),
    'readback.heapGrowthKB.per100000': measureMemory(),
    ...Object.fromEntries(Object.entries(confusion).map(([cell, n]) => [`readback.confusion.${cell}`, n])),
    ...measureBaseline(CHECKED / 10, seed),
  }
}

/** Time of one answer with few words, with 30, and of a transcript of 1,000. */
function measureLengths(): Record<string, number> {
  const item = { response: '<v>', figures: { v: { kind: 'speed', value: 128 } } } as const
  const median = (heard: string, rounds: number) => {
    const micros = Array.from({ length: rounds }, () => {
      const begin = performance.now()
      judgeText({ ...item, heard })
      return (performance.now() - begin) * 1000
    })
    return at(
      micros.sort((a, b) => a - b),
      0.5,
    )
  }
  const words = 'so we have now one two eight knots and that is checked ok thank you'.split(' ')
  const long = Array.from({ length: 30 }, (_, i) => words[i % words.length]).join(' ')
  const longest = Array.from({ length: 1000 }, (_, i) => (i % 3 === 0 ? `word${i}` : words[i % words.length])).join(' ')
  return {
    'readback.us.words3': median('one two eight', 2000),
    'readback.us.words30': median(long, 2000),
    'readback.us.words1000': median(longest, 50),
  }
}

/** Growth of the heap over 100,000 lines, garbage collected before and after. */
function measureMemory(): number {
  setFlagsFromString('--expose-gc')
  const collect = runInNewContext('gc') as () => void
  const used = () => {
    collect()
    return process.memoryUsage().heapUsed
  }
  for (const each of checkingCases('right', 5000, SEED + 1)) judgeText(each.input)
  const before = used()
  for (const each of checkingCases('right', 100_000, SEED + 2)) judgeText(each.input)
  return (used() - before) / 1024
}

export function table(measured: Readonly<Record<string, number>>): string {
  const value = (key: string) => measured[key] ?? 0
  const per = (n: number, of: number) => `${((100 * n) / Math.max(1, of)).toFixed(of > 10_000 ? 3 : 1)} %`
  const rows = Object.entries(ROWS).map(([row, label]) => {
    const cells = VERDICTS.map((verdict) => value(`readback.confusion.${row}.${verdict}`))
    return `| ${label} | ${cells.join(' | ')} |`
  })
  const refusals = refused.length === 0 ? ['none'] : [...new Set(refused)].map((line) => `- ${line}`)
  return [
    `| what it was | ${VERDICTS.join(' | ')} |`,
    `| --- |${' --- |'.repeat(VERDICTS.length)}`,
    ...rows,
    '',
    '| | wrong accepted | right refused | clear wrong not called negative |',
    '| --- | --- | --- | --- |',
    `| judged by readings | ${value('readback.wrongAccepted')} of ${value('readback.wrongTried')} | ${value('readback.rightRefused')} of ${value('readback.rightTried')} (${per(value('readback.rightRefused'), value('readback.rightTried'))}) | ${value('readback.wrongNotNegative')} of ${value('readback.clearTried')} (${per(value('readback.wrongNotNegative'), value('readback.clearTried'))}) |`,
    `| one-string similarity, threshold ${value('baseline.threshold')} | ${value('baseline.wrongAccepted')} of ${value('baseline.wrongTried')} (${per(value('baseline.wrongAccepted'), value('baseline.wrongTried'))}) | ${value('baseline.rightRefused')} of ${value('baseline.rightTried')} (${per(value('baseline.rightRefused'), value('baseline.rightTried'))}) | |`,
    `| one-string similarity, threshold ${value('baseline.strict.threshold')} | ${value('baseline.strict.wrongAccepted')} of ${value('baseline.wrongTried')} (${per(value('baseline.strict.wrongAccepted'), value('baseline.wrongTried'))}) | ${value('baseline.strict.rightRefused')} of ${value('baseline.rightTried')} (${per(value('baseline.strict.rightRefused'), value('baseline.rightTried'))}) | |`,
    '',
    `A verdict takes ${value('readback.usPerVerdict.p50').toFixed(0)} µs (median), ${value('readback.usPerVerdict.p99').toFixed(0)} µs (99th percentile); 30 words ${value('readback.us.words30').toFixed(0)} µs, 1,000 words ${(value('readback.us.words1000') / 1000).toFixed(1)} ms. The heap grows by ${value('readback.heapGrowthKB.per100000').toFixed(0)} KB over 100,000 lines.`,
    '',
    'Right answers refused:',
    ...refusals,
  ].join('\n')
}
