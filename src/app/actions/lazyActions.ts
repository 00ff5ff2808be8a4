/**
 * The actions before the code behind them has come: the first screen is there at once, and what is asked of it
 * meanwhile is done in its order as soon as that is loaded.
 */

import type { Actions } from './actions.ts'

const NAMES: Readonly<Record<keyof Actions, true>> = {
  recall: true,
  show: true,
  choosePack: true,
  deal: true,
  draft: true,
  undo: true,
  readInputs: true,
  enterRevision: true,
  resumeRun: true,
  endRun: true,
  putAwayRun: true,
  press: true,
  type: true,
  gesture: true,
  takeOver: true,
  account: true,
  exportLog: true,
  switched: true,
  attachKeys: true,
  learn: true,
  retryEar: true,
  soundCheck: true,
  leaveLineOut: true,
  endSoundCheck: true,
  lookUpDevices: true,
  settings: true,
}

export function lazyActions(loading: Promise<Actions>): Actions {
  let loaded: Actions | undefined
  const ready = loading.then((actions) => {
    loaded = actions
    return actions
  })
  const lazy = (name: keyof Actions) => {
    return (...args: readonly unknown[]) => {
      const run = (actions: Actions) => (actions[name] as (...args: readonly unknown[]) => unknown)(...args)
      return loaded ? run(loaded) : ready.then(run)
    }
  }
  return Object.fromEntries(Object.keys(NAMES).map((name) => [name, lazy(name as keyof Actions)])) as unknown as Actions
}
