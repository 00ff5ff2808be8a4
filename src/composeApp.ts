/** What a run needs: ear, voice, lock and the actions, put together. Loads after the first screen, which needs none of it. */

import { soundDevices } from './adapters/devices.ts'
import { storeProfiles } from './adapters/ear/device/storedProfiles.ts'
import { createEar, earOffers } from './adapters/ear/ears.ts'
import { createGradeShelf } from './adapters/gradeShelf.ts'
import { createMediaKeys } from './adapters/input/mediaKeys.ts'
import { createSwitches } from './adapters/input/switches.ts'
import { createTabLock } from './adapters/log/tabLock.ts'
import { createPackShelf } from './adapters/packShelf.ts'
import { createPackStarts } from './adapters/packStarts.ts'
import { createRoomKept } from './adapters/room/roomKept.ts'
import { createSiteStorage } from './adapters/siteStorage.ts'
import { createSoundShelf } from './adapters/soundShelf.ts'
import { createTextCache } from './adapters/textCache.ts'
import { createVoice } from './adapters/voice/chooseVoice.ts'
import { createSound } from './adapters/voice/sound.ts'
import { createSoundPlayer } from './adapters/voice/soundPlayer.ts'
import { createWorkerClock } from './adapters/workerClock.ts'
import type { Actions } from './app/actions/actions.ts'
import { makeActions } from './app/actions/makeActions.ts'
import { spokenSettings, switchesNow } from './app/selectors.ts'
import type { Settings } from './app/settings.ts'
import type { Store } from './app/store.ts'
import { ownPhrases } from './packs/spoken.ts'
import type { Edition, PackFiles, RunArchive } from './ports.ts'

export interface AppParts {
  readonly store: Store
  readonly log: RunArchive
  readonly packFiles: PackFiles
  readonly openHere: { get(): string | undefined; set(runId: string | undefined): void }
  readonly saveSettings: (settings: Settings) => void
  /** The tab's own storage. */
  readonly tab: Storage | undefined
  readonly kept: Storage | undefined
  readonly edition: Edition
}

export function composeApp({ store, log, packFiles, openHere, saveSettings, tab, kept, edition }: AppParts): Actions {
  const clock = createWorkerClock()
  const spoken = () => spokenSettings(store.getState())
  const sound = createSound(clock, undefined, () => spoken().output)
  const voice = createVoice({ clock, sound, settings: spoken })
  const ear = createEar({
    clock,
    modelBase: new URL('model/', document.baseURI).href,
    profiles: storeProfiles(tab),
    settings: () => store.getState().settings,
  })
  void earOffers().then((ears) => store.setState({ ears }))
  void voice.browserVoices().then((voices) => store.setState({ voices }))
  const switches = createSwitches({ clock, bindings: () => switchesNow(store.getState()) })
  const roomKept = createRoomKept(tab, kept)
  const actions = makeActions({
    ...{ store, log, ear, voice, packFiles, openHere, saveSettings, edition },
    clock,
    lock: createTabLock(),
    packShelf: createPackShelf(),
    packStarts: createPackStarts(),
    siteStorage: createSiteStorage(),
    soundShelf: createSoundShelf(),
    soundPlayer: createSoundPlayer(sound),
    stops: createTextCache('otherseat-stops'),
    workedOut: createTextCache('otherseat-worked-out'),
    newPackKey: newId,
    newRunId: newId,
    newSeed: () => crypto.getRandomValues(new Uint32Array(1))[0] ?? 0,
    wakeSound() {
      const { pack } = store.getState()
      return voice.wake(pack ? ownPhrases(pack) : [])
    },
    switches,
    useMediaKeys: (isWanted) => mediaKeys.use(isWanted),
    soundDevices,
    roomServer: async () => (await import('./adapters/room/roomLink.ts')).createRoomServer(),
    roomKept,
    noteShelf: createSoundShelf('otherseat-notes'),
    noteRecorder: async () =>
      (await import('./adapters/ear/audio/noteRecorder.ts')).createNoteRecorder(
        clock,
        () => store.getState().settings.microphone,
      ),
    gradeShelf: createGradeShelf(),
  })
  switches.subscribe(actions.switched)
  const mediaKeys = createMediaKeys(actions.switched)
  if (roomKept.ticket()) void actions.rejoinRoom()
  return actions
}

/** Over plain http, as an instructor's tablet may have the page, a browser gives no `randomUUID`. */
function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  return crypto.randomUUID?.() ?? Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')
}
