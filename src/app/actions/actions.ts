/** All that a screen may ask for, by what it is about. `makeActions.ts` puts them together; tests hand in their own. */

import type { Inputs } from '../../kernel/figures/model.ts'
import type { Press } from '../../kernel/interpret/keyPress.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import type { SwitchEvent, SwitchName } from '../../ports.ts'
import type { Settings } from '../settings.ts'
import type { Screen } from '../store.ts'

export type Actions = DraftActions & PaperActions & RunActions & KeyActions & SoundActions & SettingsActions

/** Packs, and the figures that are being typed. */
export interface DraftActions {
  choosePack(id: string): Promise<void>
  /** A departure dealt by number: its preliminary figures become the draft, its final ones come in on their own later. */
  deal(seed: number): void
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

/** Papers on the table, and the scratch pad beside them. */
export interface PaperActions {
  /** Opens one that lies closed and closes one that lies open; opening is logged, and is no mark. */
  turnPaper(edition: string): void
  putAwayPaper(edition: string): void
  takeOutPaper(edition: string): void
  /** What the pilot has written down; kept with the run. */
  writePad(pad: RunState['pad']): void
}

export interface RunActions {
  /** Once at the start: looks for a run that was left in the middle. */
  recall(): Promise<void>
  show(screen: Screen): void
  /** The draft becomes the next revision; begins the run where there is none. */
  enterRevision(): Promise<void>
  resumeRun(runId: string): Promise<void>
  /** Ends the run that is on, or was left in the middle, and goes back to the start; says so where it cannot. */
  endRun(): Promise<void>
  /** A run that cannot be gone on with is not offered any more; its log stays, and can be saved before. */
  putAwayRun(): Promise<void>
  press(press: Press): void
  /** `listenId` and `beganAt` are those of the first key. */
  type(text: string, listenId: number, beganAt: number): void
  /** Any key or click after a reload: browsers want a gesture before sound. */
  gesture(): void
  /** Takes the run over from another tab. */
  takeOver(): Promise<void>
  /** Makes the debrief of the run on the screen from its log, and shows it. */
  showDebrief(): Promise<void>
  /** The log as JSON Lines, for a download. */
  exportLog(runId: string): Promise<string>
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

export interface SettingsActions {
  settings(change: Partial<Settings>): void
}
