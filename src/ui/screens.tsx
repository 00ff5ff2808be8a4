/**
 * The screens by name. The start screen is there with the page; each other one is loaded when it is
 * first shown, or once the page has come to rest.
 */

import type { ComponentType } from 'preact'
import { useEffect, useLayoutEffect, useState } from 'preact/hooks'
import type { Screen } from '../app/store.ts'
import { Start } from './screens/Start.tsx'

const LOADERS: Readonly<Record<Screen, () => Promise<ComponentType>>> = {
  start: async () => Start,
  figures: async () => (await import('./screens/Figures.tsx')).Figures,
  papers: async () => (await import('./screens/Papers.tsx')).Papers,
  run: async () => (await import('./screens/Run.tsx')).Run,
  debrief: async () => (await import('./screens/Debrief.tsx')).DebriefScreen,
  stage: async () => (await import('./screens/Stage.tsx')).Stage,
  progress: async () => (await import('./screens/Progress.tsx')).Progress,
  sound: async () => (await import('./screens/SoundCheck.tsx')).SoundCheck,
  runs: async () => (await import('./screens/Runs.tsx')).Runs,
  packs: async () => (await import('./screens/Packs.tsx')).Packs,
  room: async () => (await import('./screens/Room.tsx')).RoomScreen,
  grading: async () => (await import('./screens/Grading.tsx')).Grading,
  settings: async () => (await import('./screens/Settings.tsx')).Settings,
}

/** Loaded for nobody who does not go there. */
const ON_REQUEST: ReadonlySet<Screen> = new Set(['room', 'grading'])

const loaded = new Map<Screen, ComponentType>([['start', Start]])

async function load(screen: Screen): Promise<void> {
  if (!loaded.has(screen)) loaded.set(screen, await LOADERS[screen]())
}

/** Fetched while nobody waits for them; one that cannot be fetched is tried again when it is shown. */
export async function loadAllScreens(): Promise<void> {
  const soon = (Object.keys(LOADERS) as Screen[]).filter((screen) => !ON_REQUEST.has(screen))
  await Promise.all(soon.map(load)).catch(() => undefined)
}

export function ScreenByName({ screen }: { readonly screen: Screen }) {
  const [failed, setFailed] = useState<Screen>()
  const [, setShown] = useState<Screen>()
  const Shown = loaded.get(screen)
  useEffect(() => {
    if (Shown) return
    load(screen).then(
      () => setShown(screen),
      () => setFailed(screen),
    )
  }, [screen, Shown])
  // At once: later it could take the focus from a field that is being typed in.
  useLayoutEffect(() => {
    document.querySelector<HTMLElement>('h1')?.focus({ preventScroll: true })
    // From the top, with the way to the other screens in sight.
    document.documentElement.scrollTop = 0
  }, [Shown])
  if (Shown) return <Shown />
  return <main class="page narrow">{failed === screen && <NotLoaded />}</main>
}

function NotLoaded() {
  return (
    <p role="alert">
      This screen could not be loaded. Check the connection, then{' '}
      <button type="button" onClick={() => globalThis.location.reload()}>
        reload the page
      </button>
    </p>
  )
}
