/**
 * Opinions about what the passes heard. They are asked in turn, and the first that has something to say decides. All of
 * them are listed in `opinions.ts`.
 */

import type { Decoded, Task } from './recogniser.ts'
import type { Recognition } from './recognition.ts'
import type { UtteranceSound } from './utteranceFinder.ts'

/**
 * Called as soon as there is an utterance, so that it can work on the sound while the passes do. Undefined where it is
 * not available.
 */
export type Opinion = (utterance: UtteranceSound, task: Task) => Revision | undefined

/**
 * What was heard, in the light of the opinion; undefined where it has none, so that the next one is asked. It cannot know
 * which value is right (law 2).
 *
 * @param found what the passes amount to
 * @param passes what each of them heard; only the first where they agreed at once
 * @param signal aborted when speech went on, so that nobody needs the answer any more
 */
export type Revision = (
  found: Recognition,
  passes: readonly Decoded[],
  signal: AbortSignal,
) => Promise<Recognition | undefined>
