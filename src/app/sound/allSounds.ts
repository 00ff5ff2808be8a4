/** All that a shelf has of a run; undefined where it cannot be read. */

import type { RunSounds, SoundShelf } from '../../ports.ts'

export async function allSounds(
  shelf: Pick<SoundShelf, 'numbers' | 'read'>,
  runId: string,
): Promise<RunSounds | undefined> {
  try {
    const sounds = new Map<number, Int16Array>()
    for (const number of await shelf.numbers(runId)) {
      const samples = await shelf.read(runId, number)
      if (samples) sounds.set(number, samples)
    }
    return sounds
  } catch {
    return undefined
  }
}
