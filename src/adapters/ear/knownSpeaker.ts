/** What each front end knows of the speaker, kept over a reload and forgotten with the tab. */

import { COEFFICIENTS } from './cepstrum.ts'
import type { FrontEnd } from './decoder.ts'
import type { VoiceSample } from './speaker.ts'

export interface KnownSpeaker {
  get(frontEnd: FrontEnd): VoiceSample | undefined
  set(frontEnd: FrontEnd, known: VoiceSample): void
}

const KEY = 'otherseat.speaker'

/** What cannot be read counts as nothing, what cannot be kept holds until the page is left: it is learned again from one answer. */
export function keepSpeaker(storage: Pick<Storage, 'getItem' | 'setItem'> | undefined): KnownSpeaker {
  const known = kept(storage)
  return {
    get: (frontEnd) => known[frontEnd],
    set(frontEnd, sample) {
      known[frontEnd] = sample
      try {
        storage?.setItem(KEY, JSON.stringify(known))
      } catch {
        // Refused or full: nothing depends on it.
      }
    },
  }
}

function kept(storage: Pick<Storage, 'getItem'> | undefined): Partial<Record<FrontEnd, VoiceSample>> {
  try {
    const { plain, cleaned } = JSON.parse(storage?.getItem(KEY) ?? '{}')
    return { ...(isSample(plain) && { plain }), ...(isSample(cleaned) && { cleaned }) }
  } catch {
    return {}
  }
}

function isSample(kept: Partial<VoiceSample> | undefined): kept is VoiceSample {
  const { level, mean } = kept ?? {}
  return typeof level === 'number' && level > 0 && mean?.length === COEFFICIENTS && mean.every(Number.isFinite)
}
