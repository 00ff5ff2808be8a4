/** A run begun, gone on with, flown by hand, ended; and its log. */

import { keyPress } from '../../kernel/interpret/keyPress.ts'
import { countsOf } from '../../kernel/run/debrief/debriefPartner.ts'
import { ownChances } from '../../kernel/run/partner/partner.ts'
import type { ControllerParts, RunController } from '../run/controller.ts'
import { type FromSheet, fromSheet } from '../run/revision.ts'
import type { RunSession } from '../run/session.ts'
import { findUnfinished, offerUnfinished } from '../run/unfinished.ts'
import { hasEntryErrors, isEntryMissing } from '../selectors.ts'
import type { Settings } from '../settings.ts'
import { EMPTY_DRAFT } from '../store.ts'
import type { RunActions } from './actions.ts'

/** Runs that the dose of faults is made from: as many as the pilot's ear may have changed over. */
const MOST_KEPT = 60

/** `wake`: in a gesture, before anything may sound. `change`: of the settings, kept. */
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
      ...{ screen: 'start', writer: 'here', run: undefined, revisions: [], dealt: undefined, beginAt: undefined },
      ...{ unfinished: undefined, blocked: undefined, draft: EMPTY_DRAFT, past: [], preview: undefined },
      ...{ sheets: [], takenFrom: undefined, openPapers: [], hasPad: false, debrief: undefined, debriefed: undefined },
    })
  }

  /** Taken over from a sheet, which comes to the table where it is not there yet. */
  function taken(session: RunSession): FromSheet {
    return fromSheet(
      store.getState().takenFrom,
      session.state().sheets.map(({ inputs }) => inputs),
    )
  }

  /** What was caught in a run that is over goes into the dose of the next one. */
  function remember(session: RunSession | undefined): void {
    const state = session?.state()
    const rate = state?.settings.partner?.rate
    if (!state || rate === undefined) return
    const { partnerRuns } = store.getState().settings
    const run = { rate, ...countsOf(ownChances(state)) }
    change({ partnerRuns: [...partnerRuns, run].slice(-MOST_KEPT) })
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
      const session = controller.session()
      if (id !== undefined && !(await controller.end(id))) return false
      remember(session)
      backToStart()
      await offerUnfinished(log, store, id)
      return true
    },
    async putAwayRun() {
      const { blocked } = store.getState()
      if (blocked) await log.putAway(blocked.runId)
      backToStart()
      await offerUnfinished(log, store, blocked?.runId)
    },
    demonstrate(isOn, choices) {
      if (choices) change(choices)
      const { roomStops: stops, asksRoom } = store.getState().settings
      const session = controller.session()
      void session?.happen({ type: 'demonstrated', isOn, stops, asksRoom })
      // Nothing stands still that nobody sees standing still.
      if (!isOn)
        void session?.happen((run) => (run.frozen ? keyPress(session.pack, run, { type: 'freeze' }, 0) : undefined))
    },
    press(press) {
      const session = controller.session()
      void session?.happen((run) => keyPress(session.pack, run, press, clock.now()))
    },
    typing: () => controller.session()?.typing(),
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
    hideBroken: () => store.setState({ broken: undefined }),
    async exportLog(runId) {
      const session = controller.session()
      const events = session?.state().runId === runId ? session.events() : await log.read(runId)
      return events.map((event) => `${JSON.stringify(event)}\n`).join('')
    },
  }
}
