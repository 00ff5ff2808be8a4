/**
 * An address for each screen, behind the "#": the browser's Back leads to the screen before. What is on the screen is the
 * store's; this only writes it into the address, and asks for what the address says.
 */

import { useContext, useEffect, useRef } from 'preact/hooks'
import type { Actions } from '../../../app/actions/actions.ts'
import { isScreenThere } from '../../../app/selectors.ts'
import type { AppState, Screen } from '../../../app/store.ts'
import { AppContext, useApp } from '../../useApp.ts'

/** "packs/KEY/procedures.yaml", "packs/KEY/cards", "runs/ID", "grading/ID", "settings". */
function addressOf({ screen, shelf: { editing, cards }, runs: { opened }, grading }: AppState): string {
  if (screen === 'debrief' && opened) return `runs/${encodeURIComponent(opened.runId)}`
  if (screen === 'grading' && grading) return `grading/${encodeURIComponent(grading.runId)}`
  if (screen !== 'packs') return screen
  if (editing) return ['packs', editing.key, editing.path].map(encodeURIComponent).join('/')
  return cards === undefined ? 'packs' : ['packs', cards, 'cards'].map(encodeURIComponent).join('/')
}

/** Behind it stands the code of a room: an instructor may come by it without ever having been here. */
const ROOM_LINK = 'room/'

/** Of the screens that need nothing; the others are gone with what they showed. */
const AT_FIRST: ReadonlySet<string> = new Set(['packs', 'runs', 'grading', 'progress', 'settings', 'room'])

export function useAddress(): void {
  const parts = useContext(AppContext)
  const address = useApp(addressOf)
  const isWritten = useRef(false)
  /** What is on the way to what an address asks for has no address of its own. */
  const isFollowing = useRef(false)
  useEffect(() => {
    if (!parts) return
    const { store, actions } = parts
    const follow = () => {
      const written = location.hash.slice(1)
      if (written.startsWith('pack=')) {
        // It is asked about once, and not again at each reload.
        history.replaceState(null, '', '#packs')
        actions.show('packs')
        void actions.offerLink(written)
        return
      }
      if (written.startsWith(ROOM_LINK)) {
        history.replaceState(null, '', '#room')
        actions.show('room')
        void actions.lookForRooms(written.slice(ROOM_LINK.length))
        return
      }
      isFollowing.current = true
      void goTo(written, store.getState(), actions).finally(() => {
        isFollowing.current = false
        if (location.hash.slice(1) === written) history.replaceState(null, '', `#${addressOf(store.getState())}`)
      })
    }
    const first = location.hash.slice(1)
    const { settings } = store.getState()
    const isPack = first.startsWith('pack=')
    if (first.startsWith(ROOM_LINK)) follow()
    else if (
      !store.getState().needsGesture &&
      (isPack || (settings.welcomed && AT_FIRST.has(first.split('/')[0] ?? '')))
    ) {
      follow()
    } else if (first !== '') {
      // A run that waits to be resumed goes first; what a link offers stands among the packs.
      if (isPack) void actions.offerLink(first)
      history.replaceState(null, '', `#${addressOf(store.getState())}`)
    }
    window.addEventListener('popstate', follow)
    return () => window.removeEventListener('popstate', follow)
  }, [parts])
  useEffect(() => {
    const written = location.hash.slice(1)
    // The first address may ask for what is not on the screen yet.
    const isFirst = !isWritten.current
    isWritten.current = true
    if (
      isFollowing.current ||
      (isFirst && written !== '') ||
      written === address ||
      (written === '' && address === 'start')
    )
      return
    history.pushState(null, '', `#${address}`)
  }, [address])
}

/** Nothing happens where there is no such screen now. Every action is waited for: its code may not have loaded yet. */
async function goTo(written: string, state: AppState, actions: Actions): Promise<void> {
  const [screen = '', key, path] = written.split('/').map(decoded)
  if (screen === '') return await actions.show('start')
  if (screen === 'grading' && key !== undefined) return await actions.openGrading(key)
  if (!isScreenThere(state, screen as Screen)) return
  if (screen === 'debrief') await actions.showDebrief()
  else if (screen === 'runs' && key !== undefined) await actions.openRun(key)
  else await actions.show(screen as Screen)
  if (screen !== 'packs') return
  await actions.showCards(key !== undefined && path === 'cards' ? key : undefined)
  if (key !== undefined && path !== undefined && path !== 'cards') await actions.editFile(key, path)
  else await actions.closeFile()
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text)
  } catch {
    return text
  }
}
