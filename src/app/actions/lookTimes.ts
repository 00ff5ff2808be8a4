/** What a whole run adds to the pilot's own times of looking, once. */

import type { Debrief } from '../../kernel/run/debrief/debrief.ts'
import { learned } from '../../kernel/run/debrief/look/learning.ts'
import type { Settings } from '../settings.ts'

/** Undefined where it adds nothing: not calibrated, not complete, shown to a room, or added before. */
export function timesWith(
  { lookTimes, lookTimesFrom }: Pick<Settings, 'lookTimes' | 'lookTimesFrom'>,
  { runId, complete, looks, demonstrated }: Debrief,
): Partial<Settings> | undefined {
  if (!lookTimes || !complete || demonstrated || lookTimesFrom === runId) return undefined
  return { lookTimes: learned(lookTimes, looks.answers), lookTimesFrom: runId }
}
