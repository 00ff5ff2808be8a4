/**
 * A small window that stays over a simulator, where the browser has one: the challenge, what was heard and the
 * verdict, and whether it listens. Keys pressed in it count as those of the page.
 */

import { createPortal } from 'preact/compat'
import { useEffect, useState } from 'preact/hooks'
import type { RunView } from '../../../app/view/view.ts'
import { useActions, useApp } from '../../useApp.ts'
import { dress } from '../shell/dress.ts'
import { earWords } from './EarStrip.tsx'
import { Verdict } from './Verdict.tsx'

interface PictureInPicture {
  requestWindow(options: { readonly width: number; readonly height: number }): Promise<Window>
}
const offered = () => (globalThis as { documentPictureInPicture?: PictureInPicture }).documentPictureInPicture

export function SmallWindow({ view }: { readonly view: RunView }) {
  const [small, setSmall] = useState<Window>()
  const actions = useActions()
  useEffect(() => () => small?.close(), [small])
  const pip = offered()
  if (!pip) return null
  const open = async () => {
    const opened = await pip.requestWindow({ width: 420, height: 260 }).catch(() => undefined)
    if (!opened) return
    dress(opened, 'Otherseat')
    const leave = actions.attachKeys(opened)
    opened.addEventListener('pagehide', () => {
      leave()
      setSmall(undefined)
    })
    setSmall(opened)
  }
  return (
    <div>
      <button type="button" aria-pressed={small !== undefined} onClick={() => (small ? small.close() : void open())}>
        {small ? 'Close the small window' : 'Small window'}
      </button>
      {small && createPortal(<Inside view={view} />, small.document.body)}
    </div>
  )
}

function Inside({ view }: { readonly view: RunView }) {
  const words = useApp(earWords)
  const soFar = useApp((state) => state.ear.soFar)
  const failure = useApp((state) => state.ear.failure)
  const { last } = view
  return (
    <main class="small-window">
      <h1>{view.headline}</h1>
      {failure ? <p role="alert">{failure.message}</p> : <p class="soft">{words}</p>}
      {soFar ? <p>{soFar}</p> : last && <p>{last.text}</p>}
      {!soFar && last && <Verdict judgement={last.judgement} />}
    </main>
  )
}
