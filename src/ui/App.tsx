/** The frame around the screens: theme, banners, navigation, and which screen is on. */

import { useEffect, useErrorBoundary } from 'preact/hooks'
import type { Actions } from '../app/actions/actions.ts'
import { brokenBy } from '../app/broken.ts'
import type { Screen, Store } from '../app/store.ts'
import { Banners } from './parts/shell/Banners.tsx'
import { BrokenBanner, BrokenScreen } from './parts/shell/Broken.tsx'
import { Elsewhere } from './parts/shell/Elsewhere.tsx'
import { Header } from './parts/shell/Header.tsx'
import { useAddress } from './parts/shell/useAddress.ts'
import { Resume } from './parts/start/Resume.tsx'
import { ScreenByName } from './screens.tsx'
import { AppContext, useApp } from './useApp.ts'

export function App({ store, actions }: { readonly store: Store; readonly actions: Actions }) {
  return (
    <AppContext.Provider value={{ store, actions }}>
      <Frame />
    </AppContext.Provider>
  )
}

function Frame() {
  const screen = useApp((state) => state.screen)
  const theme = useApp((state) => state.settings.theme)
  const needsGesture = useApp((state) => state.needsGesture)
  useAddress()
  useEffect(() => {
    document.documentElement.dataset.theme = theme
  }, [theme])
  if (needsGesture) return <Resume />
  return (
    <div class="app">
      <Header />
      <Banners />
      <BrokenBanner />
      <ScreenOf key={screen} screen={screen} />
    </div>
  )
}

function ScreenOf({ screen }: { readonly screen: Screen }) {
  const isElsewhere = useApp((state) => state.writer === 'elsewhere')
  const [error] = useErrorBoundary()
  const broken = error === undefined ? undefined : brokenBy(error)
  if (broken) return <BrokenScreen broken={broken} />
  return isElsewhere && (screen === 'figures' || screen === 'run') ? <Elsewhere /> : <ScreenByName screen={screen} />
}
