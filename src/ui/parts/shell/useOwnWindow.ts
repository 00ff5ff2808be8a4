/** Another window of the page's own: opened dressed as the page is, its keys counting as the page's, closed with who asked for it. */

import { useEffect, useState } from 'preact/hooks'
import { useActions } from '../../useApp.ts'

export interface OwnWindow {
  /** Undefined while it is closed. */
  readonly window: Window | undefined
  toggle(): Promise<void>
}

/** `request`: undefined where the browser opens none. */
export function useOwnWindow(title: string, request: () => Promise<Window | undefined>): OwnWindow {
  const [own, setOwn] = useState<Window>()
  const actions = useActions()
  useEffect(() => () => own?.close(), [own])
  return {
    window: own,
    async toggle() {
      if (own) return own.close()
      const opened = await request()
      if (!opened) return
      opened.document.body.replaceChildren()
      dress(opened, title)
      const leave = actions.attachKeys(opened)
      opened.addEventListener('pagehide', () => {
        leave()
        setOwn(undefined)
      })
      setOwn(opened)
    },
  }
}

/** The page's own style and theme. */
function dress(window: Window, title: string): void {
  const { document: there } = window
  for (const sheet of document.querySelectorAll('link[rel="stylesheet"], style')) {
    there.head.append(sheet.cloneNode(true))
  }
  there.documentElement.lang = 'en'
  there.documentElement.dataset.theme = document.documentElement.dataset.theme ?? 'system'
  there.title = title
}
