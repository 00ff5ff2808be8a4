/**
 * Voice notes on marks. They stay on the instructor's device: they lie in a shelf of their own, go over no link, and leave it
 * only in a file that the instructor saves with them.
 */

import type { Clock, NoteRecorder, RunSounds, SoundPlayer, SoundShelf } from '../../ports.ts'
import type { RoomMark } from '../../room/entries.ts'
import { allSounds } from '../sound/allSounds.ts'
import { RATE } from '../sound/wav.ts'
import type { Store } from '../store.ts'
import { type NotesState, noteKey, noteNumber } from './notesState.ts'

export const LONGEST_NOTE_S = 30

type OfMark = Pick<RoomMark, 'runId' | 'given'>

export interface NoteParts {
  readonly store: Store
  readonly clock: Clock
  readonly noteShelf: SoundShelf
  readonly soundPlayer: SoundPlayer
  readonly noteRecorder: () => Promise<NoteRecorder>
}

export interface VoiceNotes {
  /** Begins one on this mark. */
  begin(mark: OfMark): Promise<void>
  /** Ends the one that is being recorded, and keeps it. */
  end(): Promise<void>
  /** Plays it, or stops where it plays. */
  play(mark: OfMark): Promise<void>
  /** Shows which marks of these runs have one. */
  lookUp(runIds: readonly string[]): Promise<void>
  showSize(): Promise<void>
  /** By mark's number; undefined where they cannot be read. */
  all(runId: string): Promise<RunSounds | undefined>
  deleteOf(runIds: readonly string[]): Promise<void>
  deleteAll(): Promise<void>
}

export function createVoiceNotes({ store, clock, noteShelf, soundPlayer, noteRecorder }: NoteParts): VoiceNotes {
  let playing = new AbortController()
  let recorded: { readonly mark: OfMark; stop(): Promise<Int16Array> } | undefined
  let stopWaiting = () => {}

  const show = (change: Partial<NotesState>) => store.setState(({ notes }) => ({ notes: { ...notes, ...change } }))

  async function tried(work: () => Promise<void>, what: string): Promise<void> {
    try {
      await work()
    } catch (error) {
      show({ wrong: `${what}: ${error instanceof Error ? error.message : String(error)}` })
    }
  }

  const showSize = () =>
    tried(async () => show({ size: await noteShelf.size() }), 'How much is kept cannot be looked up')

  async function end(): Promise<void> {
    const one = recorded
    recorded = undefined
    stopWaiting()
    if (!one) return show({ recording: undefined })
    await tried(async () => {
      const samples = (await one.stop()).slice(0, LONGEST_NOTE_S * RATE)
      show({ recording: undefined })
      if (samples.length === 0) return show({ wrong: 'Nothing was recorded: the microphone gave no sound.' })
      await noteShelf.put(one.mark.runId, new Map([[noteNumber(one.mark), samples]]))
      show({ there: new Set([...store.getState().notes.there, noteKey(one.mark)]) })
    }, 'The voice note is not kept')
    await showSize()
  }

  function stop(): void {
    playing.abort()
    if (store.getState().notes.playing !== undefined) show({ playing: undefined })
  }

  return {
    end,
    showSize,
    async begin(mark) {
      if (store.getState().notes.recording) return
      stop()
      const key = noteKey(mark)
      show({ recording: { key, since: undefined }, wrong: '' })
      const begun = await (await noteRecorder()).begin((why) => {
        show({ wrong: why })
        void end()
      })
      if ('why' in begun) return show({ recording: undefined, wrong: begun.why })
      // Given up while the microphone opened.
      if (store.getState().notes.recording?.key !== key) return void (await begun.stop())
      recorded = { mark, ...begun }
      show({ recording: { key, since: clock.now() } })
      stopWaiting = clock.after(LONGEST_NOTE_S * 1_000, () => void end())
    },
    async play(mark) {
      const key = noteKey(mark)
      const isPlaying = store.getState().notes.playing === key
      stop()
      if (isPlaying) return
      playing = new AbortController()
      const { signal } = playing
      show({ playing: key, wrong: '' })
      const samples = await noteShelf.read(mark.runId, noteNumber(mark)).catch(() => undefined)
      const isHeard = samples && !signal.aborted ? await soundPlayer.play(samples, signal) : signal.aborted
      if (signal.aborted) return
      const wrong = samples ? 'The browser does not let this page play sound.' : 'This note is not there any more.'
      show({ playing: undefined, ...(!isHeard && { wrong }) })
    },
    async lookUp(runIds) {
      const there = new Set<string>()
      for (const runId of runIds)
        for (const number of await noteShelf.numbers(runId).catch(() => [])) there.add(`${runId}/${number}`)
      show({ there })
    },
    all: (runId) => allSounds(noteShelf, runId),
    async deleteOf(runIds) {
      stop()
      await tried(async () => {
        for (const runId of runIds) await noteShelf.take(runId)
      }, 'The voice notes could not be deleted')
      await showSize()
    },
    async deleteAll() {
      stop()
      await tried(async () => {
        await noteShelf.deleteAll()
        show({ there: new Set(), wrong: '' })
      }, 'The voice notes could not be deleted')
      await showSize()
    },
  }
}
