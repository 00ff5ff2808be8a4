/** The debrief, and what can be done from it: played back, and done again from a place. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { debriefOf } from '../../kernel/run/debrief/debrief.ts'
import { cuesOf } from '../../kernel/run/debrief/replay.ts'
import { createPlayer, type Player } from '../replay/player.ts'
import type { ControllerParts, RunController } from '../run/controller.ts'
import { offerUnfinished } from '../run/unfinished.ts'
import type { KeptSounds } from '../runs/keptSounds.ts'
import type { RunsState } from '../runs/runsState.ts'
import { hasRunOn } from '../selectors.ts'
import type { Settings } from '../settings.ts'
import { createHearing, type HearingParts } from '../sound/hearing.ts'
import type { DebriefActions } from './actions.ts'
import { timesWith } from './lookTimes.ts'

interface Means {
  /** In a gesture, before anything may sound. */
  readonly wake: () => void
  readonly change: (settings: Partial<Settings>) => void
  readonly keptSounds: Pick<KeptSounds, 'lookUp'>
}

/** Makes a debrief and shows it; `opened` where it is of a run from the list. */
export type ShowDebrief = (
  pack: Pack,
  events: readonly RunEvent[],
  isUnderWay: boolean,
  opened?: RunsState['opened'],
) => void

export function debriefActions(
  parts: ControllerParts & Pick<HearingParts, 'soundShelf' | 'soundPlayer'>,
  controller: RunController,
  { wake, change, keptSounds }: Means,
): DebriefActions & { readonly showDebriefOf: ShowDebrief } {
  const { store, voice, clock, log } = parts
  const hearing = createHearing(parts)
  let player: Player | undefined
  let isBeginning = false

  const show: ShowDebrief = (pack, events, isUnderWay, opened) => {
    stopReplay()
    const debrief = debriefOf(pack, events, isUnderWay)
    store.setState(({ runs }) => ({
      ...{ debrief, debriefed: { pack, events }, screen: 'debrief' },
      runs: { ...runs, opened },
    }))
    void keptSounds.lookUp(debrief.runId, events)
  }

  function stopReplay(): void {
    hearing.stop()
    player?.pause()
    player = undefined
    store.setState({ replay: undefined })
  }

  /** A run that has come to its end is ended; one in the middle is left as it is, and can be gone on with. */
  async function leaveRun(): Promise<void> {
    const session = controller.session()
    const { floor, runId, again } = session?.state() ?? {}
    if (runId !== undefined && (floor?.at === 'end' || again?.isOver)) await controller.end(runId)
  }

  return {
    showDebriefOf: show,
    async showDebrief() {
      const session = controller.session()
      if (session) {
        show(session.pack, session.events(), session.state().status === 'running')
        const { debrief, settings } = store.getState()
        const times = debrief && timesWith(settings, debrief)
        if (times) change(times)
      }
      // Of a run that is over, the one that was shown last.
      else if (store.getState().debriefed) store.setState({ screen: 'debrief' })
    },
    async endAgain() {
      const session = controller.session()
      if (!session) return
      if (!(await controller.end(session.state().runId))) return
      show(session.pack, session.events(), false)
      await offerUnfinished(log, store, session.state().runId)
    },
    async again(from, anew) {
      const { debriefed, screen } = store.getState()
      // A second press of the button is none.
      if (!debriefed || isBeginning || screen !== 'debrief') return
      isBeginning = true
      try {
        wake()
        stopReplay()
        await leaveRun()
        await controller.again(debriefed.pack, debriefed.events, from, anew)
      } finally {
        isBeginning = false
      }
    },
    async replay() {
      const { debriefed } = store.getState()
      if (!debriefed) return
      wake()
      await leaveRun()
      // Nothing may listen while it plays.
      if (hasRunOn(store.getState())) return
      hearing.stop()
      player?.pause()
      player = createPlayer({
        ...{ voice, clock },
        cues: cuesOf(debriefed.pack, debriefed.events),
        changed: (replay) => store.setState({ replay }),
      })
      player.play()
    },
    replayPlays: (isOn) => (isOn ? player?.play() : player?.pause()),
    replayTo: (index) => player?.to(index),
    replaySpeed: (speed) => player?.speed(speed),
    endReplay: stopReplay,
    async hearSound(seq) {
      wake()
      player?.pause()
      await leaveRun()
      // As with a replay.
      if (!hasRunOn(store.getState())) await hearing.hear(seq)
    },
    stopSound: hearing.stop,
  }
}
