/** Hands what a pass has learned of the speaker to the page, which outlives its thread. */

import type { StoredProfile } from './storedProfiles.ts'

/** To be called when something may have been learned; `store` is called only where something was. */
export function profileKeeper(
  current: () => StoredProfile | undefined,
  store: (profile: StoredProfile) => void,
): () => void {
  let stored = current()
  return () => {
    const profile = current()
    if (profile && (profile.mean !== stored?.mean || profile.warp !== stored.warp)) store(profile)
    stored = profile
  }
}
