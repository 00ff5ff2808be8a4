/**
 * The actions before their code has loaded: the first screen is there at once, and whatever it asks for meanwhile is
 * done, in order, as soon as the code is there.
 */

import type { Actions } from './actions.ts'

export function lazyActions(loading: Promise<Actions>): Actions {
  let loaded: Actions | undefined
  const ready = loading.then((actions) => {
    loaded = actions
    return actions
  })
  const later = (name: keyof Actions) => {
    return (...args: readonly unknown[]) => {
      const run = (actions: Actions) => (actions[name] as (...args: readonly unknown[]) => unknown)(...args)
      return loaded ? run(loaded) : ready.then(run)
    }
  }
  return new Proxy({} as Actions, { get: (_, name) => later(name as keyof Actions) })
}
