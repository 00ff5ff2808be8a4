/** The draft's own past: one step for each field, however many keys it took. It lasts until the draft is entered or left. */

import type { Inputs } from '../../kernel/figures/model.ts'

/** The draft before a change. */
export interface PastDraft {
  readonly draft: Inputs
  /** Paths of what changed then. */
  readonly changed: string
}

/** More than anyone goes back by hand. */
const MOST = 50

/** Keys in one field are one step; a load sheet changes many fields and is a step of its own. */
export function pastAfter(past: readonly PastDraft[], before: Inputs, after: Inputs): readonly PastDraft[] {
  const paths = changedPaths(before, after)
  const changed = paths.join()
  if (paths.length === 0 || (paths.length === 1 && past.at(-1)?.changed === changed)) return past
  return [...past, { draft: before, changed }].slice(-MOST)
}

/**
 * The draft once a revision has come in. One that was laid over the figures in force is laid over the draft as well.
 * Any other takes its place: the draft itself was entered and its past is done with, or figures came in on their own
 * and what was being typed can be fetched back.
 */
export function draftAfter(
  { draft: typed, past }: { readonly draft: Inputs; readonly past: readonly PastDraft[] },
  inputs: Inputs,
  { wanted, lay }: { readonly wanted: Inputs; readonly lay?: (draft: Inputs) => Inputs },
): { readonly draft: Inputs; readonly past: readonly PastDraft[] } {
  if (lay) return { draft: lay(typed), past: laidUnder(past, lay) }
  return { draft: inputs, past: wanted === typed ? [] : pastAfter(past, typed, inputs) }
}

/** What came by voice stays, however far somebody goes back with what was typed. */
export function laidUnder(past: readonly PastDraft[], lay: (draft: Inputs) => Inputs): readonly PastDraft[] {
  return past.map(({ draft, changed }) => ({ draft: lay(draft), changed }))
}

/** "values.blockFuel", for everything in which two drafts differ. */
export function changedPaths(before: object, after: object, path = ''): string[] {
  const names = new Set([...Object.keys(before), ...Object.keys(after)])
  return [...names].flatMap((name) => {
    const [old, now] = [(before as Record<string, unknown>)[name], (after as Record<string, unknown>)[name]]
    if (old === now) return []
    const isDeep = typeof (old ?? now) === 'object' && typeof (now ?? old) === 'object'
    return isDeep ? changedPaths(old ?? {}, now ?? {}, `${path}${name}.`) : [`${path}${name}`]
  })
}
