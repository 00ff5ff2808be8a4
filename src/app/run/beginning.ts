/** How a run begins: with which figures, settings and stations, and as which departure where it was dealt. */

import { type Departure, deal } from '../../kernel/figures/deal.ts'
import type { Inputs } from '../../kernel/figures/model.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { readBackOf } from '../../kernel/pack/rests.ts'
import { nextEdition } from '../../kernel/papers/corrected.ts'
import { type Dial, type EventBody, NOTICE, type RunSettings, type Script } from '../../kernel/run/core/events.ts'
import { scriptFor } from '../../kernel/run/talk/script.ts'
import type { FromSheet } from './revision.ts'

export interface Beginning {
  readonly inputs: Inputs
  readonly settings: RunSettings
  /** Sheets that are on the table, oldest first. */
  readonly sheets?: readonly Inputs[]
  /** The sheet that the figures came with. */
  readonly from?: FromSheet
  /** The number by which the departure was dealt: its final figures come in at their time. */
  readonly dealt?: number
  /** What is due, and nothing else: items of this pack -> the same in the whole one. */
  readonly drill?: Readonly<Record<string, string>>
  /** Read-backs and nothing else: how they are put, and which of them are stepped on. */
  readonly dial?: { readonly put: Dial; readonly steppedOn: Readonly<Record<string, string>> }
  /** The voices outside the crew: what they say follows from the seed, or from `dealt`. Left out, they are. */
  readonly stations?: { readonly seed: number; readonly slips?: boolean }
}

/** Its final figures come on the next edition of each paper that is numbered. The same number deals the same departure; undefined where the pack has no rules for dealing. */
export function dealtBy(pack: Pack, seed: number): Departure | undefined {
  const departure = deal(pack.figures, readBackOf(pack), seed)
  return departure && { ...departure, final: nextEdition(pack, departure.final) }
}

export function startOf(pack: Pack, beginning: Beginning, startedAt: number): EventBody {
  const { id, version, sha256, name, texts } = pack
  const { inputs, settings, dealt, drill, dial } = beginning
  const initial = Object.fromEntries(pack.situations.map((one) => [one.name, one.initial]))
  const script = scriptOf(pack, beginning)
  return {
    type: 'runStarted',
    notice: NOTICE,
    pack: { id, version, sha256, name, texts },
    situation: { ...initial, ...inputs.situation },
    ...{ settings, startedAt },
    ...(dealt !== undefined && { dealt }),
    ...(drill && { drill }),
    ...(script && { script: dial ? { ...script, steppedOn: dial.steppedOn } : script }),
    ...(dial && { dial: dial.put }),
  }
}

/** The same dealt departure has the same clearances. Nothing of its final figures is among them: they come later. */
function scriptOf(pack: Pack, { inputs, dealt, stations }: Beginning): Script | undefined {
  const hasTalk = pack.phases.some(({ activities }) =>
    activities.some(({ type }) => type === 'exchange' || type === 'briefing'),
  )
  if (!stations || !hasTalk) return undefined
  const { seed, slips = false } = stations
  const final = dealt === undefined ? undefined : dealtBy(pack, dealt)?.final
  return scriptFor(pack, inputs, dealt ?? seed, { slips, others: final ? [final] : [] })
}
