/** The second pass as the first pass's thread asks it. Where it fails or does not answer in time, the ear is broken. */

import { type Remote, wrap } from 'comlink'
import type { Vocabulary } from '../../../kernel/hearing/hearable.ts'
import { within } from '../../threads.ts'
import type { WarpFactor } from '../recogniser/warp.ts'
import type { RecogniserAnywhere } from '../utterance/recogniser.ts'
import type { SecondPassCalls } from './passCalls.ts'

/** A decoding that takes longer never comes: the thread died without a word, and nothing more would be heard. */
const PATIENCE_MS = 30_000

export interface SecondPassClient {
  readonly recogniser: RecogniserAnywhere
  learn(vocabulary: Vocabulary, dictionary: string): void
  warp(): Promise<WarpFactor>
  estimateWarp(): Promise<WarpFactor>
}

/** `port` leads to `SecondPassCalls`. After `broken` there are no more answers. */
export function secondPassClient(port: MessagePort, broken: (error: unknown) => void): SecondPassClient {
  const calls: Remote<SecondPassCalls> = wrap(port)
  const sure = <T>(answer: Promise<T>): Promise<T> =>
    answer.catch((error: unknown) => {
      broken(error)
      return new Promise<never>(() => {})
    })
  const soon = <T>(answer: Promise<T>): Promise<T> => sure(within(PATIENCE_MS, answer))
  return {
    recogniser: {
      expect: (task) => sure(calls.expect(task)),
      begin: (pcm) => sure(calls.begin(pcm)),
      push: (pcm) => sure(calls.push(pcm)),
      end: () => soon(calls.end()),
      decode: (pcm) => soon(calls.decode(pcm)),
      decodeOtherwise: (pcm) => soon(calls.decodeOtherwise(pcm)),
    },
    learn: (vocabulary, dictionary) => void sure(calls.learn(vocabulary, dictionary)),
    warp: () => sure(calls.warp()),
    estimateWarp: () => sure(calls.estimateWarp()),
  }
}
