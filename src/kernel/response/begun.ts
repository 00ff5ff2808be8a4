/** An answer in two breaths: what was said now, put with what was said before. Chosen by form, whatever comes of it. */

import type { Lack } from '../kinds/reading.ts'
import { isNumberToken, joined, soundOf, type Transcript, transcriptOf } from '../numbers/tokens.ts'

/**
 * "Up" completes "six point zero", and so does "six up", which says the beginning of the number once more. Undefined
 * where what was said now, which lacks this, is no rest of what was said before.
 */
export function completing(before: string, now: Transcript, lacks: Lack): Transcript | undefined {
  const earlier = transcriptOf(before)
  if (lacks === 'digits') return joined(earlier, now)
  if (lacks !== 'decimals') return undefined
  const [first, again] = [earlier, now].map(({ tokens }) => tokens.filter(isNumberToken).map(soundOf))
  if (!again?.every((digit, at) => digit === first?.[at])) return undefined
  return joined(earlier, { ...now, tokens: now.tokens.filter((token) => !isNumberToken(token)) })
}
