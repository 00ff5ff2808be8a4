/** The figures of a draft beside what lies on the table: only what its newest editions print is compared. */

import { compute } from '../../kernel/figures/compute.ts'
import type { FigureSet, Inputs } from '../../kernel/figures/model.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { asPrinted, type Blanks, blanksOf } from '../../kernel/papers/asPrinted.ts'
import type { AppState } from '../store.ts'

type OnTable = Pick<AppState, 'run' | 'sheets' | 'settings'>

export function blanksOnTable(
  pack: Pack,
  draft: Inputs,
  { run, sheets, settings }: OnTable,
): ReadonlyMap<string, Blanks> {
  if (run) return blanksOf(pack, run.sheets, { situation: run.situation, hasStations: run.script !== undefined })
  const initial = Object.fromEntries(pack.situations.map((one) => [one.name, one.initial]))
  const ground = { situation: { ...initial, ...draft.situation }, hasStations: settings.stations }
  return blanksOf(
    pack,
    sheets.map((inputs) => ({ inputs })),
    ground,
  )
}

export const previewOf = (pack: Pack, draft: Inputs, onTable: OnTable): FigureSet =>
  compute(pack.figures, asPrinted(draft, blanksOnTable(pack, draft, onTable)))
