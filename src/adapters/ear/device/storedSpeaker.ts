/** What each front end knows of the speaker, kept over a reload and forgotten with the tab. */

import { COEFFICIENTS } from '../recogniser/cepstrum.ts'
import type { FrontEnd } from '../recogniser/decoder.ts'
import type { VoiceSample } from '../recogniser/speakerProfile.ts'
import { SCALES, type TractEvidence } from '../recogniser/warp.ts'

/** What a front end knows of a voice; what suits it, the second one alone. */
export type KnownVoice = VoiceSample & { readonly tract?: TractEvidence }

export interface KnownSpeaker {
  get(frontEnd: FrontEnd): KnownVoice | undefined
  set(frontEnd: FrontEnd, known: KnownVoice): void
}

const KEY = 'otherseat.speaker'

/** What cannot be read counts as nothing, what cannot be kept holds until the page is left: it is learned again from one answer. */
export function keepSpeaker(storage: Pick<Storage, 'getItem' | 'setItem'> | undefined): KnownSpeaker {
  const known = kept(storage)
  return {
    get: (frontEnd) => known[frontEnd],
    set(frontEnd, voice) {
      known[frontEnd] = voice
      try {
        storage?.setItem(KEY, JSON.stringify(known))
      } catch {
        // Refused or full: nothing depends on it.
      }
    },
  }
}

function kept(storage: Pick<Storage, 'getItem'> | undefined): Partial<Record<FrontEnd, KnownVoice>> {
  try {
    const { plain, cleaned } = JSON.parse(storage?.getItem(KEY) ?? '{}')
    return { ...(isVoice(plain) && { plain }), ...(isVoice(cleaned) && { cleaned }) }
  } catch {
    return {}
  }
}

function isVoice(kept: Partial<KnownVoice> | undefined): kept is KnownVoice {
  const { level, mean, tract } = kept ?? {}
  const isSample = typeof level === 'number' && level > 0 && isNumbers(mean, COEFFICIENTS)
  return isSample && (tract === undefined || isEvidence(tract))
}

const isEvidence = ({ utterances, gains }: Partial<TractEvidence>) =>
  Number.isInteger(utterances) && isNumbers(gains, SCALES.length)

const isNumbers = (kept: readonly number[] | undefined, count: number) =>
  kept?.length === count && kept.every(Number.isFinite)
