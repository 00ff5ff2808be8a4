/** Benchmark of read-backs of one to seven elements: how often each is taken for what it was, and how long it takes. */

import { CHECK_SEED, outcomeOfTransmission, transmissions } from '../../../tests/corpus/transmissions.ts'
import { judgeReadBack } from '../../kernel/response/readBack.ts'

const COUNT = 50_000

export async function measure(): Promise<Record<string, number>> {
  const tally: Record<string, number> = {}
  const count = (name: string) => {
    tally[name] = (tally[name] ?? 0) + 1
  }
  const micros: number[] = []
  for (const each of transmissions(COUNT, CHECK_SEED)) {
    const begin = performance.now()
    const judgement = judgeReadBack(each.elements, { figures: each.figures, heard: each.heard })
    micros.push((performance.now() - begin) * 1000)
    count(each.truth)
    count(outcomeOfTransmission(each, judgement))
  }
  micros.sort((a, b) => a - b)
  return {
    'exchanges.wrongTried': tally.wrong ?? 0,
    'exchanges.leftOutTried': tally.leftOut ?? 0,
    'exchanges.wrongAccepted': tally.wrongAccepted ?? 0,
    'exchanges.rightTried': tally.right ?? 0,
    'exchanges.rightRefused': tally.rightRefused ?? 0,
    'exchanges.notTold': tally.notTold ?? 0,
    'exchanges.usPerVerdict.p50': micros[Math.floor(COUNT * 0.5)] ?? 0,
    'exchanges.usPerVerdict.p99': micros[Math.floor(COUNT * 0.99)] ?? 0,
  }
}
