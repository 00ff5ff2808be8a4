/** A run begun, gone on with, flown by hand, ended; its debrief and its log. */

import { keyPress } from '../../kernel/interpret/keyPress.ts'
import { type Debrief, debriefOf } from '../../kernel/run/debrief/debrief.ts'
import { learned } from '../../kernel/run/debrief/look/learning.ts'
import type { ControllerParts, RunController } from '../run/controller.ts'
import { type FromSheet, fromSheet } from '../run/revision.ts'
import type { RunSession } from '../run/session.ts'
import { findUnfinished } from '../run/unfinished.ts'
import { hasEntryErrors, isEntryMissing } from '../selectors.ts'
import type { Settings } from '../settings.ts'
import { EMPTY_DRAFT } from '../store.ts'
import type { RunActions } from './actions.ts'

/** `wake`: in a gesture, before anything may sound. */
export function runActions(
  parts: ControllerParts,
  controller: RunController,
  wake: () => void,
  change: (settings: Partial<Settings>) => void,
): RunActions {
  const { store, clock, log } = parts
  let isEntering = false

  function backToStart(): void {
    store.setState({
      ...{ screen: 'start', writer: 'here', run: undefined, revisions: [], dealt: undefined },
      ...{ unfinished: undefined, blocked: undefined, draft: EMPTY_DRAFT, past: [], preview: undefined },
      ...{ sheets: [], takenFrom: undefined, openPapers: [] },
    })
  }

  /** Taken over from a sheet, which comes to the table where it is not there yet. */
  function taken(session: RunSession): FromSheet {
    return fromSheet(
      store.getState().takenFrom,
      session.state().sheets.map(({ inputs }) => inputs),
    )
  }

  /** What a whole run adds to the pilot's times, once. */
  function learnTimes({ runId, complete, looks }: Debrief): void {
    const { lookTimes, lookTimesFrom } = store.getState().settings
    if (!lookTimes || !complete || lookTimesFrom === runId) return
    change({ lookTimes: learned(lookTimes, looks.answers), lookTimesFrom: runId })
  }

  /** Of the run that is on, or was left in the middle. */
  function runId(): string | undefined {
    const { run, unfinished } = store.getState()
    return controller.session()?.state().runId ?? unfinished?.runId ?? run?.runId
  }

  return {
    async recall() {
      store.setState((await findUnfinished(log, parts.openHere.get())) ?? {})
    },
    show: (screen) => store.setState({ screen }),
    async enterRevision() {
      const { pack, draft } = store.getState()
      // A second click on the way would be a second revision.
      if (!pack || isEntering || isEntryMissing(store.getState()) || hasEntryErrors(store.getState())) return
      isEntering = true
      try {
        wake()
        const session = controller.session()
        // Figures for a run that a bug has stopped take it up again.
        if (session?.state().status === 'stopped') await session.resume()
        await (session ? session.enter(draft, taken(session)) : controller.begin(pack, draft))
        store.setState({ screen: 'run', takenFrom: undefined })
      } finally {
        isEntering = false
      }
    },
    async resumeRun(runId) {
      wake()
      await controller.goOn(runId, false)
    },
    async endRun() {
      const id = runId()
      if (id === undefined || (await controller.end(id))) backToStart()
    },
    async putAwayRun() {
      const { blocked } = store.getState()
      if (blocked) await log.putAway(blocked.runId)
      backToStart()
    },
    press(press) {
      const session = controller.session()
      void session?.happen((run) => keyPress(session.pack, run, press, clock.now()))
    },
    type(text, listenId, beganAt) {
      void controller.session()?.hear({ listenId, text, beganAt, endedAt: clock.now(), by: 'typed' })
    },
    gesture() {
      store.setState({ needsGesture: false })
      wake()
      const { unfinished } = store.getState()
      if (unfinished) void controller.goOn(unfinished.runId, false)
    },
    async takeOver() {
      const { run, unfinished } = store.getState()
      const id = run?.runId ?? unfinished?.runId
      if (id !== undefined) await controller.goOn(id, true)
    },
    async showDebrief() {
      const session = controller.session()
      if (!session) return
      const debrief = debriefOf(session.pack, session.events(), session.state().status === 'running')
      store.setState({ debrief, screen: 'debrief' })
      learnTimes(debrief)
    },
    async exportLog(runId) {
      const session = controller.session()
      const events = session?.state().runId === runId ? session.events() : await log.read(runId)
      return events.map((event) => `${JSON.stringify(event)}\n`).join('')
    },
  }
}
