/** The papers and the scratch pad beside the challenge. */

import { useActions, useApp } from '../../useApp.ts'
import { PapersWindow } from './PapersWindow.tsx'
import { OpenPapers, Pile } from './Pile.tsx'
import { ScratchPad } from './ScratchPad.tsx'
import { usePapers } from './usePapers.ts'

export function OnTable() {
  const { pile, open } = usePapers()
  const hasPad = useApp((state) => state.hasPad)
  const actions = useActions()
  return (
    <section class="on-table" aria-label="Papers and scratch pad">
      <div class="table-row">
        {pile.length > 0 && <Pile pile={pile} />}
        <button type="button" aria-pressed={hasPad} onClick={actions.turnPad}>
          Scratch pad
        </button>
      </div>
      {hasPad && <ScratchPad />}
      <OpenPapers open={open} isRunning />
      {open.length > 0 && <PapersWindow />}
    </section>
  )
}
