/** Puts together what the screens may ask for. */

import type {
  Edition,
  GradeShelf,
  NoteRecorder,
  PackFiles,
  PackShelf,
  RoomServer,
  SiteStorage,
  SoundPlayer,
  SoundShelf,
  Switches,
  TextCache,
} from '../../ports.ts'
import { gradingActions } from '../grading/gradingActions.ts'
import { allPackFiles } from '../packs/allPackFiles.ts'
import { createOwnPacks } from '../packs/ownPacks.ts'
import { type RoomKept, roomActions } from '../room/roomActions.ts'
import { type ControllerParts, createRunController } from '../run/controller.ts'
import { showEar } from '../run/showRun.ts'
import { createTalkKeys } from '../run/talkKeys.ts'
import { createKeptSounds } from '../runs/keptSounds.ts'
import { type Settings, withSwitch } from '../settings.ts'
import type { Actions } from './actions.ts'
import { debriefActions } from './debriefActions.ts'
import { draftActions } from './draftActions.ts'
import { packActions } from './packActions.ts'
import { paperActions } from './paperActions.ts'
import { runActions } from './runActions.ts'
import { runsActions } from './runsActions.ts'
import { type SoundActionParts, soundActions } from './soundActions.ts'
import { stageActions } from './stageActions.ts'
import { trainingActions } from './trainingActions.ts'

export interface ActionParts extends ControllerParts, SoundActionParts {
  readonly packShelf: PackShelf
  /** Packs to begin one's own with. */
  readonly packStarts: Pick<PackFiles, 'load' | 'examples'>
  readonly siteStorage: SiteStorage
  /** Where the sound of what was said is kept, and what plays it. */
  readonly soundShelf: SoundShelf
  readonly soundPlayer: SoundPlayer
  /** For a pack that comes to be. */
  readonly newPackKey: () => string
  /** Where runs stop when they are shown: run -> text. */
  readonly stops: TextCache
  /** What was worked out of the log. */
  readonly workedOut: TextCache
  readonly saveSettings: (settings: Settings) => void
  /** Lets the page play sound after a gesture. */
  readonly wakeSound: () => Promise<void>
  /** The next key or button that is pressed. */
  readonly switches: Pick<Switches, 'learn' | 'attach'>
  /** Whether the keys of a headset are wanted; in a gesture. */
  readonly useMediaKeys: (isWanted: boolean) => void
  readonly edition: Pick<Edition, 'takeNewer'>
  /** Loaded where somebody asks for a room. */
  readonly roomServer: () => Promise<RoomServer>
  readonly roomKept: RoomKept
  /** An instructor's voice notes: where they lie, and what records them. */
  readonly noteShelf: SoundShelf
  readonly noteRecorder: () => Promise<NoteRecorder>
  readonly gradeShelf: GradeShelf
}

/** Settings of the ear itself: where one changes, the ear is opened again. */
const OF_THE_EAR = ['ear', 'microphone', 'secondModel'] as const

export function makeActions(parts: ActionParts): Actions {
  const { store, ear, voice, switches } = parts
  showEar(store, ear)
  const own = createOwnPacks(parts.packShelf)
  const packFiles = allPackFiles(parts.packFiles, own)
  const keptSounds = createKeptSounds(store, parts.soundShelf)
  const keepSound = (...sound: Parameters<typeof keptSounds.keep>) => void keptSounds.keep(...sound)
  const controller = createRunController({ ...parts, packFiles, keepSound })
  const run = runActions(parts, controller, wake, change)
  const { changeEar, ...sound } = soundActions(parts, controller, wake, change)
  const { showDebriefOf, ...debriefs } = debriefActions(parts, controller, { wake, change, keptSounds })
  const stage = stageActions({ ...parts, packFiles }, { wake, change })
  const keys = createTalkKeys({
    ...{ store, ear, press: run.press, freezeStage: stage.freezeStage },
    interrupt: () => controller.session()?.interrupt(),
    refuse: () => void voice.tone('soft'),
  })
  keys.settle()

  /** In a gesture: browsers let nothing sound before one. */
  function wake(): void {
    void parts.wakeSound()
    parts.useMediaKeys(store.getState().settings.mediaKeys)
  }

  function change(settings: Partial<Settings>): void {
    const next = { ...store.getState().settings, ...settings }
    store.setState({ settings: next })
    parts.saveSettings(next)
    if (settings.mediaKeys !== undefined) parts.useMediaKeys(settings.mediaKeys)
    keys.settle()
    if (OF_THE_EAR.some((name) => settings[name] !== undefined)) void changeEar()
  }

  return {
    ...draftActions(store, controller),
    ...packActions({ ...parts, packFiles, own }, controller),
    ...paperActions(store, controller),
    ...run,
    ...debriefs,
    ...stage,
    ...runsActions({ ...parts, keptSounds }, controller, showDebriefOf),
    readSounds: keptSounds.showSize,
    deleteSounds: keptSounds.deleteAll,
    ...sound,
    ...trainingActions(parts, controller, wake),
    ...roomActions({ ...parts, session: controller.session, newId: parts.newRunId }),
    ...gradingActions({ ...parts, newId: parts.newRunId }, controller),
    settings: change,
    switched: keys.switched,
    attachKeys: switches.attach,
    async takeNewerEdition() {
      const isTaken = await parts.edition.takeNewer()
      store.setState(({ edition }) => ({ edition: { ...edition, isRefused: !isTaken } }))
    },
    async learn(name) {
      store.setState({ learning: name })
      const binding = await switches.learn()
      if (store.getState().learning !== name) return
      store.setState({ learning: undefined })
      if (binding) change({ switches: withSwitch(store.getState().settings.switches, name, binding) })
    },
  }
}
