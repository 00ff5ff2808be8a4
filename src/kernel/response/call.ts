/** The pilot's own call to a station: who calls, from where, with which information, and what for, in any order. */

import type { Transcript } from '../numbers/tokens.ts'
import { judge, vetoed } from './judge.ts'
import type { Judgement, TransmittedInput } from './model.ts'
import { placedSegments } from './placedSegments.ts'
import { isClear } from './readBack.ts'

/** Judges a call. Never throws. */
export function judgeCall(input: TransmittedInput): Judgement {
  const { alternatives: _, ...alone } = input
  const judgeTranscript = (heard: Transcript) => judgePlaced({ ...alone, heard }) ?? judge({ ...alone, heard })
  return vetoed(input, judgeTranscript(input.heard), judgeTranscript)
}

/** Where it is certain what each number is; undefined where it is not, or nothing clear comes of it. */
function judgePlaced(input: TransmittedInput): Judgement | undefined {
  const { response, figures, heard, phraseology = 'plain' } = input
  const segments = placedSegments({
    ...{ elements: [{ id: 'call', response }], figures, tokens: heard.tokens, held: new Set() },
    ...{ isPlain: phraseology === 'plain', isCall: true },
  })
  const [only, ...more] = segments === 'stray' ? [] : (segments ?? [])
  if (!only || more.length > 0) return undefined
  const judgement = judge({ ...input, heard: { ...heard, tokens: only.tokens } })
  return isClear(judgement) ? judgement : undefined
}
