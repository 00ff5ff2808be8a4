/** What each pass knows of the speaker, kept over a reload and forgotten with the tab. */

import { COEFFICIENTS } from '../recogniser/cepstrum.ts'
import type { FrontEnd } from '../recogniser/frontEnds.ts'
import type { VoiceSample } from '../recogniser/speakerProfile.ts'
import { WARP_FACTORS, type WarpEvidence } from '../recogniser/warp.ts'

/** The warp is estimated by the second pass alone. */
export type StoredProfile = VoiceSample & { readonly warp?: WarpEvidence }

/** By the front end that a pass decodes with. */
export interface StoredProfiles {
  get(frontEnd: FrontEnd): StoredProfile | undefined
  set(frontEnd: FrontEnd, profile: StoredProfile): void
}

const KEY = 'otherseat.speaker'

/** What cannot be read counts as nothing; what cannot be kept holds until the page is left, for it is learned again from one answer. */
export function storeProfiles(storage: Pick<Storage, 'getItem' | 'setItem'> | undefined): StoredProfiles {
  const profiles = read(storage)
  return {
    get: (frontEnd) => profiles[frontEnd],
    set(frontEnd, profile) {
      profiles[frontEnd] = profile
      try {
        storage?.setItem(KEY, JSON.stringify(profiles))
      } catch {
        // Refused or full: nothing depends on it.
      }
    },
  }
}

function read(storage: Pick<Storage, 'getItem'> | undefined): Partial<Record<FrontEnd, StoredProfile>> {
  try {
    const { plain, cleaned } = JSON.parse(storage?.getItem(KEY) ?? '{}')
    return { ...(isProfile(plain) && { plain }), ...(isProfile(cleaned) && { cleaned }) }
  } catch {
    return {}
  }
}

function isProfile(stored: Partial<StoredProfile> | undefined): stored is StoredProfile {
  const { level, mean, warp } = stored ?? {}
  const isSample = typeof level === 'number' && level > 0 && isNumbers(mean, COEFFICIENTS)
  return isSample && (warp === undefined || isEvidence(warp))
}

const isEvidence = ({ utterances, gains }: Partial<WarpEvidence>) =>
  Number.isInteger(utterances) && isNumbers(gains, WARP_FACTORS.length)

const isNumbers = (stored: readonly number[] | undefined, count: number) =>
  stored?.length === count && stored.every(Number.isFinite)
