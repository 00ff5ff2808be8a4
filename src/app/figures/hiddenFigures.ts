/**
 * Which figures the screen hides while a run is on (law 4): those that an item has to read back, an order or a briefing
 * has to say, and every working that leads to one of them or follows from it.
 */

import { dependencyClosure } from '../../kernel/figures/dependencyClosure.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { agenda, itemsOf, listsOf } from '../../kernel/pack/place.ts'
import { restsOf } from '../../kernel/pack/rests.ts'
import { itemState } from '../../kernel/run/core/progress.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { openTopics } from '../../kernel/run/talk/briefing.ts'
import { openTurns } from '../../kernel/run/talk/talk.ts'

/** `own`: an item reads it back, its value can be asked for. `near`: it only helps to work such a value out. */
export type Hidden = 'own' | 'near'

/** Figures that some item of the pack rests on, whether its value was given or not. */
export function figuresRead(pack: Pack, situation: RunState['situation']): ReadonlySet<string> {
  const ground = { situation, values: {} }
  const items = listsOf(pack).flatMap((list) => itemsOf(list, ground))
  return new Set(items.flatMap((item) => restsOf(item, ground)))
}

/**
 * Empty while no run is on; but of a drawn departure what is computed is hidden before it is accepted as well, in the
 * situation that it was `drawn` in: it is the pilot's to work out from the papers.
 */
export function hiddenFigures(
  pack: Pack,
  run: RunState | undefined,
  drawn?: RunState['situation'],
): ReadonlyMap<string, Hidden> {
  const hidden = new Map<string, Hidden>()
  if (!run && drawn) {
    const isDerived = (name: string) => pack.figures.declarations[name]?.derived !== undefined
    for (const name of figuresRead(pack, drawn)) if (isDerived(name)) hidden.set(name, 'own')
    return withWorkings(pack, hidden, [])
  }
  if (run?.status !== 'running') return hidden
  for (const item of listsOf(pack).flatMap((list) => itemsOf(list, run))) {
    if (itemState(run, item.id).revealed) continue
    for (const name of restsOf(item, run)) hidden.set(name, 'own')
  }
  for (const name of figuresTalked(pack, run)) if (!run.revealedFigures.includes(name)) hidden.set(name, 'own')
  return withWorkings(pack, hidden, run.revealedFigures)
}

/** Before the first revision: what the pilot is asked for first, with what would give it away and nothing else. */
export function hiddenUntilAsked(pack: Pack, situation: RunState['situation']): ReadonlyMap<string, Hidden> {
  const all = Object.values(pack.figures.declarations).filter(({ derived }) => derived)
  const read = figuresRead(pack, situation)
  const hidden = new Map<string, Hidden>(all.filter(({ ownFirst }) => ownFirst).map(({ name }) => [name, 'own']))
  const usersOf = (name: string) => all.filter(({ derived }) => derived?.uses.includes(name)).map((user) => user.name)
  const leadsToHidden = (name: string) => !read.has(name) && usersOf(name).every((user) => hidden.has(user))
  // Those that are added are looked at in their turn.
  for (const name of hidden.keys()) {
    const steps = all.filter((one) => usersOf(one.name).includes(name) && leadsToHidden(one.name))
    for (const near of [...usersOf(name), ...steps.map((step) => step.name)]) {
      if (!hidden.has(near)) hidden.set(near, 'near')
    }
  }
  return hidden
}

function withWorkings(
  { figures }: Pack,
  hidden: ReadonlyMap<string, Hidden>,
  revealed: readonly string[],
): ReadonlyMap<string, Hidden> {
  const all = new Map(hidden)
  for (const name of [...hidden.keys()].flatMap((own) => [...dependencyClosure(figures, own)])) {
    // A value that was typed in and is not read back is no secret, nor is one that the pilot has asked for.
    if (figures.declarations[name]?.derived && !all.has(name) && !revealed.includes(name)) all.set(name, 'near')
  }
  return all
}

/** Figures that an order or a topic of a briefing is compared with, and that were not said right yet. */
function figuresTalked(pack: Pack, run: RunState): string[] {
  if (!run.script) return []
  const responses = agenda(pack, run).flatMap(({ activity }) => {
    if (activity.type === 'briefing') {
      return openTopics(activity, run).flatMap(({ say }) => say)
    }
    if (activity.type !== 'exchange' || activity.station.role !== 'otherseat') return []
    return openTurns(activity, run).flatMap(({ calls }) => calls ?? [])
  })
  return responses.flatMap(({ figures }) => figures)
}
