/** What the voices outside the crew say of each figure at this moment. */

import type { Value } from '../../kinds/kind.ts'
import { plausibleMistake } from '../../kinds/table.ts'
import type { Pack } from '../../pack/checklist.ts'
import { seeded } from '../../seeded.ts'
import type { Script, Slip } from '../core/events.ts'
import type { RunState } from '../core/state.ts'

type Values = Readonly<Record<string, Value>>

/** What a script has for each figure while the others are these: a route for the runway in use. */
export function scriptedWith({ values, by = {} }: Script, others: Values): Values {
  const all: Record<string, Value> = { ...values }
  for (const [name, { figure, values: each }] of Object.entries(by)) {
    const other = all[figure] ?? others[figure]
    const value = other === undefined ? undefined : each[String(other)]
    if (value !== undefined) all[name] = value
  }
  return all
}

/** What stations give, and nothing that they only repeat. */
export function scripted(state: RunState): Values {
  return state.script ? scriptedWith(state.script, inForce(state)) : {}
}

/** Values as stations say them: what the script has for a figure, else the value that holds. */
export function saidValues(state: RunState): Values {
  return { ...inForce(state), ...scripted(state) }
}

/** A station knows which runway is in use, whatever the papers are at odds about. */
function inForce({ inputs, values }: RunState): Values {
  return { ...inputs?.values, ...values }
}

/** What a controller who errs says for a figure; undefined where nothing could be taken for it. */
export function slippedValue(pack: Pack, state: RunState, { figure, seed }: Slip): Value | undefined {
  const [spec, right] = [pack.figures.declarations[figure]?.spec, saidValues(state)[figure]]
  return spec && right !== undefined ? plausibleMistake(spec, right, seeded(seed)) : undefined
}
