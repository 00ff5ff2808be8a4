/**
 * Decides what was said in one utterance, wherever the passes and the opinions run. Page, command line and benchmarks
 * all decide here.
 */

import type { Opinion, Revision } from './opinion.ts'
import type { Decoded, Passes, Task } from './recogniser.ts'
import { combined, combinedWhileSpoken, type Recognition } from './recognition.ts'
import type { UtteranceSound } from './utteranceFinder.ts'

/** Who is asked: the passes, then the opinions in their order. */
export interface Hearers {
  readonly passes: Passes
  readonly opinions: readonly Opinion[]
}

export interface Decision {
  /** What the first pass heard, known at once. */
  readonly first: Decoded
  readonly recognition: Promise<Recognition>
}

/**
 * The passes have been given `task`, and where the utterance was followed while it came, all of its sound. If they agree
 * on that, it is enough; otherwise the whole is decoded anew. `signal` is aborted when speech goes on: then nobody needs
 * the answer any more, and no more work is begun for it.
 */
export function decideUtterance(
  utterance: UtteranceSound,
  task: Task,
  { passes, opinions }: Hearers,
  signal: AbortSignal,
): Decision {
  const revisions = opinions.flatMap((opinion) => opinion(utterance, task) ?? [])
  // The second is asked first: in its own thread it works while this one is busy.
  const second = Promise.resolve(passes.second.end())
  const first = passes.first.end()
  if (!first) return decideWhole(utterance, passes, revisions, signal)
  return { first, recognition: decideFollowed(first, second, utterance, passes, revisions, signal) }
}

async function decideFollowed(
  first: Decoded,
  second: Promise<Decoded | undefined>,
  utterance: UtteranceSound,
  passes: Passes,
  revisions: readonly Revision[],
  signal: AbortSignal,
): Promise<Recognition> {
  const found = combinedWhileSpoken(utterance.raw, first, await second)
  if (found) return revised(found, [first], revisions, signal)
  // The passes may be following what is said now, which must not be disturbed.
  if (signal.aborted) return { text: first.text, words: first.words, confidence: 0, doubt: 'unsure' }
  return decideWhole(utterance, passes, revisions, signal).recognition
}

function decideWhole(
  { raw, clean }: UtteranceSound,
  passes: Passes,
  revisions: readonly Revision[],
  signal: AbortSignal,
): Decision {
  const second = Promise.resolve(passes.second.decode(clean))
  const first = passes.first.decode(clean)
  const recognition = second.then((second) => revised(combined(raw, first, second), [first, second], revisions, signal))
  return { first, recognition }
}

/** By the first opinion that has something to say. */
async function revised(
  found: Recognition,
  passes: readonly Decoded[],
  revisions: readonly Revision[],
  signal: AbortSignal,
): Promise<Recognition> {
  for (const revise of revisions) {
    const said = await revise(found, passes, signal)
    if (said) return said
  }
  return found
}
