/** A shelf of sounds for tests, kept in memory, open to view, and made to refuse when asked; and a player that sounds until it is told. */

import type { NoteRecorder, SoundPlayer, SoundShelf } from '../../src/ports.ts'

export interface FakeSoundShelf extends SoundShelf {
  /** By run, then by event. */
  readonly kept: Map<string, Map<number, Int16Array>>
  /** From now on nothing can be done, for this reason; empty: it can again. */
  refuse(message: string): void
}

export function createFakeSoundShelf(): FakeSoundShelf {
  const kept = new Map<string, Map<number, Int16Array>>()
  let refusal = ''
  const willing = () => {
    if (refusal) throw new Error(refusal)
  }
  return {
    kept,
    refuse(message) {
      refusal = message
    },
    async put(runId, sounds) {
      willing()
      kept.set(runId, new Map([...structuredClone(sounds), ...(kept.get(runId) ?? [])]))
    },
    async read(runId, seq) {
      willing()
      return structuredClone(kept.get(runId)?.get(seq))
    },
    async numbers(runId) {
      willing()
      return [...(kept.get(runId)?.keys() ?? [])]
    },
    async take(runId) {
      willing()
      const sounds = kept.get(runId) ?? new Map()
      kept.delete(runId)
      return sounds
    },
    async size() {
      willing()
      const all = [...kept.values()].flatMap((sounds) => [...sounds.values()])
      return { bytes: all.reduce((sum, { byteLength }) => sum + byteLength, 0), runs: kept.size }
    },
    async deleteAll() {
      willing()
      kept.clear()
    },
  }
}

export interface FakeSoundPlayer extends SoundPlayer {
  /** Everything that was played, in order. */
  readonly played: readonly Int16Array[]
  /** What is being played has ended. */
  end(): void
}

export function createFakeSoundPlayer(mayPlay = true): FakeSoundPlayer {
  const played: Int16Array[] = []
  let end = () => {}
  return {
    played,
    end: () => end(),
    async play(samples, signal) {
      if (!mayPlay) return false
      played.push(samples)
      await new Promise<void>((ended) => {
        end = ended
        signal.addEventListener('abort', () => ended())
      })
      return true
    },
  }
}

export interface FakeRecorder extends NoteRecorder {
  /** The microphone goes away. */
  lose(why: string): void
}

/** Hears these samples, or is refused. */
export function createFakeRecorder(samples = Int16Array.of(1, 2, 3), refusal = ''): FakeRecorder {
  let lost: (why: string) => void = () => {}
  return {
    lose: (why) => lost(why),
    async begin(tell) {
      lost = tell
      return refusal === '' ? { stop: async () => samples } : { why: refusal }
    },
  }
}
