/** Why the open item is to be passed: the answer to "say the reason". */

import { reasonIn } from '../response/commands.ts'
import type { EventBody } from '../run/core/events.ts'
import type { Utterance } from './utterance.ts'

/** Undefined where it is no reason. */
export function passReason({ said, evidence }: Utterance): EventBody | undefined {
  const reason = reasonIn(said.heard.tokens)
  return reason && { type: 'commanded', command: 'pass', argument: reason, evidence }
}
