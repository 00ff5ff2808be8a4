/** The papers in a window of their own: for a second screen beside the simulator. Keys pressed in it count as the page's. */

import { createPortal } from 'preact/compat'
import { useEffect, useState } from 'preact/hooks'
import { hasRunOn } from '../../../app/selectors.ts'
import { useActions, useApp } from '../../useApp.ts'
import { dress } from '../shell/dress.ts'
import { OpenPapers, Pile } from './Pile.tsx'
import { usePapers } from './usePapers.ts'

export function PapersWindow() {
  const [own, setOwn] = useState<Window>()
  const actions = useActions()
  useEffect(() => () => own?.close(), [own])
  const open = () => {
    const opened = globalThis.open('', 'otherseat-papers', 'popup,width=760,height=900')
    if (!opened) return
    opened.document.body.replaceChildren()
    dress(opened, 'Papers')
    const leave = actions.attachKeys(opened)
    opened.addEventListener('pagehide', () => {
      leave()
      setOwn(undefined)
    })
    setOwn(opened)
  }
  return (
    <>
      <button type="button" aria-pressed={own !== undefined} onClick={() => (own ? own.close() : open())}>
        {own ? 'Close the papers window' : 'Papers in their own window'}
      </button>
      {own && createPortal(<Inside />, own.document.body)}
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
