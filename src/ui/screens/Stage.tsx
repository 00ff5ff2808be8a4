/** A run played to a room: the screen of a run that is shown, with what moves it in place of what answers it. */

import { useContext, useMemo } from 'preact/hooks'
import type { Actions } from '../../app/actions/actions.ts'
import type { StageChoices } from '../../app/stage/stageState.ts'
import type { OnStage } from '../../app/store.ts'
import { viewOf } from '../../app/view/view.ts'
import { Demonstration } from '../parts/demonstration/Demonstration.tsx'
import { PlayedBar } from '../parts/demonstration/PlayedBar.tsx'
import { AppContext, useApp } from '../useApp.ts'

export function Stage() {
  const parts = useContext(AppContext)
  const stage = useApp((state) => state.stage)
  const staged = useMemo(
    () => parts && stage && { store: stage.store, actions: actionsOn(parts.actions, stage.store) },
    [parts, stage?.store],
  )
  if (!stage || !staged) return null
  return (
    <AppContext.Provider value={staged}>
      <Played stage={stage} />
    </AppContext.Provider>
  )
}

function Played({ stage }: { readonly stage: OnStage }) {
  const pack = useApp((state) => state.pack)
  const run = useApp((state) => state.run)
  const view = useMemo(() => (pack && run ? viewOf(pack, run) : undefined), [pack, run])
  if (!pack || !run || !view) return null
  return (
    <Demonstration
      pack={pack}
      run={run}
      view={view}
      played={{ words: stage.state.words, dock: <PlayedBar stage={stage} /> }}
    />
  )
}

/** What the parts of a run that is shown ask for, done to the one on the stage. */
function actionsOn(actions: Actions, store: OnStage['store']): Actions {
  const own: Partial<Actions> = {
    press: () => actions.freezeStage(),
    demonstrate(isOn, { roomStops, ...asks } = {}) {
      const { stops = 'never', asksRoom = false } = store.getState().run?.demonstration ?? {}
      const choices: StageChoices = { stops, asksRoom, ...asks, ...(roomStops && { stops: roomStops }) }
      if (isOn) actions.chooseStage(choices)
      else actions.closeStage()
    },
  }
  return Object.assign(Object.create(actions), own)
}
