/** Runs prepared to be shown to a room: those that came with a pack, and the run debriefed with the places marked in it. */

import type { RunEvent } from '../../kernel/run/core/events.ts'
import type { PackFiles, TextCache } from '../../ports.ts'
import type { ControllerParts } from '../run/controller.ts'
import { hasRunOn } from '../selectors.ts'
import type { Settings } from '../settings.ts'
import { readStops, stopsText } from '../stage/keptStops.ts'
import type { Prepared, Stop } from '../stage/prepared.ts'
import type { Stage } from '../stage/stage.ts'
import type { StageChoices } from '../stage/stageState.ts'
import type { Screen } from '../store.ts'
import type { StageActions } from './actions.ts'

export interface StageActionParts extends ControllerParts {
  readonly packFiles: PackFiles
  /** Where runs stop: run -> text. */
  readonly stops: TextCache
}

interface Means {
  /** In a gesture, before anything may sound. */
  readonly wake: () => void
  readonly change: (settings: Partial<Settings>) => void
}

export function stageActions(parts: StageActionParts, { wake, change }: Means): StageActions {
  const { store, voice, clock, packFiles, stops } = parts
  let stage: Stage | undefined

  async function open(prepared: Prepared): Promise<void> {
    // Nothing may listen while it plays.
    if (hasRunOn(store.getState())) return
    const { createStage } = await import('../stage/stage.ts')
    const { settings, screen: from } = store.getState()
    const choices: StageChoices = {
      stops: prepared.stops.length > 0 ? 'never' : settings.roomStops,
      asksRoom: settings.asksRoom,
    }
    stage?.close()
    stage = createStage({
      ...{ prepared, voice, clock, settings, choices },
      changed: (state) => store.setState(({ stage: last }) => ({ stage: last && { ...last, state } })),
    })
    const { title } = prepared
    store.setState({ stage: { title, from, store: stage.store, state: stage.state() }, screen: 'stage' })
    stage.freeze()
  }

  function close(to: Screen): void {
    stage?.close()
    stage = undefined
    store.setState({ stage: undefined, screen: to })
  }

  return {
    async readDemonstrations() {
      const { pack } = store.getState()
      if (!pack) return store.setState({ demonstrations: [] })
      const texts = await packFiles.demonstrations(pack.id, pack.sha256)
      const { readDemonstration } = await import('../../packs/demonstration.ts')
      const demonstrations = Object.entries(texts).map(([name, text]) => {
        const { demonstration } = readDemonstration(text, `${name}.yaml`)
        return { name, title: demonstration?.title ?? name }
      })
      store.setState({ demonstrations })
    },
    async showDemonstration(name) {
      const { pack } = store.getState()
      if (!pack) return
      wake()
      const [texts, sheets] = await Promise.all([
        packFiles.demonstrations(pack.id, pack.sha256),
        packFiles.examples(pack.id, pack.sha256),
      ])
      const { scripted } = await import('../stage/scripted.ts')
      const prepared = await scripted(pack, name, texts[name] ?? '', sheets)
      if ('problems' in prepared) return store.setState({ problems: prepared.problems })
      await open(prepared)
    },
    async showDebriefed() {
      const { debriefed } = store.getState()
      if (!debriefed) return
      wake()
      const { pack, events } = debriefed
      await open({ title: pack.name, pack, events, stops: await readStops(stops, runOf(events)) })
    },
    async readStops() {
      const { debriefed } = store.getState()
      store.setState({ stops: debriefed ? await readStops(stops, runOf(debriefed.events)) : [] })
    },
    async markStop(seq, words) {
      const { debriefed, stops: before } = store.getState()
      if (!debriefed) return
      const others = before.filter((stop) => stop.seq !== seq)
      const now: readonly Stop[] = words === undefined ? others : [...others, { seq, words }]
      store.setState({ stops: now })
      await stops.put(new Map([[runOf(debriefed.events), stopsText(now)]]))
    },
    freezeStage: () => stage?.freeze(),
    stageBack: () => stage?.back(),
    stageOn: () => stage?.on(),
    chooseStage(choices) {
      change({ asksRoom: choices.asksRoom })
      stage?.choose(choices)
    },
    closeStage: () => close(store.getState().stage?.from ?? 'start'),
  }
}

const runOf = ([first]: readonly RunEvent[]): string => first?.runId ?? ''
