/** The ear, opened again; the sound check; the devices to choose from. */

import type { SoundDevices } from '../../ports.ts'
import type { RunController } from '../run/controller.ts'
import type { Settings } from '../settings.ts'
import { createSoundCheck, type SoundCheckParts } from '../sound/soundCheck.ts'
import type { SoundActions } from './actions.ts'

export interface SoundActionParts extends SoundCheckParts {
  readonly soundDevices: () => Promise<SoundDevices>
}

export function soundActions(
  parts: SoundActionParts,
  controller: RunController,
  wake: () => void,
  change: (settings: Partial<Settings>) => void,
): SoundActions & { readonly changeEar: () => Promise<void> } {
  const { store, ear, soundDevices } = parts
  const check = createSoundCheck(parts)

  async function lookUpDevices(): Promise<void> {
    store.setState({ devices: await soundDevices() })
  }

  return {
    lookUpDevices,
    /** Another ear, or another microphone, was chosen. */
    async changeEar() {
      store.setState(({ ear }) => ({ ear: { ...ear, failure: undefined, note: '' } }))
      const session = controller.session()
      if (!session) return store.getState().soundCheck && check.begin()
      await ear.close()
      if (store.getState().settings.ear === 'typing') return
      await controller.openEar()
      if (store.getState().ear.state !== 'failed') await session.happen({ type: 'earBack' })
    },
    async retryEar() {
      store.setState(({ ear }) => ({ ear: { ...ear, failure: undefined } }))
      await controller.openEar()
    },
    putAwayNotice(putAway) {
      store.setState(({ ear }) => ({ ear: { ...ear, putAway } }))
    },
    async soundCheck() {
      wake()
      // One ear, one voice: a run has them while it is on.
      if (controller.session()) return
      await check.begin()
      await lookUpDevices()
    },
    skipPrompt: check.skip,
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
  }
}
