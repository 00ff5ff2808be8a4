/** All that a screen may ask for, by what it is about. `makeActions.ts` puts them together; tests hand in their own. */

import type { Inputs } from '../../kernel/figures/model.ts'
import type { Press } from '../../kernel/interpret/keyPress.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import type { OfferedFile } from '../../packs/files/offered.ts'
import type { SwitchEvent, SwitchName } from '../../ports.ts'
import type { GradingActions } from '../grading/gradingActions.ts'
import type { Speed } from '../replay/player.ts'
import type { RoomActions } from '../room/roomActions.ts'
import type { SavedFile } from '../runs/runFiles.ts'
import type { Settings } from '../settings.ts'
import type { StageChoices } from '../stage/stageState.ts'
import type { Screen } from '../store.ts'

export type Actions = DraftActions &
  PackActions &
  PaperActions &
  RunActions &
  DebriefActions &
  RunsActions &
  StageActions &
  KeyActions &
  SoundActions &
  TrainingActions &
  SettingsActions &
  KeptSoundActions &
  RoomActions &
  GradingActions &
  EditionActions

/** The pack to be flown, and the figures that are being typed. */
export interface DraftActions {
  choosePack(id: string): Promise<void>
  /** A departure dealt by number: its preliminary figures become the draft, its final ones come in on their own later. */
  deal(seed: number): void
  /** The activity that the run is to begin at; undefined for its beginning. */
  beginAt(activity: string | undefined): void
  /** Replaces the draft and computes the preview. */
  draft(inputs: Inputs): void
  /** Takes the last change of the draft back. */
  undo(): void
  /**
   * Text of a YAML or JSON file of inputs, pasted or dropped; problems land in the store, the draft stays. `takeOver`: its
   * values become the draft; `lay`: it is laid on the table, to be read and typed from.
   */
  readInputs(text: string, fileName: string, how?: 'takeOver' | 'lay'): Promise<void>
}

/** Packs of the person's own. `key`: as in the store's `shelf`. */
export interface PackActions {
  /** Looks up which packs there are to choose from. */
  listPacks(): Promise<void>
  /** The same, and all that the screen of packs shows of them. */
  readPacks(): Promise<void>
  /** A zip, or the files of one pack; what is wrong with them, or was not read, is told in the store. */
  importPack(files: readonly OfferedFile[]): Promise<void>
  pastePack(text: string): Promise<void>
  /** A pack in a link, by what stands behind its "#": it is looked at, and the person asked. */
  offerLink(fragment: string): Promise<void>
  answerLink(isWanted: boolean): Promise<void>
  /** What stands behind the "#" of a link that holds the pack; or why none can. */
  linkTo(key: string): Promise<{ readonly fragment: string } | { readonly wrong: string }>
  /** What to do with an import whose id is there already. */
  answerImport(what: 'replace' | 'both' | 'neither'): Promise<void>
  /** Opens it, and goes on to its figures; does nothing while a run is on. */
  flyPack(key: string): Promise<void>
  /** Makes one's own of a starting point, and opens it. */
  newPack(start: string): Promise<void>
  /** Makes one's own of any. */
  copyPack(key: string): Promise<void>
  /** Does nothing where its pack.yaml cannot be read. */
  renamePack(key: string, name: string): Promise<void>
  deletePack(key: string): Promise<void>
  /** Takes the last deletion or replacement back. */
  undoPacks(): Promise<void>
  /** As a zip with its folder. */
  exportPack(key: string): Promise<{ readonly name: string; readonly bytes: Uint8Array }>
  /** What the second says otherwise than the first. */
  comparePacks(before: string, after: string): Promise<void>
  /** What is new in the pack that one was copied from; settled, it is told no more. */
  showNewer(key: string): Promise<void>
  settleNewer(key: string): Promise<void>
  closeComparison(): void
  /** To be printed; undefined puts them away. */
  showCards(key: string | undefined): void
  /** One that was pasted, into tables.yaml of one's own pack, which opens; false where that file cannot take it. */
  putTable(key: string, pasted: string): Promise<boolean>
  editFile(key: string, path: string): Promise<void>
  /** Saved by itself a moment later. */
  changeFile(text: string): void
  /** As changed by a form: `words` say what, and it can be taken back from any file of the pack. */
  writeFile(text: string, words: string): void
  undoFile(): Promise<void>
  /** At once, as when the page may be about to go. */
  saveFile(): Promise<void>
  /** After another tab has changed the file as well. */
  settleFile(whose: 'mine' | 'theirs'): Promise<void>
  closeFile(): Promise<void>
}

/** Papers on the table, and the scratch pad beside them. */
export interface PaperActions {
  /** Opens one that lies closed and closes one that lies open; opening is logged, and is no mark. */
  turnPaper(edition: string): void
  putAwayPaper(edition: string): void
  takeOutPaper(edition: string): void
  turnPad(): void
  /** What the pilot has written down; kept with the run. */
  writePad(pad: RunState['pad']): void
}

export interface RunActions {
  /** Once at the start: looks for a run that was left in the middle. */
  recall(): Promise<void>
  show(screen: Screen): void
  /** Shows the run to a room, or no more; the choices are kept. */
  demonstrate(isOn: boolean, choices?: Partial<Pick<Settings, 'roomStops' | 'asksRoom'>>): void
  /** The draft becomes the next revision; begins the run where there is none. */
  enterRevision(): Promise<void>
  resumeRun(runId: string): Promise<void>
  /** Ends the run that is on, or was left in the middle, and goes back to the start; says so where it cannot, and resolves to false. */
  endRun(): Promise<boolean>
  /** A run that cannot be gone on with is not offered any more; its log stays, and can be saved before. */
  putAwayRun(): Promise<void>
  press(press: Press): void
  /** A key of an answer that is not sent yet. */
  typing(): void
  /** `listenId` and `beganAt` are those of the first key. */
  type(text: string, listenId: number, beganAt: number): void
  /** Any key or click after a reload: browsers want a gesture before sound. */
  gesture(): void
  /** Takes the run over from another tab. */
  takeOver(): Promise<void>
  /** The log as JSON Lines, for a download. */
  exportLog(runId: string): Promise<string>
  /** What broke is told no more. */
  hideBroken(): void
}

/** What can be done from a debrief. */
export interface DebriefActions {
  /** Makes the debrief of the run on the screen from its log, and shows it; without one, that which was shown last. */
  showDebrief(): Promise<void>
  /** Begins a new run with the events of the one debriefed up to this number. */
  again(from: number, anew?: boolean): Promise<void>
  /** Ends a moment that is done again, and shows how it went. */
  endAgain(): Promise<void>
  /** Plays the run debriefed from its beginning; does nothing while a run is on. */
  replay(): Promise<void>
  replayPlays(isOn: boolean): void
  /** By the number of a cue. */
  replayTo(index: number): void
  replaySpeed(speed: Speed): void
  endReplay(): void
  /** Plays what was said in an event of the run debriefed, where its sound was kept; not while a run is on. */
  hearSound(seq: number): Promise<void>
  stopSound(): void
}

/** Runs played to a room, by two voices, with the places where they stop. None is opened while a run is on. */
export interface StageActions {
  /** Looks up which came with the pack that is chosen. */
  readDemonstrations(): Promise<void>
  /** By its name; why it cannot be shown lands in the store. */
  showDemonstration(name: string): Promise<void>
  /** The run debriefed. */
  showDebriefed(): Promise<void>
  /** Looks up where the run debriefed stops. */
  readStops(): Promise<void>
  /** It stops behind the event of this number, with these words; undefined: no more. */
  markStop(seq: number, words: string | undefined): Promise<void>
  /** Stops it, or goes on. */
  freezeStage(): void
  /** To the place before, or the next one, at which it stops. */
  stageBack(): void
  stageOn(): void
  chooseStage(choices: StageChoices): void
  /** Back to where it was opened. */
  closeStage(): void
}

/** The runs that this browser keeps. Files are handed back to be saved. */
export interface RunsActions {
  readRuns(): Promise<void>
  /** Makes the debrief of any of them, and shows it. */
  openRun(runId: string): Promise<void>
  /** Not one that is on. */
  deleteRun(runId: string): Promise<void>
  /** Takes the last deletion back. */
  undoDelete(): Promise<void>
  /** Archives, single runs and logs; what is wrong with them is told in the store. */
  importRuns(files: readonly OfferedFile[]): Promise<void>
  /** With its pack, as a zip; or what was said in it as a table; undefined where it cannot be read, and the store says why. */
  saveRun(runId: string, form: 'zip' | 'csv'): Promise<SavedFile | undefined>
  saveAllRuns(): Promise<SavedFile>
  /** Asks the browser not to take them away when it runs short of room. */
  keepRuns(): Promise<void>
}

/** Keys, pedals and buttons of the pilot's own. */
export interface KeyActions {
  /** One was pressed or let go, or its likeness on the screen. */
  switched(event: SwitchEvent): void
  /** Keys pressed in another window of the page count as the page's; returns its undoing. */
  attachKeys(other: Window): () => void
  /** The next key or button pressed becomes the one for this; Escape leaves it as it was. */
  learn(name: SwitchName): Promise<void>
}

export interface SoundActions {
  retryEar(): Promise<void>
  /** Puts away what the ear has to tell, by its words, until that is something else; '' where it has nothing to tell. */
  putAwayNotice(notice: string): void
  /** Begins the sound check, or begins it again. */
  soundCheck(): Promise<void>
  skipPrompt(): void
  /** Takes on what it found, where that is wanted, and goes back to the start. */
  endSoundCheck(keep: boolean): Promise<void>
  /** Looks up the microphones and outputs there are. */
  lookUpDevices(): Promise<void>
}

/** How the pilot comes on over many runs, and the drill of what is due. */
export interface TrainingActions {
  /** Looks it up in all runs that the log keeps. */
  readProgress(): Promise<void>
  /** Begins the drill of what is due; does nothing while a run is on, or where nothing is due. */
  beginDrill(): Promise<void>
  /** Begins a block of read-backs as the settings have them put; of so many elements each, or around the pilot's edge. */
  beginReadBacks(length: number | undefined): Promise<void>
  /** Ends it before its time. */
  endDrill(): Promise<void>
}

export interface SettingsActions {
  settings(change: Partial<Settings>): void
}

/** The sound of what was said, kept with the runs. */
export interface KeptSoundActions {
  /** Looks up how much there is. */
  readSounds(): Promise<void>
  /** Of all runs; there is no way back. */
  deleteSounds(): Promise<void>
}

export interface EditionActions {
  /** The app as it has been made since; not while a run is on in any tab. */
  takeNewerEdition(): Promise<void>
}
