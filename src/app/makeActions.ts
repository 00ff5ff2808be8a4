/** What the screens ask for, done. */

import { compute } from '../kernel/figures/compute.ts'
import type { Inputs } from '../kernel/figures/model.ts'
import type { Happening } from '../kernel/run/core/events.ts'
import type { RunState } from '../kernel/run/core/state.ts'
import { debriefOf } from '../kernel/run/debrief/debrief.ts'
import type { SoundDevices, Switches } from '../ports.ts'
import type { Actions } from './actions.ts'
import { pastAfter } from './figures/undo.ts'
import { createDeparture, type DepartureParts, dealtBy } from './run/departure.ts'
import { pressed } from './run/pressed.ts'
import { recalled } from './run/recall.ts'
import { withoutTaken } from './run/revision.ts'
import { createTalk } from './run/talk.ts'
import { type Settings, withSwitch } from './settings.ts'
import { createSoundCheck } from './sound/soundCheck.ts'
import { EMPTY_DRAFT } from './store.ts'
import type { Press } from './view/press.ts'

export interface ActionParts extends DepartureParts {
  readonly saveSettings: (settings: Settings) => void
  /** Lets the page play sound after a gesture. */
  readonly wakeSound: () => Promise<void>
  /** The next key or button that is pressed. */
  readonly switches: Pick<Switches, 'learn' | 'attach'>
  /** Whether the keys of a headset are wanted; in a gesture. */
  readonly useMediaKeys: (isWanted: boolean) => void
  readonly soundDevices: () => Promise<SoundDevices>
}

/** Which ear, and what it opens with: it is opened anew where one of them changes. */
const OF_THE_EAR = ['ear', 'microphone', 'secondModel'] as const

export function makeActions(parts: ActionParts): Actions {
  const { store, clock, log } = parts
  const departure = createDeparture(parts)
  let isEntering = false

  function preview(draft: Inputs, past = pastAfter(store.getState().past, store.getState().draft, draft)): void {
    const { pack } = store.getState()
    store.setState({ draft, past, preview: pack && compute(pack.figures, draft) })
  }

  function happen(happening: (run: RunState) => Happening | undefined): void {
    void departure.dispatch()?.happen(happening)
  }

  const press = (press: Press) => happen((run) => pressed(store.getState().pack, run, press, clock.now()))
  const talk = createTalk({
    store,
    ear: parts.ear,
    press,
    cut: departure.cut,
    refuse: () => void parts.voice.tone('soft'),
  })

  function change(settings: Partial<Settings>): void {
    const next = { ...store.getState().settings, ...settings }
    store.setState({ settings: next })
    parts.saveSettings(next)
    if (settings.mediaKeys !== undefined) parts.useMediaKeys(settings.mediaKeys)
    talk.settle()
    if (OF_THE_EAR.some((name) => settings[name] !== undefined)) void changeEar()
  }
  talk.settle()

  const check = createSoundCheck(parts)

  /** In a gesture: browsers let nothing sound before one. */
  function wake(): void {
    void parts.wakeSound()
    parts.useMediaKeys(store.getState().settings.mediaKeys)
  }

  async function changeEar(): Promise<void> {
    store.setState(({ ear }) => ({ ear: { ...ear, failure: undefined, note: '' } }))
    if (!departure.dispatch()) return store.getState().soundCheck && check.begin()
    await parts.ear.close()
    if (store.getState().settings.ear === 'typing') return
    await departure.openEar()
    if (store.getState().ear.state !== 'failed') happen(() => ({ type: 'earBack' }))
  }

  return {
    async recall() {
      store.setState((await recalled(log, parts.openHere.get())) ?? {})
    },
    show: (screen) => store.setState({ screen }),
    choosePack: departure.openPack,
    deal(seed) {
      const { pack } = store.getState()
      const dealt = pack && dealtBy(pack, seed)
      if (!dealt) return
      preview(dealt.preliminary, [])
      store.setState({ dealt: seed, screen: 'figures' })
    },
    draft: (inputs) => preview(inputs),
    undo() {
      const { past } = store.getState()
      const last = past.at(-1)
      if (last) preview(last.draft, past.slice(0, -1))
    },
    async readInputs(text, fileName) {
      const { pack, run } = store.getState()
      if (!pack) return
      const { readInputs } = await import('../packs/inputs.ts')
      const { inputs, problems } = readInputs(text, fileName, pack)
      store.setState({ problems })
      if (inputs) preview(withoutTaken(inputs, run))
    },
    async enterRevision() {
      const { pack, draft } = store.getState()
      // A second click on the way would be a second revision.
      if (!pack || isEntering) return
      isEntering = true
      try {
        wake()
        if (!departure.dispatch()) await departure.begin(pack, draft)
        await departure.revise(pack, draft)
      } finally {
        isEntering = false
      }
    },
    async resumeRun(runId) {
      wake()
      await departure.goOn(runId, false)
    },
    async abandonRun() {
      const { run, unfinished } = store.getState()
      const runId = departure.dispatch() ? run?.runId : unfinished?.runId
      if (runId) await departure.end(runId)
      const fresh = {
        dealt: undefined,
        run: undefined,
        revisions: [],
        unfinished: undefined,
        draft: EMPTY_DRAFT,
        past: [],
        preview: undefined,
      }
      store.setState({ ...fresh, screen: 'start', writer: 'here' })
    },
    press,
    switched: talk.switched,
    attachKeys: parts.switches.attach,
    async soundCheck() {
      wake()
      // One ear, one voice: a run has them while it is on.
      if (departure.dispatch()) return
      await check.begin()
      store.setState({ devices: await parts.soundDevices() })
    },
    leaveLineOut: check.leaveOut,
    async endSoundCheck(keep) {
      const found = store.getState().soundCheck?.findings
      await check.end()
      if (keep && found && found.read > 0) {
        const { listening, ...own } = found.settings
        // A quiet room is no reason to take the talk key away from who wants it.
        change(listening === 'push' ? found.settings : own)
      }
      store.setState({ screen: 'start' })
    },
    async lookUpDevices() {
      store.setState({ devices: await parts.soundDevices() })
    },
    async learn(name) {
      store.setState({ learning: name })
      const binding = await parts.switches.learn()
      if (store.getState().learning !== name) return
      store.setState({ learning: undefined })
      if (binding) change({ switches: withSwitch(store.getState().settings.switches, name, binding) })
    },
    type(text, order, beganAt) {
      void departure.dispatch()?.hear({ order, text, beganAt, endedAt: clock.now(), by: 'typed' })
    },
    gesture() {
      store.setState({ needsGesture: false })
      wake()
      const { unfinished } = store.getState()
      if (unfinished) void departure.goOn(unfinished.runId, false)
    },
    async retryEar() {
      store.setState(({ ear }) => ({ ear: { ...ear, failure: undefined } }))
      await departure.openEar()
    },
    async takeOver() {
      const { run, unfinished } = store.getState()
      const runId = run?.runId ?? unfinished?.runId
      if (runId) await departure.goOn(runId, true)
    },
    settings: change,
    async account() {
      const { pack } = store.getState()
      const dispatch = departure.dispatch()
      if (pack && dispatch) store.setState({ debrief: debriefOf(pack, dispatch.events()), screen: 'account' })
    },
    async exportLog(runId) {
      const dispatch = departure.dispatch()
      const events = dispatch?.state().runId === runId ? dispatch.events() : await log.read(runId)
      return events.map((event) => `${JSON.stringify(event)}\n`).join('')
    },
  }
}
