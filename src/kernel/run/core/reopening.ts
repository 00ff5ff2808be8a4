/** What rested on a figure that has changed is open again (law 5): items, steps, orders, what was agreed or briefed. */

import type { Inputs } from '../../figures/model.ts'
import type { Pack } from '../../pack/checklist.ts'
import { findItem, itemsOf, listsOf, responseOf } from '../../pack/place.ts'
import { restsOf } from '../../pack/rests.ts'
import { stepsToRepeat } from '../list/flowSteps.ts'
import { reopenAgreed } from '../talk/agreed.ts'
import { reopenOrders } from '../talk/talk.ts'
import { say } from './phrases.ts'
import { itemState, listState, openChallenges, withItem, withList } from './progress.ts'
import type { RunState } from './state.ts'

/**
 * Items closed on a spoken value, or in a wording, that has changed since, or on one of the values that are `gone`
 * though nobody has given another yet. A passed item rests on none of them.
 */
export function overtaken(
  pack: Pack,
  state: RunState,
  gone: readonly string[] = [],
): { id: string; challenge: string }[] {
  return listsOf(pack)
    .flatMap((list) => itemsOf(list, state))
    .filter((item) => {
      const { status, expected, response } = itemState(state, item.id)
      const isOther = (name: string) => expected[name] !== state.values[name] || gone.includes(name)
      const moved = restsOf(item, state).some(isOther)
      return status === 'done' && (moved || response !== responseOf(item, state).text)
    })
}

/**
 * Opens them again, and takes back the completion of every list that is no longer closed throughout. A list that was
 * gone on from is due again: something is open in it besides what was left.
 */
export function reopen(
  pack: Pack,
  before: RunState,
  gone: readonly string[] = [],
): { state: RunState; challenges: string[]; lists: string[] } {
  const items = overtaken(pack, before, gone)
  let state = before
  for (const { id } of items) {
    state = withItem(state, id, { status: 'reopened', partsSoFar: [], misses: 0, sayAgains: 0 })
    state = withList(state, findItem(pack, id).list.id, { suspended: false })
  }
  const lists: string[] = []
  for (const list of listsOf(pack)) {
    if (!listState(state, list.id).complete || openChallenges(pack, state, list.id).length === 0) continue
    state = withList(state, list.id, { complete: false, revoked: true })
    lists.push(list.name)
  }
  return { state, challenges: items.map((item) => item.challenge), lists }
}

/** Opens all that rested on figures whose spoken values have moved since `inputs` held, and says what. */
export function reopenMoved(
  pack: Pack,
  before: RunState,
  moved: readonly string[],
  inputs: Inputs | undefined,
): { readonly state: RunState; readonly words: readonly string[] } {
  // A value that is gone sets nothing: the step comes with the new one.
  const set = moved.filter((name) => before.values[name] !== undefined)
  const again = stepsToRepeat(pack, before, set).map(({ id }) => id)
  const repeated: RunState = {
    ...before,
    stepsDone: before.stepsDone.filter((id) => !again.includes(id)),
    stepsAgain: [...new Set([...before.stepsAgain, ...again])],
  }
  const agreed = reopenAgreed(pack, inputs, repeated, moved)
  const { state, challenges, lists } = reopen(pack, reopenOrders(pack, agreed.state, set), agreed.gone)
  const words = [
    say.changed(agreed.figures.map((name) => pack.figures.declarations[name]?.label ?? name)),
    agreed.names.length > 0 ? say.openAgain(agreed.names) : '',
    challenges.length > 0 ? say.openAgain(challenges) : '',
    ...lists.map((list) => say.revoked(list)),
  ]
  return { state, words: words.filter((text) => text !== '') }
}
