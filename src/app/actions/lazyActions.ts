/**
 * The actions before their code has loaded: the first screen is there at once, and whatever it asks for meanwhile is
 * done, in order, as soon as the code is there.
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
  showDebrief: true,
  exportLog: true,
  switched: true,
  attachKeys: true,
  learn: true,
  retryEar: true,
  soundCheck: true,
  skipPrompt: true,
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
