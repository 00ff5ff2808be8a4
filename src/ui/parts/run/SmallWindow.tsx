/**
 * A small window that stays over a simulator, where the browser has one: the challenge, what was heard and the
 * verdict, and whether it listens. Keys pressed in it count as those of the page.
 */

import { createPortal } from 'preact/compat'
import type { RunView } from '../../../app/view/view.ts'
import { useApp } from '../../useApp.ts'
import { useOwnWindow } from '../shell/useOwnWindow.ts'
import { earWords } from './EarStrip.tsx'
import { Verdict } from './Verdict.tsx'

interface PictureInPicture {
  requestWindow(options: { readonly width: number; readonly height: number }): Promise<Window>
}
const offered = () => (globalThis as { documentPictureInPicture?: PictureInPicture }).documentPictureInPicture

export function SmallWindow({ view }: { readonly view: RunView }) {
  const pip = offered()
  const { window, toggle } = useOwnWindow('Otherseat', async () =>
    pip?.requestWindow({ width: 420, height: 260 }).catch(() => undefined),
  )
  if (!pip) return null
  return (
    <div>
      <button type="button" aria-pressed={window !== undefined} onClick={() => void toggle()}>
        {window ? 'Close the small window' : 'Small window'}
      </button>
      {window && createPortal(<Inside view={view} />, window.document.body)}
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
