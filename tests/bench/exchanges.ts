/**
 * Benchmark of read-backs, made up and of the demo's own exchanges: how often each is taken for what it was, and how long
 * it takes.
 */

import { fileURLToPath } from 'node:url'
import { readPackDir } from '../../src/cli/packDir.ts'
import { sourceOf } from '../corpus/demoTransmissions.ts'
import {
  CHECK_SEED,
  judgementOf,
  outcomeOfTransmission,
  type Transmission,
  transmissions,
} from '../corpus/transmissions.ts'

const COUNT = 50_000

export async function measure(): Promise<Record<string, number>> {
  const { pack } = await readPackDir(fileURLToPath(new URL('../../checklists/marram', import.meta.url)))
  if (!pack) throw new Error('the demo pack cannot be read')
  return {
    ...measured('exchanges', transmissions(COUNT, CHECK_SEED)),
    ...measured('exchanges.demo', transmissions(COUNT, CHECK_SEED, sourceOf(pack))),
  }
}

function measured(name: string, made: Iterable<Transmission>): Record<string, number> {
  const tally: Record<string, number> = {}
  const count = (of: string) => {
    tally[of] = (tally[of] ?? 0) + 1
  }
  const micros: number[] = []
  for (const each of made) {
    const begin = performance.now()
    const judgement = judgementOf(each)
    micros.push((performance.now() - begin) * 1000)
    count(each.truth)
    count(outcomeOfTransmission(each, judgement))
  }
  micros.sort((a, b) => a - b)
  return {
    [`${name}.wrongTried`]: tally.wrong ?? 0,
    [`${name}.leftOutTried`]: tally.leftOut ?? 0,
    [`${name}.wrongAccepted`]: tally.wrongAccepted ?? 0,
    [`${name}.rightTried`]: tally.right ?? 0,
    [`${name}.rightRefused`]: tally.rightRefused ?? 0,
    [`${name}.notTold`]: tally.notTold ?? 0,
    [`${name}.usPerVerdict.p50`]: micros[Math.floor(COUNT * 0.5)] ?? 0,
    [`${name}.usPerVerdict.p99`]: micros[Math.floor(COUNT * 0.99)] ?? 0,
  }
}
