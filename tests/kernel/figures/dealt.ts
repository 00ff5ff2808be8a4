/** Departures dealt by seed, for tests of many of them. */

import { compute } from '../../../src/kernel/figures/compute.ts'
import { type Departure, deal } from '../../../src/kernel/figures/deal.ts'
import type { Inputs } from '../../../src/kernel/figures/model.ts'
import type { Pack } from '../../../src/kernel/pack/checklist.ts'
import { readBackOf } from '../../../src/kernel/pack/rests.ts'

/** One for each seed from 0; a seed that deals nothing is an error. */
export function dealtOf(pack: Pack, count: number): Departure[] {
  const readBack = readBackOf(pack)
  return Array.from({ length: count }, (_, seed) => {
    const departure = deal(pack.figures, readBack, seed)
    if (!departure) throw new Error(`seed ${seed} deals nothing`)
    return departure
  })
}

/** The final figures once every difference from a wrong or old sheet is settled on our own value. */
export function settled(pack: Pack, { final }: Departure): Inputs {
  const open = Object.values(compute(pack.figures, final).figures).filter(({ sources }) =>
    sources?.some(({ within }) => !within),
  )
  let inputs = final
  for (const one of open) inputs = settle(pack, inputs, one.name)
  // What rested on an open one could not be compared before.
  const next = Object.values(compute(pack.figures, inputs).figures).filter(
    ({ value, sources }) => value === undefined && sources,
  )
  for (const one of next) inputs = settle(pack, inputs, one.name)
  return inputs
}

function settle(pack: Pack, inputs: Inputs, name: string): Inputs {
  const use = pack.figures.declarations[name]?.input ? 'entered' : 'computed'
  return { ...inputs, settled: { ...inputs.settled, [name]: { use, reason: 'looked up again' } } }
}
