/**
 * A frequency is read back with all of its digits: neither ICAO Annex 10 volume II 5.2.1.4.1.3 (from memory) nor FAA AIM
 * 4-2-8 (looked up) lets the first one go. What was understood without it is asked for in full.
 */

import { channelWithoutHundred } from '../../kinds/frequency.ts'
import type { Token } from '../../numbers/tokens.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Judgement, Part } from '../../response/model.ts'

/** `said`: the words that were judged. */
export function inFullForm({ figures }: Pack, judgement: Judgement, said: readonly Token[]): Judgement {
  const isCutShort = ({ name, state, heard }: Part) =>
    state === 'ok' &&
    heard !== undefined &&
    figures.declarations[name]?.spec.kind === 'frequency' &&
    isSaidWithoutHundred(heard, said)
  if (!judgement.parts.some(isCutShort)) return judgement
  const parts = judgement.parts.map((part): Part => {
    if (!isCutShort(part)) return part
    const { name, kind } = part
    return { name, kind, state: 'missing', lacks: 'digits' }
  })
  return { ...judgement, ...(judgement.verdict === 'correct' && { verdict: 'incomplete', because: 'missing' }), parts }
}

/** More words than a frequency has. */
const MOST_WORDS = 7

/** `channel`: as it was read, in full. */
function isSaidWithoutHundred(channel: string, said: readonly Token[]): boolean {
  return said.some(
    (_, from) =>
      said[from - 1]?.canon !== '1' &&
      Array.from({ length: MOST_WORDS }, (_, more) => said.slice(from, from + more + 1)).some(
        (words) => channelWithoutHundred(words) === channel,
      ),
  )
}
