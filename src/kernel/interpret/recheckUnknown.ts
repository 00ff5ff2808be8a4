/** "Recheck" or "go back to", and then what nothing is called. */

import { isRecheck } from '../response/commands.ts'
import type { EventBody } from '../run/core/events.ts'
import { answer } from './answer.ts'
import { command } from './command.ts'
import type { Utterance } from './utterance.ts'

/** Undefined where it is a command, or a right answer to the open item that begins so. */
export function recheckUnknown(utterance: Utterance): EventBody | undefined {
  const { said, evidence } = utterance
  if (!isRecheck(said.heard) || command(utterance)) return undefined
  const answered = answer(utterance)
  if (answered?.type === 'answered' && answered.judgement.verdict === 'correct') return undefined
  return { type: 'commanded', command: 'recheck', evidence }
}
