/** What moves a run that is played to a room, and who speaks in it now. */

import type { OnStage } from '../../../app/store.ts'
import type { Role } from '../../../kernel/pack/roles.ts'
import { useActions, useApp } from '../../useApp.ts'

const WHO: Readonly<Record<Role, string>> = {
  otherseat: 'Otherseat',
  controller: 'Controller',
  groundCrew: 'Ground crew',
  broadcast: 'Broadcast',
}

export function PlayedBar({ stage: { title, state } }: { readonly stage: OnStage }) {
  const { speaking, role } = useApp(({ voice }) => voice)
  const actions = useActions()
  const { note, isOver, hasBack, hasOn } = state
  return (
    <div class="dock played">
      <p class="played-line">
        {speaking !== '' ? (
          <>
            <strong>{WHO[role]}</strong> “{speaking}”
          </>
        ) : isOver ? (
          'That is the end. Going on plays it from its beginning.'
        ) : note !== '' ? (
          <em>{note}</em>
        ) : (
          <span class="soft">{title}</span>
        )}
      </p>
      <div class="row">
        <button type="button" disabled={!hasBack} onClick={() => actions.stageBack()}>
          Stop before
        </button>
        <button type="button" disabled={!hasOn} onClick={() => actions.stageOn()}>
          Next stop
        </button>
      </div>
    </div>
  )
}
