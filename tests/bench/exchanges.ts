/**
 * Benchmark of read-backs, made up and of the demo's own exchanges: how often each is taken for what it was, how often an
 * element that was left out is asked for by its name, and how long a verdict takes.
 */

import { fileURLToPath } from 'node:url'
import { readPackDir } from '../../src/cli/packDir.ts'
import type { Random } from '../corpus/case.ts'
import { sourceOf } from '../corpus/demoTransmissions.ts'
import { isAsItShould, judgementOfStation, STATION_CHECK, stationReadBacks } from '../corpus/stationReadBacks.ts'
import {
  CHECK_SEED,
  judgementOf,
  outcomeOfTransmission,
  type Source,
  type Transmission,
  transmissions,
} from '../corpus/transmissions.ts'

const COUNT = 50_000
/** Of each truth, with three to seven elements. */
const STATION_COUNT = 10_000

export async function measure(seed?: number): Promise<Record<string, number>> {
  const { pack } = await readPackDir(fileURLToPath(new URL('../../checklists/marram', import.meta.url)))
  if (!pack) throw new Error('the demo pack cannot be read')
  return {
    ...measured('exchanges', transmissions(COUNT, seed ?? CHECK_SEED)),
    ...measured('exchanges.demo', transmissions(COUNT, seed ?? CHECK_SEED, sourceOf(pack))),
    ...measuredLeftOut('exchanges.leftOut', seed ?? STATION_CHECK),
    ...measuredLeftOut('exchanges.leftOut.demo', seed ?? STATION_CHECK, sourceOf(pack)),
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

/** Each element left out in its turn; beside it what is right, and what has one value wrong, in the same wordings. */
function measuredLeftOut(name: string, seed: number, source?: (random: Random) => Source): Record<string, number> {
  const asItShould = (truth: 'right' | 'leftOut' | 'wrong') =>
    [...stationReadBacks(truth, STATION_COUNT, seed, source)].filter((each) =>
      isAsItShould(each, judgementOfStation(each)),
    ).length
  return {
    [`${name}.tried`]: STATION_COUNT,
    [`${name}.askedFor`]: asItShould('leftOut'),
    [`${name}.wrongAccepted`]: STATION_COUNT - asItShould('wrong'),
    [`${name}.rightRefused`]: STATION_COUNT - asItShould('right'),
  }
}
