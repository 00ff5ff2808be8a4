/** The one store: what the screens show. Nothing here decides; the actions change it, and what a run reports (`run/showRun.ts`). */

import { createStore, type StoreApi } from 'zustand/vanilla'
import type { FigureSet, Inputs } from '../kernel/figures/model.ts'
import type { Pack } from '../kernel/pack/checklist.ts'
import type { Role } from '../kernel/pack/roles.ts'
import type { Problem } from '../kernel/problem.ts'
import type { RunEvent } from '../kernel/run/core/events.ts'
import type { RunState } from '../kernel/run/core/state.ts'
import type { RunSummary } from '../kernel/run/core/summary.ts'
import type { Debrief } from '../kernel/run/debrief/debrief.ts'
import type {
  EarFailure,
  EarOffer,
  EarState,
  EditionState,
  RoomLinkState,
  SecondModelState,
  SoundDevices,
  SwitchName,
} from '../ports.ts'
import type { Order, RoomGrade, RoomMark } from '../room/entries.ts'
import type { AboutRooms, Ticket } from '../room/http.ts'
import type { Broken } from './broken.ts'
import type { PastDraft } from './figures/undo.ts'
import type { GradingState } from './grading/gradingState.ts'
import { EMPTY_SHELF, type ShelfState } from './packs/shelfState.ts'
import type { ReplayState } from './replay/player.ts'
import { NO_NOTES, type NotesState } from './room/notesState.ts'
import type { ShownMoment } from './run/lastAnswer.ts'
import type { Storage } from './run/record.ts'
import type { Revision } from './run/revision.ts'
import { EMPTY_RUNS, type RunsState } from './runs/runsState.ts'
import { EMPTY_SOUNDS, type SoundsState } from './runs/soundsState.ts'
import { DEFAULT_SETTINGS, type Settings } from './settings.ts'
import type { Findings, PromptHeard } from './sound/soundPrompts.ts'
import type { Stop } from './stage/prepared.ts'
import type { StageState } from './stage/stageState.ts'
import type { DialTold, DrillTold, Training } from './training/training.ts'

export type Screen =
  | 'start'
  | 'figures'
  | 'papers'
  | 'run'
  | 'debrief'
  | 'stage'
  | 'runs'
  | 'progress'
  | 'settings'
  | 'sound'
  | 'packs'
  | 'room'
  | 'grading'

export interface PackSummary {
  /** The pack's own, or the key of one that is the person's. */
  readonly id: string
  readonly name: string
  readonly aircraft: string
  /** Of one that is the person's, as it is now. */
  readonly sha256?: string
}

/** Why a run that was left in the middle can be neither gone on with nor ended here. */
export interface RunBlocked {
  readonly runId: string
  /** Its log cannot be read; another tab has it on; another tab has ended it since. */
  readonly because: 'unreadable' | 'elsewhere' | 'ended'
  /** What is wrong with the log, in one line; empty where nothing is. */
  readonly message: string
}

export interface AppState {
  readonly screen: Screen
  /** Undefined until they have been looked up. */
  readonly packs: readonly PackSummary[] | undefined
  readonly pack: Pack | undefined
  /** Which of `packs` it was opened from, as it was then; undefined where it came with a run. */
  readonly chosen: string | undefined
  /** What the screen of packs shows. */
  readonly shelf: ShelfState
  /** What the screen of runs shows. */
  readonly runs: RunsState
  /** What they show of sound that is kept with runs. */
  readonly sounds: SoundsState
  /** Of the pack that could not be opened, or of inputs that could not be read. */
  readonly problems: readonly Problem[]
  /** Example revisions of the pack: name -> text. */
  readonly examples: Readonly<Record<string, string>>
  readonly draft: Inputs
  /** Sheets laid on the table before the run; in a run they are its own. */
  readonly sheets: readonly Inputs[]
  /** The sheet that the draft was taken over from, if it was. */
  readonly takenFrom: Inputs | undefined
  /** Editions that lie open, the last one opened first. */
  readonly openPapers: readonly string[]
  /** The scratch pad lies open. */
  readonly hasPad: boolean
  /** What the draft was before, oldest first, for undo. */
  readonly past: readonly PastDraft[]
  /** Number of the dealt departure that the draft is; its late final figures and its trap are nowhere on the screen. */
  readonly dealt: number | undefined
  /** The activity that the run is to be begun at; undefined for its beginning. */
  readonly beginAt: string | undefined
  /** The draft, computed as it stands. */
  readonly preview: FigureSet | undefined
  readonly revisions: readonly Revision[]
  readonly run: RunState | undefined
  /** What was said last that a room would look at, and the state that it came in. */
  readonly answered: ShownMoment | undefined
  /** A run that was left in the middle. */
  readonly unfinished: RunSummary | undefined
  readonly blocked: RunBlocked | undefined
  /** Something that nobody foresaw. */
  readonly broken: Broken | undefined
  readonly ear: {
    readonly state: EarState
    readonly level: number
    readonly noise: number
    readonly clipping: boolean
    readonly soFar: string
    /** 0 to 1 while the recogniser loads. */
    readonly loading: number
    readonly secondModel: SecondModelState
    readonly failure: EarFailure | undefined
    /** Why it is another one than was chosen. */
    readonly note: string
    /** What it has to tell and the pilot has put away: told again once it has something else to tell. */
    readonly putAway: string
    /** What keeps it shut: it waits for the talk key, or the radio key is held. */
    readonly gate: EarGated
  }
  /** The sound check, while it is on. */
  readonly soundCheck: SoundCheckState | undefined
  /** Microphones and outputs to choose from. */
  readonly devices: SoundDevices
  /** Ears that this browser has, as far as it is known. */
  readonly ears: readonly EarOffer[]
  /** The next key or button pressed becomes the one for this. */
  readonly learning: SwitchName | undefined
  readonly voice: { readonly speaking: string; readonly role: Role; readonly failed: boolean; readonly onRadio?: true }
  /** Whether the log can be stored; where not, the run goes on in memory (see `run/record.ts`). */
  readonly storage: Storage
  /** `elsewhere`: another tab writes this run. */
  readonly writer: 'here' | 'elsewhere'
  /** Before the first gesture a browser plays no sound; any key resumes. */
  readonly needsGesture: boolean
  /** The debrief on the screen, made by `showDebrief`. */
  readonly debrief: Debrief | undefined
  /** What it was made from. */
  readonly debriefed: { readonly pack: Pack; readonly events: readonly RunEvent[] } | undefined
  /** The run debriefed, played back. */
  readonly replay: ReplayState | undefined
  /** Where it stops when it is shown to a room. */
  readonly stops: readonly Stop[]
  /** What came with the pack to be shown to a room. */
  readonly demonstrations: readonly { readonly name: string; readonly title: string }[]
  /** A run that is played to a room; undefined where none is. */
  readonly stage: OnStage | undefined
  /** How the pilot comes on, and what is due; undefined until it has been looked up. */
  readonly training: Training | undefined
  /** The drill that has just ended. */
  readonly drilled: DrillTold | undefined
  /** The block of read-backs that has just ended. */
  readonly dialled: DialTold | undefined
  /** Names of the browser's voices, for the settings. */
  readonly voices: readonly string[]
  readonly settings: Settings
  /** `isRefused`: a run is on somewhere, and the later edition waits on. */
  readonly edition: EditionState & { readonly isRefused: boolean }
  /** Undefined where nobody has asked for one. */
  readonly room: RoomState | undefined
  /** Voice notes on marks, of this device. */
  readonly notes: NotesState
  /** The recorded run that is graded; undefined where nobody has asked for one. */
  readonly grading: GradingState | undefined
}

export interface OnStage {
  readonly title: string
  /** Where it was opened. */
  readonly from: Screen
  /** What the parts of the screen show that show a run. */
  readonly store: Store
  readonly state: StageState
}

export interface SoundCheckState {
  readonly stage: 'voice' | 'reading' | 'done' | 'failed'
  /** Lines read or left out so far. */
  readonly lines: readonly PromptHeard[]
  /** The tone has called the line that is to be read next. */
  readonly isShown: boolean
  readonly findings?: Findings
  readonly message: string
  readonly hasVoice: boolean
}

/** A trainee as the instructor, or a guest, sees them: a store of its own, for the parts of the screen that show a run. */
export interface Watched {
  readonly seat: string
  readonly name: string
  readonly store: Store
}

/** What the screens show of a room: who is in it, how the link is, and what the instructor sees and has prepared. */
export interface RoomState {
  /** `looking`: it is being asked; `none`: this page came from a server without rooms. */
  readonly server: AboutRooms | 'looking' | 'none'
  /** Why something could not be done. */
  readonly message: string
  /** A code that came with a link. */
  readonly offered: string
  readonly ticket: Ticket | undefined
  readonly link: RoomLinkState
  readonly watched: readonly Watched[]
  /** The seat that is shown large. */
  readonly chosen: string | undefined
  readonly orders: readonly Order[]
  /** Ids of orders that wait no more: given out, or withdrawn. */
  readonly given: ReadonlySet<string>
  readonly withdrawn: ReadonlySet<string>
  readonly marks: readonly RoomMark[]
  readonly grades: readonly RoomGrade[]
  /** Runs of which the trainee sees marks and grades. */
  readonly shown: ReadonlySet<string>
}

export type EarGated = 'open' | 'talk' | 'radio'

export type Store = StoreApi<AppState>

export const EMPTY_DRAFT: Inputs = { status: 'preliminary', values: {}, loads: {} }

export function createAppStore(initial: Partial<AppState> = {}): Store {
  return createStore<AppState>(() => ({
    screen: 'start',
    packs: undefined,
    pack: undefined,
    chosen: undefined,
    shelf: EMPTY_SHELF,
    runs: EMPTY_RUNS,
    sounds: EMPTY_SOUNDS,
    problems: [],
    examples: {},
    draft: EMPTY_DRAFT,
    sheets: [],
    takenFrom: undefined,
    openPapers: [],
    hasPad: false,
    past: [],
    dealt: undefined,
    beginAt: undefined,
    preview: undefined,
    revisions: [],
    run: undefined,
    answered: undefined,
    unfinished: undefined,
    blocked: undefined,
    broken: undefined,
    ear: {
      state: 'off',
      level: -90,
      noise: -90,
      clipping: false,
      soFar: '',
      loading: 0,
      secondModel: 'none',
      failure: undefined,
      note: '',
      putAway: '',
      gate: 'open',
    },
    soundCheck: undefined,
    devices: { microphones: [], outputs: [] },
    ears: [],
    learning: undefined,
    voice: { speaking: '', role: 'otherseat', failed: false },
    storage: { kept: true, message: '' },
    writer: 'here',
    needsGesture: false,
    debrief: undefined,
    debriefed: undefined,
    replay: undefined,
    stops: [],
    demonstrations: [],
    stage: undefined,
    training: undefined,
    drilled: undefined,
    dialled: undefined,
    voices: [],
    settings: DEFAULT_SETTINGS,
    edition: { isKept: false, hasNewer: false, isRefused: false },
    room: undefined,
    notes: NO_NOTES,
    grading: undefined,
    ...initial,
  }))
}
