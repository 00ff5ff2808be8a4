/** Papers that come in during a run: called by their names, never by what stands on them (law 4). */

import type { Inputs } from '../../figures/model.ts'
import type { Pack } from '../../pack/checklist.ts'
import { newOnes } from '../../papers/pile.ts'
import { afterWatch } from './announce.ts'
import type { RunEvent } from './events.ts'
import { sayAndListen, timers } from './listening.ts'
import { say } from './phrases.ts'
import type { RunState, Step } from './state.ts'

export const withSheet = (state: RunState, inputs: Inputs): RunState => ({
  ...state,
  sheets: [...state.sheets, { inputs, t: state.t }],
})

/** The call for what the last sheet brought; empty where it changed no paper. */
export function papersCalled(pack: Pack, { sheets, situation, script }: RunState): string {
  const editions = newOnes(pack, sheets, { situation, hasStations: script !== undefined })
  return say.papersIn(
    editions.flatMap(({ paper, number }) => (number === undefined ? [] : [{ title: paper.title, number }])),
  )
}

export function sheetCame(pack: Pack, before: RunState, { sheet }: Pick<RunEvent<'sheetCame'>, 'sheet'>): Step {
  const state = withSheet(before, sheet)
  const words = papersCalled(pack, state)
  if (words === '' || before.sheets.length === 0) return { state, effects: timers(state) }
  return afterWatch(pack, state, [words]) ?? sayAndListen(pack, state, [words], { prompt: !state.standingBy })
}

export function paperHandled(state: RunState, { edition, how }: RunEvent<'paperHandled'>): Step {
  const others = state.putAway.filter((one) => one !== edition)
  const putAway = how === 'putAway' ? [...others, edition] : how === 'takenOut' ? others : state.putAway
  return { state: { ...state, putAway }, effects: [] }
}
