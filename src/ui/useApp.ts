/** The store and the actions for every part of the screen: one context, and a hook that selects. */

import { createContext } from 'preact'
import { useSyncExternalStore } from 'preact/compat'
import { useContext } from 'preact/hooks'
import type { Actions } from '../app/actions/actions.ts'
import type { AppState, Store } from '../app/store.ts'

export interface AppParts {
  readonly store: Store
  readonly actions: Actions
}

export const AppContext = createContext<AppParts | undefined>(undefined)

function useParts(): AppParts {
  const parts = useContext(AppContext)
  if (!parts) throw new Error('a part of the screen stands outside App')
  return parts
}

/** Selects from the store. A selector must return what the store holds: a new object each time would render forever. */
export function useApp<T>(select: (state: AppState) => T): T {
  const { store } = useParts()
  return useSyncExternalStore(store.subscribe, () => select(store.getState()))
}

export function useActions(): Actions {
  return useParts().actions
}
