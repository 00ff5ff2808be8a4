/**
 * Benchmark of progress and of what is due: facts of runs with 200 trials each, as they are kept, read and made into pictures;
 * and trials of simulated learners by schedule.
 */

import { chartsOf } from '../../src/app/training/charts.ts'
import { deckOf } from '../../src/app/training/deck.ts'
import { readFacts } from '../../src/app/training/runFacts.ts'
import { progressOf } from '../../src/kernel/training/progress.ts'
import { madeUpRuns } from '../kernel/training/madeUp.ts'
import { CURVES, learnedBy, SCHEDULES } from './learners.ts'

const RUNS = [250, 500, 1_000] as const
const TRIALS = 200
const TIMES = 5

export async function measure(seed = 1): Promise<Record<string, number>> {
  const figures: Record<string, number> = {}
  const opened: number[] = []
  for (const runs of RUNS) {
    const facts = madeUpRuns({ runs, trials: TRIALS, seed })
    const kept = new Map(facts.map((one) => [`run ${one.runId}`, JSON.stringify(one)]))
    const log = {
      runs: async () => facts.map(({ runId, startedAt }) => ({ runId, startedAt, pack: '', ended: true })),
      read: async () => [],
    }
    const deck = deckOf(facts)
    const times: number[] = []
    for (let time = 0; time < TIMES; time++) {
      const begin = performance.now()
      const read = await readFacts(log, { put: async () => undefined }, kept)
      chartsOf(progressOf(read.facts), 'value')
      deckOf(read.facts, deck)
      times.push(performance.now() - begin)
    }
    const ms = Math.min(...times)
    opened.push(ms)
    figures[`training.open${runs}RunsMs`] = ms
  }
  const [least = 1, , most = 1] = opened
  figures['training.open1000Per250'] = most / least
  for (const curve of CURVES) {
    const learned = SCHEDULES.map((schedule) => [schedule, learnedBy(curve, schedule, seed)] as const)
    for (const [schedule, { recall, trials }] of learned) {
      figures[`training.${curve}.${schedule}Recall`] = recall
      figures[`training.${curve}.${schedule}Trials`] = trials
    }
  }
  return figures
}
