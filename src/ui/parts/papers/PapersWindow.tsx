/** The papers in a window of their own: for a second screen beside the simulator. Keys pressed in it count as the page's. */

import { createPortal } from 'preact/compat'
import { hasRunOn } from '../../../app/selectors.ts'
import { useApp } from '../../useApp.ts'
import { useOwnWindow } from '../shell/useOwnWindow.ts'
import { OpenPapers, Pile } from './Pile.tsx'
import { usePapers } from './usePapers.ts'

const request = async () => globalThis.open('', 'otherseat-papers', 'popup,width=760,height=900') ?? undefined

export function PapersWindow() {
  const { window, toggle } = useOwnWindow('Papers', request)
  return (
    <>
      <button type="button" aria-pressed={window !== undefined} onClick={() => void toggle()}>
        {window ? 'Close the papers window' : 'Papers in their own window'}
      </button>
      {window && createPortal(<Inside />, window.document.body)}
    </>
  )
}

function Inside() {
  const { pile, open } = usePapers()
  const isRunning = useApp(hasRunOn)
  return (
    <main class="papers-window">
      <Pile pile={pile} />
      <OpenPapers open={open} isRunning={isRunning} />
    </main>
  )
}
