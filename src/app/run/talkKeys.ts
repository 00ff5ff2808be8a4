/**
 * Keys, pedals and buttons of the pilot's own. The talk key opens the ear where it waits for it, cuts the
 * voice off and ends a stand by; the radio key shuts the ear while held; the confirm key does what the first
 * button on the screen does, and is logged as a key; the freeze key stops a run that is demonstrated, and goes on.
 */

import type { Press } from '../../kernel/interpret/keyPress.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import type { Ear, SwitchEvent } from '../../ports.ts'
import type { EarGated, Store } from '../store.ts'
import { buttonsOf } from '../view/buttons.ts'

export interface TalkKeyParts {
  readonly store: Store
  readonly ear: Ear
  readonly press: (press: Press) => void
  readonly freezeStage: () => void
  /** Cuts the voice off in the middle. */
  readonly interrupt: () => void
  /** There is nothing to confirm. */
  readonly refuse: () => void
}

export interface TalkKeys {
  switched(event: SwitchEvent): void
  /** Settings or the run have changed: the ear is opened or shut as they want it now. */
  settle(): void
}

const CONFIRMED: ReadonlySet<Press['type']> = new Set([
  ...(['confirmItem', 'cleared', 'flowDone', 'call', 'confirmTurn', 'briefingDone'] as const),
])
const CONTINUE: Press = { type: 'command', command: 'continue' }

/** What the confirm key presses: never a value, and never an answer to a question. */
function confirmPress(pack: Pack, run: RunState): Press | undefined {
  if (run.standingBy) return CONTINUE
  if (run.question) return undefined
  return buttonsOf(pack, run).find(({ press }) => CONFIRMED.has(press.type))?.press
}

/** A controller played by the simulator is not for the ear; one played by Otherseat must be heard. */
function radioOpens(run: RunState | undefined): boolean {
  return run?.floor.at === 'exchange'
}

export function createTalkKeys({ store, ear, press, freezeStage, interrupt, refuse }: TalkKeyParts): TalkKeys {
  const held = { talk: false, radio: false, once: false }

  function wanted(): EarGated {
    const { settings, run } = store.getState()
    const opens = radioOpens(run)
    if (held.radio && !opens) return 'radio'
    const isTalking = held.talk || held.once || (held.radio && opens)
    return settings.listening === 'push' && !isTalking ? 'talk' : 'open'
  }

  function settle(): void {
    const gate = wanted()
    if (gate === store.getState().ear.gate) return
    ear.gate(gate === 'open' ? 'open' : gate === 'radio' ? 'shut' : 'ended')
    store.setState((before) => ({ ear: { ...before.ear, gate } }))
  }

  function speakUp(): void {
    if (store.getState().run?.standingBy) press(CONTINUE)
    else interrupt()
  }

  function talk({ isDown, isOnce }: SwitchEvent): void {
    if (isOnce) {
      if (!isDown) return
      held.once = !held.once && store.getState().settings.listening === 'push'
      if (held.once || store.getState().settings.listening === 'open') speakUp()
    } else {
      held.talk = isDown
      if (isDown) speakUp()
    }
  }

  // What the radio key does depends on where the run is.
  store.subscribe((now, before) => now.run !== before.run && settle())
  ear.subscribe((event) => {
    if (!held.once || event.type !== 'heard' || event.heard.by !== 'voice') return
    held.once = false
    settle()
  })

  return {
    settle,
    switched(event) {
      if (event.name === 'talk') talk(event)
      else if (event.name === 'radio') held.radio = event.isDown
      else if (event.name === 'freeze') {
        const { run, screen } = store.getState()
        if (!event.isDown) return
        // Elsewhere nobody would see what it does.
        if (screen === 'stage') freezeStage()
        else if (screen === 'run' && run?.demonstration) press({ type: 'freeze' })
      } else if (event.isDown) {
        const { pack, run } = store.getState()
        const wants = pack && run && confirmPress(pack, run)
        if (wants) press(wants)
        else refuse()
      }
      settle()
    },
  }
}
