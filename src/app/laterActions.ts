/**
 * The actions before the code behind them has come: the first screen is there at once, and what is asked
 * of it meanwhile is done in its order as soon as that is loaded.
 */

import type { Actions } from './actions.ts'

const NAMES = [
  ...(['recall', 'show', 'choosePack', 'deal', 'draft', 'undo', 'readInputs', 'enterRevision', 'resumeRun'] as const),
  ...(['abandonRun', 'press', 'type', 'gesture', 'retryEar', 'takeOver', 'settings', 'account'] as const),
  ...([
    'exportLog',
    'switched',
    'learn',
    'attachKeys',
    'soundCheck',
    'leaveLineOut',
    'endSoundCheck',
    'lookUpDevices',
  ] as const),
] satisfies readonly (keyof Actions)[]
/** Fails to compile where an action has no name above. */
type Named = Record<keyof Actions, (typeof NAMES)[number]>
const names: readonly Named[keyof Actions][] = NAMES

export function laterActions(coming: Promise<Actions>): Actions {
  let here: Actions | undefined
  const ready = coming.then((actions) => {
    here = actions
    return actions
  })
  const later = (name: keyof Actions) => {
    return (...args: readonly unknown[]) => {
      const run = (actions: Actions) => (actions[name] as (...args: readonly unknown[]) => unknown)(...args)
      return here ? run(here) : ready.then(run)
    }
  }
  return Object.fromEntries(names.map((name) => [name, later(name)])) as unknown as Actions
}
