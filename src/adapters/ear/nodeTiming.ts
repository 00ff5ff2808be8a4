/** What the parts of a decision take in Node, and what it would take in a page, where they have threads of their own. */

import type { Recogniser } from './utterance/recogniser.ts'

/** Milliseconds of one decision; of a pass those of the first and of the second recogniser. */
export interface Spent {
  readonly end: [number, number]
  readonly decode: [number, number]
  readonly decodeOtherwise: [number, number]
  encode: number
  rescore: number
}

export const nothingSpent = (): Spent => ({
  ...{ end: [0, 0], decode: [0, 0], decodeOtherwise: [0, 0], encode: 0, rescore: 0 },
})

/** The two passes side by side, while the second model encodes the sound; then the model; then further passes. */
export function sideBySideMs({ end, decode, decodeOtherwise, encode, rescore }: Spent): number {
  return Math.max(Math.max(...end) + Math.max(...decode), encode) + rescore + Math.max(...decodeOtherwise)
}

/** The recogniser with its decoding timed. */
export function timed(recogniser: Recogniser, which: 0 | 1, spent: () => Spent): Recogniser {
  const time = <T>(how: 'end' | 'decode' | 'decodeOtherwise', work: () => T): T => {
    const before = performance.now()
    const done = work()
    spent()[how][which] += performance.now() - before
    return done
  }
  return {
    expect: (task) => recogniser.expect(task),
    begin: (pcm) => recogniser.begin(pcm),
    push: (pcm) => recogniser.push(pcm),
    end: () => time('end', () => recogniser.end()),
    decode: (pcm) => time('decode', () => recogniser.decode(pcm)),
    decodeOtherwise: (pcm) => time('decodeOtherwise', () => recogniser.decodeOtherwise(pcm)),
  }
}
