/** Where the sounds of a run lie in a zip: in a folder `sound` beside its log, each under the number of its event. */

import type { RunEvent } from '../../kernel/run/core/events.ts'
import { firstOfBreath } from '../../kernel/run/debrief/breaths.ts'
import { isRefused, type OfferedFile } from '../../packs/files/offered.ts'
import type { RunSounds } from '../../ports.ts'
import { samplesIn } from '../sound/wav.ts'
import { besideLog } from './besideLog.ts'

const SOUND = /^(.*\/)?sound\/(\d{5,9})\.wav$/i

export const isSoundFile = (path: string): boolean => SOUND.test(path)

const soundFolder = (log: string): string => `${besideLog(log)}sound/`

export const soundPath = (log: string, seq: number): string => `${soundFolder(log)}${String(seq).padStart(5, '0')}.wav`

export const numberOf = (path: string): number => Number(SOUND.exec(path)?.[2])

/** Sound files by their folder, as it stands beside a log. */
export function soundsBeside(files: readonly OfferedFile[]): (log: string) => readonly OfferedFile[] {
  const byFolder = new Map<string, OfferedFile[]>()
  for (const file of files) {
    const folder = file.path.slice(0, file.path.lastIndexOf('/') + 1)
    byFolder.set(folder, [...(byFolder.get(folder) ?? []), file])
  }
  return (log) => byFolder.get(soundFolder(log)) ?? []
}

export interface ReadSounds {
  readonly sounds: RunSounds
  /** How many are left out, and why the first of them is. */
  readonly lost: number
  readonly why: string
}

/** What is whole of them, and belongs to something that was said in the run. */
export async function readSounds(
  events: readonly RunEvent[],
  files: readonly OfferedFile[],
  mostBytes: number,
): Promise<ReadSounds> {
  const first = firstOfBreath(events)
  const sounds = new Map<number, Int16Array>()
  const why: string[] = []
  for (const file of files) {
    const seq = numberOf(file.path)
    if (first.get(seq) !== seq) why.push('nothing was said at its number')
    else if (file.size > mostBytes) why.push(`it is too large: at most ${mostBytes / 1_000_000} MB are read`)
    else {
      const bytes = await file.bytes()
      const samples = isRefused(bytes) ? undefined : samplesIn(bytes)
      if (samples) sounds.set(seq, samples)
      else why.push('it is cut or damaged, or no WAV of Otherseat')
    }
  }
  return { sounds, lost: why.length, why: why[0] ?? '' }
}
